"""The names that a line may use: the kitchen's stations, vessels and skills, and steps that it can follow."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cached_property

from core.measures.words import plural_of
from core.plan.ids import DishId, StationId, StepId, VesselId, dish_part, local_part
from core.plan.kitchen import Kitchen, Station, StationKind, Vessel
from core.plan.plan import Plan

KIND_WORDS: Mapping[str, StationKind] = {
    **{kind.value: kind for kind in StationKind},
    **dict.fromkeys(("ring", "hob", "stove", "stovetop"), StationKind.BURNER),
    "barbecue": StationKind.GRILL,
    "refrigerator": StationKind.FRIDGE,
}
"""Words for kinds of places."""

_APART = re.compile(r" (?:with|for|of|and|in|on|by)\b.*|,.*|\(.*")
_CODE = re.compile(r"[a-z]{1,3}-?\d{1,2}")
_SKILL = re.compile(r"[^\W\d_][\w -]*")


@dataclass(frozen=True)
class Names:
    """What a line can name. `steps` are (id, what it does); `dish` is the one that the line belongs to."""

    stations: tuple[Station, ...] = ()
    vessels: tuple[Vessel, ...] = ()
    skills: tuple[str, ...] = ()
    steps: tuple[tuple[StepId, str], ...] = ()
    dish: DishId | None = None

    @classmethod
    def of_kitchen(
        cls, kitchen: Kitchen, steps: tuple[tuple[StepId, str], ...] = (), dish: DishId | None = None
    ) -> Names:
        """Return the names of a kitchen, and of steps that are told."""
        skills = dict.fromkeys(skill for cook in kitchen.cooks for skill in cook.skills)
        return cls(kitchen.stations, kitchen.vessels, tuple(skills), steps, dish)

    @classmethod
    def of(cls, plan: Plan, dish: DishId | None = None, but: StepId | None = None) -> Names:
        """Return the names of a plan, for a line of one of its dishes; `but` is the step of the line itself."""
        steps = tuple((step.id, step.does) for step in plan.steps.values() if step.id != but)
        return cls.of_kitchen(plan.kitchen, steps, dish)

    @cached_property
    def station_kind(self) -> Mapping[StationId, StationKind]:
        """Kinds of the stations."""
        return {each.id: each.kind for each in self.stations}

    @cached_property
    def station_of(self) -> Mapping[str, StationId]:
        """Stations by every name that means one of them alone, in small letters; a word for a kind is no name."""
        found = _unique((each.id, _spoken(each.id, each.name)) for each in self.stations)
        ids = {each.id.casefold(): each.id for each in self.stations}
        return {name: StationId(at) for name, at in found.items() if name not in KIND_WORDS} | ids

    @cached_property
    def vessel_of(self) -> Mapping[str, VesselId]:
        """Vessels by every name, one or several of them, that means one kind alone, in small letters."""
        one = _unique((each.id, _spoken(each.id, each.name)) for each in self.vessels)
        many = {plural_of(name): each for name, each in one.items()}
        ids = {each.id.casefold(): each.id for each in self.vessels}
        return {name: VesselId(at) for name, at in {**many, **one, **ids}.items()}

    @cached_property
    def skill_of(self) -> Mapping[str, str]:
        """Skills by their words in small letters."""
        return {each.casefold(): each for each in self.skills if _SKILL.fullmatch(each)}

    @cached_property
    def step_of(self) -> Mapping[str, StepId]:
        """Steps by every name that means one of them alone: id, id in this dish, what it does, and its verb."""
        found: dict[str, StepId] = {}
        here = [each for each in self.steps if dish_part(each[0]) == self.dish]
        for steps in (self.steps, here):
            found |= {
                name: StepId(at) for name, at in _unique((at, _called(does)) for at, does in steps).items()
            }
        found |= {local_part(at).casefold(): at for at, _ in here}
        return found | {at.casefold(): at for at, _ in self.steps}

    @cached_property
    def stations_met(self) -> re.Pattern[str] | None:
        """Pattern of a station's name."""
        return _any_of(self.station_of)

    @cached_property
    def vessels_met(self) -> re.Pattern[str] | None:
        """Pattern of a vessel's name."""
        return _any_of(self.vessel_of)

    @cached_property
    def steps_met(self) -> re.Pattern[str] | None:
        """Pattern of a step's name."""
        return _any_of(self.step_of)


def near(word: str, known: Iterable[str], cutoff: float = 0.6) -> str:
    """Return the known word most like another, "" when none is near."""
    return next(iter(get_close_matches(word.casefold(), list(known), 1, cutoff)), "")


def _spoken(id: str, name: str) -> list[str]:  # noqa: A002  the word the field bears
    """Return how people call a thing: its id, its name, the end of its name without the trimmings, its code."""
    plain = " ".join(name.casefold().split())
    words = _APART.sub("", plain).split()
    ends = [" ".join(words[at:]) for at in range(len(words))]
    return [id.casefold(), id.casefold().replace("-", " "), plain, *ends, *_CODE.findall(" ".join(words))]


def _called(does: str) -> list[str]:
    """Return how a step is called: all that it does, that up to the first comma, and its first word."""
    plain = " ".join(does.casefold().split())
    head = re.split(r"[,;:]", plain)[0].strip()
    return [plain, head, head.partition(" ")[0]]


def _unique(things: Iterable[tuple[str, list[str]]]) -> dict[str, str]:
    owners: dict[str, set[str]] = {}
    for at, names in things:
        for name in names:
            if len(name) > 1:
                owners.setdefault(name, set()).add(at)
    return {name: next(iter(ats)) for name, ats in owners.items() if len(ats) == 1}


def _any_of(names: Iterable[str]) -> re.Pattern[str] | None:
    longest = sorted(names, key=lambda each: (-len(each), each))
    if not longest:
        return None
    return re.compile(rf"(?:{'|'.join(map(re.escape, longest))})(?![\w-])", re.IGNORECASE)
