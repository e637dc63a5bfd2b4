"""A menu moved from one kitchen to another: what its steps name is looked for there, what is not there comes along."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from core.measures.words import join_words, plural
from core.plan.check_hands import hands_problems
from core.plan.check_places import place_troubles
from core.plan.check_problem import Family
from core.plan.check_words import Words, a_kind, short, station_name
from core.plan.edits.library_inner import inside, mapped
from core.plan.edits.strays import without_strays
from core.plan.ids import CookId, StationId, StepId, VesselId, fresh
from core.plan.kitchen import Cook, Kitchen, Station, StationKind, Vessel
from core.plan.plan import Plan
from core.plan.step import Step, Use, VesselUse


class Moved(NamedTuple):
    """The plan in its new kitchen, and in sentences what is otherwise than it was."""

    plan: Plan
    notes: tuple[str, ...]


@dataclass
class Move:
    """One move. What the new kitchen cannot give is brought along, bit by bit, until the plan holds.

    `own_vessels`: steps that keep their own vessels; `besides`: kinds of which the old stations come along;
    `instead`: kinds of which they take the place of the new ones, since both together would not do.
    """

    plan: Plan
    kitchen: Kitchen
    own_vessels: set[StepId] = field(default_factory=set)
    besides: set[StationKind] = field(default_factory=set)
    instead: set[StationKind] = field(default_factory=set)
    notes: list[str] = field(default_factory=list)

    def done(self) -> Moved:
        """Return the plan moved: valid where the old one and the new kitchen were."""
        made = self._tried()
        while self._more(made):
            made = self._tried()
        made = self._with_hands(made)
        kept = without_strays(made)
        lifted = len(made.decisions.pins) - len(kept.decisions.pins) + _loosened(made, kept)
        if lifted:
            which = "which are" if lifted > 1 else "which is"
            self.notes.append(f"{plural(lifted, 'pin')} lifted, {which} to a place or a cook that is not there.")
        return Moved(kept, tuple(self.notes))

    def _more(self, made: Plan) -> bool:
        """Bring along more of what is in trouble; return whether there was anything to bring."""
        for kind, trouble in place_troubles(made):
            if kind is None:
                continue
            steps = {step for step in self.plan.steps if step in trouble.about} - self.own_vessels
            if trouble.family is Family.VESSELS and steps:
                self.own_vessels |= steps
                return True
            for level in (self.besides, self.instead):
                if kind not in level and self.plan.kitchen.of_kind(kind):
                    level.add(kind)
                    return True
        return False

    def _tried(self) -> Plan:
        """Return the plan in the new kitchen with what is brought along so far."""
        self.notes = []
        stations, brought = self._stations()
        vessels, names = self._vessels(brought)
        kitchen = replace(self.kitchen, stations=stations, vessels=vessels)
        words = Words(self.plan)
        dropped: dict[StationId, None] = {}

        def use_there(use: Use) -> Use:
            if use.station is None:
                return use
            there = brought.get(use.station, use.station)
            found = kitchen.station.get(there)
            if found is not None and found.kind is use.kind:
                return replace(use, station=there)
            dropped[use.station] = None
            return replace(use, station=None)

        menu = mapped(self.plan.menu, Use, use_there)
        menu = mapped(menu, Step, lambda step: _in_vessels(step, self._names_for(step, names)))
        for each in dropped:
            kind = self.plan.kitchen.station[each].kind if each in self.plan.kitchen.station else None
            any_of = f"any {kind}" if kind is not None else "any place of its kind"
            self.notes.append(f"{words.station(each)} is not there: what stood in it or on it takes {any_of}.")
        pins = tuple(
            pin if pin.station is None else replace(pin, station=brought.get(pin.station, pin.station))
            for pin in self.plan.decisions.pins
        )
        decisions = replace(self.plan.decisions, pins=pins)
        return replace(self.plan, menu=menu, kitchen=_with_counts(kitchen, menu_steps(menu)), decisions=decisions)

    # ---- stations

    def _stations(self) -> tuple[tuple[Station, ...], dict[StationId, StationId]]:
        """Return the stations there will be, and the new ids of those that are brought along."""
        kept = [each for each in self.kitchen.stations if each.kind not in self.instead]
        old = [each for each in self.plan.kitchen.stations if each.kind in self.besides | self.instead]
        old = [each for each in old if each not in kept]
        taken = {each.id for each in kept}
        names: dict[StationId, StationId] = {}
        for each in old:
            names[each.id] = each.id if each.id not in taken else StationId(fresh(each.id, taken))
            taken.add(names[each.id])
        along = [
            replace(
                each,
                id=names[each.id],
                not_with=tuple(names[other] for other in each.not_with if other in names),
            )
            for each in old
        ]
        kept = [
            replace(each, not_with=tuple(other for other in each.not_with if other in taken)) for each in kept
        ]
        self.notes += self._stations_said(old)
        return (*kept, *along), names

    def _stations_said(self, old: list[Station]) -> Iterator[str]:
        where = short(self.kitchen.name)
        for kind in dict.fromkeys(each.kind for each in old):
            names = [station_name(each) for each in old if each.kind is kind]
            those, stay, come = join_words(names), "stays", "is brought along"
            if len(names) > 1:
                stay, come = "stay", "are brought along"
            there = self.kitchen.of_kind(kind)
            if kind in self.instead:
                yield f"{where} has no {kind}s that do for all of the menu: {those} {stay} in their place."
            elif there:
                has = a_kind(kind) if len(there) == 1 else f"{kind}s"
                yield f"{where} has {has}, but not enough for all of the menu: {those} {come}."
            else:
                yield f"{where} has no {kind}: {those} {come}."

    # ---- vessels

    def _vessels(
        self, brought: dict[StationId, StationId]
    ) -> tuple[tuple[Vessel, ...], dict[tuple[VesselId, bool], VesselId]]:
        """Return the vessels there will be, and what each old one is called there, mapped and (True) as its own."""
        there = list(self.kitchen.vessels)
        names: dict[tuple[VesselId, bool], VesselId] = {}
        wanted = dict.fromkeys(
            (use.vessel, step.id in self.own_vessels) for step in self.plan.steps.values() for use in step.vessels
        )
        along: list[str] = []
        for old, own in wanted:
            vessel = self.plan.kitchen.vessel.get(old)
            if vessel is None:
                continue
            found = _alike(there, vessel, exactly=own)
            if found is None:
                found = self._brought(vessel, brought, {each.id for each in there})
                there.append(found)
                along.append(_sized(vessel))
            names[old, own] = found.id
        if along:
            several = "are" if len(along) > 1 else "is"
            self.notes.append(f"{join_words(list(dict.fromkeys(along)))} {several} brought along.")
        return tuple(there), names

    def _brought(self, vessel: Vessel, brought: dict[StationId, StationId], taken: set[VesselId]) -> Vessel:
        """Return a vessel as it is in the new kitchen: what it is said to fit is what of that is there."""
        own = vessel.id if vessel.id not in taken else VesselId(fresh(vessel.id, taken))
        fits = []
        for station in vessel.fits:
            kind = self.plan.kitchen.station[station].kind if station in self.plan.kitchen.station else None
            same = self.kitchen.station.get(station)
            if station in brought:
                fits.append(brought[station])
            elif same is not None and same.kind is kind and kind not in self.instead:
                fits.append(station)
        return replace(vessel, id=own, fits=tuple(fits))

    def _names_for(
        self, step: Step, names: dict[tuple[VesselId, bool], VesselId]
    ) -> dict[VesselId, VesselId]:
        own = step.id in self.own_vessels
        return {old: there for (old, as_own), there in names.items() if as_own is own}

    # ---- hands

    def _with_hands(self, made: Plan) -> Plan:
        """Return the plan with as many of the old cooks as its steps ask for beyond the new ones."""
        along: list[Cook] = []
        taken = {each.id for each in made.kitchen.cooks}
        for cook in self.plan.kitchen.cooks:
            if not any(True for _each in hands_problems(made)):
                break
            if cook in made.kitchen.cooks:
                continue
            new = replace(cook, id=cook.id if cook.id not in taken else CookId(fresh(cook.id, taken)))
            taken.add(new.id)
            along.append(new)
            made = replace(made, kitchen=replace(made.kitchen, cooks=(*made.kitchen.cooks, new)))
        if along:
            names = join_words([short(each.name) or each.id for each in along])
            comes = "come" if len(along) > 1 else "comes"
            self.notes.append(f"{names} {comes} along: the menu takes more hands or skills than are there.")
        return made


def menu_steps(menu: object) -> tuple[Step, ...]:
    """Return the steps inside a menu."""
    return tuple(inside(menu, Step))


def _alike(there: list[Vessel], vessel: Vessel, *, exactly: bool) -> Vessel | None:
    """Return the vessel of the new kitchen that is the one meant: by id, else by name and size; None: not there."""
    same = [each for each in there if each.id == vessel.id] + [each for each in there if each.id != vessel.id]
    if exactly:
        return next((each for each in same if not vessel.fits and replace(each, id=vessel.id) == vessel), None)
    return next((each for each in same if each.id == vessel.id or _by_name(each) == _by_name(vessel)), None)


def _by_name(vessel: Vessel) -> tuple[str, str]:
    return " ".join(vessel.name.casefold().split()), " ".join(vessel.size.casefold().split())


def _sized(vessel: Vessel) -> str:
    size = f" ({short(vessel.size)})" if vessel.size else ""
    return f"{short(vessel.name) or vessel.id}{size}"


def _in_vessels(step: Step, names: dict[VesselId, VesselId]) -> Step:
    """Return a step with its vessels as they are called now; two that became one are taken together."""
    counts: dict[VesselId, int] = {}
    for use in step.vessels:
        there = names.get(use.vessel, use.vessel)
        counts[there] = counts.get(there, 0) + use.count
    return replace(step, vessels=tuple(VesselUse(vessel, count) for vessel, count in counts.items()))


def _with_counts(kitchen: Kitchen, steps: tuple[Step, ...]) -> Kitchen:
    """Return the kitchen with as many of each vessel as the fullest step takes."""
    most: dict[VesselId, int] = {}
    for use in (use for step in steps for use in step.vessels):
        most[use.vessel] = max(most.get(use.vessel, 0), use.count)
    vessels = tuple(
        replace(each, count=max(each.count, most.get(each.id, 0))) for each in kitchen.vessels
    )
    return kitchen if vessels == kitchen.vessels else replace(kitchen, vessels=vessels)


def _loosened(made: Plan, kept: Plan) -> int:
    """Return how many pins lost a station or a cook but hold something else."""
    before = {(pin.step, pin.load): pin for pin in made.decisions.pins}
    return sum(1 for pin in kept.decisions.pins if before[pin.step, pin.load] != pin)
