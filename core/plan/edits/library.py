"""Dishes as values of their own: a copy goes into a plan, a copy goes out of it; neither knows the other after."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.measures.quantity_show import show_quantity
from core.measures.refusal import quoted
from core.measures.words import join_words, plural
from core.plan.check_places import use_problems
from core.plan.check_words import Words, short
from core.plan.edits.dishes import AddDish
from core.plan.edits.edit import Edit
from core.plan.edits.library_inner import inside, mapped
from core.plan.edits.parts import dish_in, with_kitchen
from core.plan.edits.said import Said
from core.plan.ids import DishId, StationId, StepId, VesselId, fresh, local_part, step_id
from core.plan.kitchen import Kitchen, StationKind, Vessel
from core.plan.menu import Dish, Link
from core.plan.plan import Plan
from core.plan.step import Use, VesselUse

_MOST_LINKS_SAID = 3

StationNames = tuple[tuple[StationId, str], ...]
"""What stations are called, by id: another kitchen's are looked for by name."""


@dataclass(frozen=True, slots=True)
class OwnCopy:
    """A dish by itself: links between its own steps, the vessels they name, what its named stations are called."""

    dish: Dish
    links: tuple[Link, ...] = ()
    vessels: tuple[Vessel, ...] = ()
    stations: StationNames = ()

    @property
    def kinds(self) -> tuple[StationKind, ...]:
        """Return the kinds of stations that it asks for, by way of its steps or while it waits."""
        found = {use.kind for use in inside((self.dish, self.links), Use)}
        return tuple(kind for kind in StationKind if kind in found)


def own_copy(plan: Plan, dish: DishId) -> OwnCopy:
    """Return a dish of a plan by itself, without pins or chosen ways; refuse one that is not there."""
    found = dish_in(plan, dish)
    links = tuple(link for link in plan.menu.links if _within(link, found))
    vessels = {use.vessel for use in inside(found, VesselUse)}
    stations = {use.station for use in inside((found, links), Use)}
    return OwnCopy(
        found,
        links,
        tuple(each for each in plan.kitchen.vessels if each.id in vessels),
        tuple((each.id, each.name) for each in plan.kitchen.stations if each.id in stations),
    )


def left_behind(plan: Plan, dish: DishId) -> tuple[str, ...]:
    """Return in sentences what a copy of a dish does not take along: its links with other dishes."""
    found = dish_in(plan, dish)
    steps = {step.id for step in found.steps}
    across = [link for link in plan.menu.links if (link.before in steps) != (link.after in steps)]
    return _links_said(across, Words(plan))


@dataclass(frozen=True, slots=True)
class TakeDish(Edit):
    """Put a copy of a dish of the cook's own on the menu, last: with new ids, in this kitchen's places and vessels.

    A named station becomes the one of that name and kind here, else any of its kind. A vessel that is not here
    comes along. Links that leave the dish are dropped. `notes` says all that in sentences.
    """

    dish: Dish
    links: tuple[Link, ...] = ()
    vessels: tuple[Vessel, ...] = ()
    stations: StationNames = ()

    @classmethod
    def of(cls, copy: OwnCopy, wanted: int | None = None) -> TakeDish:
        """Return the edit for a copy, for so many servings where its recipe is scaled by servings."""
        dish = copy.dish
        if wanted is not None and dish.scale is None:
            dish = replace(dish, wanted=wanted)
        return cls(dish, copy.links, copy.vessels, copy.stations)

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Take in {words.name(self.dish.name)}"

    def new_id(self, plan: Plan) -> DishId:
        """Return the id that the dish gets."""
        return self.dish.id if self.dish.id not in plan.dishes else DishId(fresh(self.dish.id, plan.dishes))

    def new_name(self, plan: Plan) -> str:
        """Return the name that the dish gets: its own, with a number where a dish of the menu bears it."""
        taken = {dish.name.casefold() for dish in plan.menu.dishes}
        name, number = self.dish.name, 2
        while name.casefold() in taken:
            name, number = f"{self.dish.name} {number}", number + 1
        return name

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the copy and with the vessels that it brings along."""
        vessels = self._vessels(plan.kitchen)
        brought = tuple(here for here, new in vessels.values() if new)
        if brought:
            plan = with_kitchen(plan, vessels=(*plan.kitchen.vessels, *brought))
        names = {old: here.id for old, (here, _new) in vessels.items()}
        places = self._places(plan.kitchen)
        new = self.new_id(plan)
        ids = {step.id: step_id(new, local_part(step.id)) for step in self.dish.steps}
        dish, links = mapped(
            (self._renamed(plan, new, ids), self._own_links(ids)),
            Use,
            lambda use: replace(use, station=places.get(use)),
        )
        dish = mapped(dish, VesselUse, lambda use: replace(use, vessel=names.get(use.vessel, use.vessel)))
        return AddDish(dish, links).change(plan)

    def notes(self, plan: Plan) -> tuple[str, ...]:
        """Return in sentences what of the dish is otherwise in this plan than where it was kept."""
        found = []
        if (name := self.new_name(plan)) != self.dish.name:
            found.append(f"It is called “{short(name)}” here: there is one of its name already.")
        brought = [_sized(here) for here, new in self._vessels(plan.kitchen).values() if new]
        if brought:
            found.append(f"Brought along into the kitchen: {join_words(brought)}.")
        found += self._places_said(plan.kitchen)
        out = [link for link in self.links if not _within(link, self.dish)]
        if out:
            found.append(f"{plural(len(out), 'link')} with other dishes left out.")
        return tuple(found)

    def _renamed(self, plan: Plan, new: DishId, ids: dict[StepId, StepId]) -> Dish:
        codes = {dish.code.casefold() for dish in plan.menu.dishes}
        return replace(
            self.dish,
            id=new,
            name=self.new_name(plan),
            code="" if self.dish.code.casefold() in codes else self.dish.code,
            steps=tuple(replace(step, id=ids[step.id]) for step in self.dish.steps),
            ingredients=tuple(
                each if each.step is None else replace(each, step=ids.get(each.step))
                for each in self.dish.ingredients
            ),
        )

    def _own_links(self, ids: dict[StepId, StepId]) -> tuple[Link, ...]:
        own = (link for link in self.links if _within(link, self.dish))
        return tuple(replace(link, before=ids[link.before], after=ids[link.after]) for link in own)

    def _vessels(self, kitchen: Kitchen) -> dict[VesselId, tuple[Vessel, bool]]:
        """Return for each vessel of the dish the one to use here, and whether it is brought along."""
        found: dict[VesselId, tuple[Vessel, bool]] = {}
        free = list(kitchen.vessels)
        taken = {each.id for each in kitchen.vessels}
        for vessel in self.vessels:
            alike = [each for each in free if _alike(each, vessel)]
            if alike:
                here = next((each for each in alike if each.id == vessel.id), alike[0])
                free.remove(here)
                found[vessel.id] = here, False
                continue
            new = vessel.id if vessel.id not in taken else VesselId(fresh(vessel.id, taken))
            taken.add(new)
            fits = tuple(each for each in vessel.fits if each in kitchen.station)
            found[vessel.id] = replace(vessel, id=new, fits=fits), True
        return found

    def _places(self, kitchen: Kitchen) -> dict[Use, StationId]:
        """Return the station here of each use that names one, where there is such a station and it does."""
        found = {}
        for use in self._named_uses():
            for station in self._candidates(kitchen, use):
                if not any(use_problems(kitchen, replace(use, station=station), "")):
                    found[use] = station
                    break
        return found

    def _candidates(self, kitchen: Kitchen, use: Use) -> Iterator[StationId]:
        """Yield the stations of a use's kind that may be the one it names: by name first, then by id."""
        name = self._called(use)
        alike = [each for each in kitchen.of_kind(use.kind) if name and each.name.casefold() == name.casefold()]
        alike.sort(key=lambda each: each.id != use.station)  # of several with one name the one of the same id
        yield from (each.id for each in alike)
        by_id = kitchen.station.get(StationId(str(use.station)))
        if by_id is not None and by_id.kind is use.kind and not (name and alike):
            yield by_id.id

    def _places_said(self, kitchen: Kitchen) -> list[str]:
        here = self._places(kitchen)
        found: dict[str, None] = {}
        for use in self._named_uses():
            if use not in here:
                name = quoted(self._called(use) or str(use.station))
                found[f"{name} is not to be had in this kitchen: any {use.kind} may be taken."] = None
        return list(found)

    def _named_uses(self) -> Iterator[Use]:
        links = tuple(link for link in self.links if _within(link, self.dish))
        return (use for use in dict.fromkeys(inside((self.dish, links), Use)) if use.station is not None)

    def _called(self, use: Use) -> str:
        return next((name for station, name in self.stations if station == use.station), "")


def _within(link: Link, dish: Dish) -> bool:
    steps = {step.id for step in dish.steps}
    return link.before in steps and link.after in steps


def _alike(here: Vessel, wanted: Vessel) -> bool:
    """Tell whether a vessel of the kitchen is what a dish calls by that name; sizes count where both are told."""
    one, other = (" ".join(each.size.casefold().split()) for each in (here, wanted))
    return here.name.strip().casefold() == wanted.name.strip().casefold() and (not one or not other or one == other)


def _sized(vessel: Vessel) -> str:
    size = f" ({short(vessel.size)})" if vessel.size else ""
    return f"{short(vessel.name) or vessel.id}{size}"


def _links_said(links: list[Link], words: Words) -> tuple[str, ...]:
    """Return that links are left out, the first few by name."""
    if not links:
        return ()
    names = []
    for link in links[:_MOST_LINKS_SAID]:
        brings = "" if link.brings is None else f" ({show_quantity(link.brings)} of what it yields)"
        names.append(f"{words.step(link.before)}, then {words.step(link.after)}{brings}")
    more = len(links) - len(names)
    if more:
        names.append(f"{more} more")
    return (f"Left out, as other dishes belong to it: {'; '.join(names)}.",)
