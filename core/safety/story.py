"""The temperature story of a food: what it meets along its chain of steps and waits, across dishes, until it is eaten.

It is read from a timetable by what steps do (`effects`) and how links say that food waits. Decided here:

- Food goes from step to step by end-to-start links inside its dish; into another dish it goes where a link brings
  something, or where the dish that it comes from is a component.
- Where steps come in loads, one story follows the first load of each and one the last.
- Food that waits in its vessel is where the step before left it: in the cold, held hot, else in the room.
- What is baked in an oven with a third or more of flour by weight is bread or biscuit and spoils no more (common
  practice, from memory); a filling that comes in later does.
- Raw meat and fish, ham and stock make no bread, and an egg told in pieces counts 50 g (USDA SR, a large one, M).
- What comes frozen and lies in the cold is taken to thaw there: after it, minutes count.
- Cooking makes it cooked. It begins a new count of the minutes between cold and hot; reheating does not.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from functools import cached_property

from core.plan.food import Arrival, Effect, FoodKind
from core.plan.ids import StationId, StepId
from core.plan.kitchen import COLD, StationKind
from core.plan.meaning import keep_of
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Holding, Wait
from core.safety.effects import Done, done_by
from core.safety.flour import floury
from core.safety.foods import SPOILS_COOKED, Food, foods_of
from core.safety.limits import UNTOLD_ROOM
from core.timetable.timetable import Placed, Stay, Timetable

MOST_PATHS = 32
"""Ways of one food through the menu that are followed."""


class Warmth(StrEnum):
    """What a food meets in a stretch."""

    COLD = "cold"
    BETWEEN = "between"
    COOKING = "cooking"
    HOT = "hot"
    COOLING = "cooling"
    FROZEN = "frozen"
    THAWING = "thawing"
    FERMENTING = "fermenting"


@dataclass(frozen=True, slots=True)
class Stretch:
    """Minutes [start, end) of a story, from plating: a step, or (`waits`) the wait after it.

    `around`: °C of the place, `told` or usual; `cooked`: it was cooked before; `dry`: it became bread. `done` of a wait
    is its step's.
    """

    start: int
    end: int
    warmth: Warmth
    step: StepId
    waits: bool
    done: Done
    around: Fraction
    told: bool
    cooked: bool
    station: StationId | None = None
    setting: int | None = None
    dry: bool = False

    @property
    def minutes(self) -> int:
        """Return how long it lasts."""
        return self.end - self.start


@dataclass(frozen=True)
class Story:
    """One food's stretches in order along one way through the menu. `eaten`: when it is served; None: it is kept."""

    food: Food
    path: tuple[StepId, ...]
    stretches: tuple[Stretch, ...]
    eaten: int | None

    @cached_property
    def cooked_at(self) -> int | None:
        """The index of the first stretch that cooks it."""
        return next((n for n, each in enumerate(self.stretches) if each.warmth is Warmth.COOKING), None)

    @cached_property
    def reheated(self) -> tuple[int, ...]:
        """The indices of stretches that warm again what was cooked and chilled."""
        found, chilled = [], False
        for number, each in enumerate(self.stretches):
            if each.warmth is Warmth.COOKING:
                if chilled:
                    found.append(number)
                chilled = False
            elif each.cooked and each.warmth in (Warmth.COLD, Warmth.FROZEN):
                chilled = True
        return tuple(found)

    def perishable(self, stretch: Stretch) -> bool:
        """Tell whether it spoils in a stretch: some foods do only once they were heated."""
        kind = self.food.kind
        if kind is None or kind is FoodKind.KEEPS or stretch.dry:
            return False
        return stretch.cooked if kind in SPOILS_COOKED else True


def stories(plan: Plan, timetable: Timetable) -> tuple[Story, ...]:
    """Return the stories of all foods of which something is placed, in the menu's order."""
    teller = _Teller(plan, timetable)
    found: list[Story] = []
    for food in foods_of(plan):
        if food.kind is not None:
            found += teller.stories(food)
    return tuple(found)


def with_more_ways(plan: Plan, timetable: Timetable) -> tuple[Food, ...]:
    """Return the foods that go more ways through the menu than are followed."""
    teller = _Teller(plan, timetable)
    return tuple(
        food
        for food in foods_of(plan)
        if food.kind not in (None, FoodKind.KEEPS)
        and sum(1 for _ in teller.paths(food.step, MOST_PATHS + 1)) > MOST_PATHS
    )


def carries(plan: Plan, link: Link) -> bool:
    """Tell whether food goes along a link."""
    if link.kind is not LinkKind.END_TO_START:
        return False
    source = plan.dish_of[link.before]
    return source.id == plan.dish_of[link.after].id or link.brings is not None or not source.served


class _Teller:
    """Tells stories of one plan and timetable."""

    def __init__(self, plan: Plan, timetable: Timetable) -> None:
        self.plan = plan
        self.timetable = timetable
        self._stays: dict[tuple[StepId, StepId | None, int], Stay] = {
            (stay.before, stay.after, stay.load): stay for stay in timetable.stays
        }
        self._room = Fraction(UNTOLD_ROOM if plan.kitchen.room is None else plan.kitchen.room)
        self._done: dict[tuple[StepId, int], Done] = {}

    @cached_property
    def _floury(self) -> frozenset[StepId]:
        """Steps whose food becomes bread where they bake it."""
        paths = ((food, self.paths(food.step)) for food in foods_of(self.plan))
        return floury((food, {step for path in own for step in path}) for food, own in paths)

    def stories(self, food: Food) -> Iterator[Story]:
        """Yield a food's stories, one for each way through the menu and end of its loads."""
        for path in self.paths(food.step):
            there = [self.timetable.loads_of.get(step, ()) for step in path]
            if not all(there):
                continue
            ends = (0, -1) if any(len(loads) > 1 for loads in there) else (0,)
            for end in ends:
                yield self._story(food, path, [loads[end] for loads in there])

    def paths(self, start: StepId, most: int = MOST_PATHS) -> Iterator[tuple[StepId, ...]]:
        """Yield the ways from a step to the ends of the menu, so many of them at the most."""
        waiting: list[tuple[StepId, ...]] = [(start,)]
        count = 0
        while waiting and count < most:
            path = waiting.pop()
            after = [link.after for link in self.plan.links_from[path[-1]] if carries(self.plan, link)]
            after = [each for each in after if each not in path]
            if not after:
                count += 1
                yield path
            waiting += [(*path, each) for each in reversed(after)]

    def _story(self, food: Food, path: tuple[StepId, ...], loads: list[Placed]) -> Story:
        found: list[Stretch] = []
        cooked, frozen, dry = food.kind is FoodKind.READY, food.arrives is Arrival.FROZEN, False
        for number, placed in enumerate(loads):
            own = self._of_step(placed, cooked, frozen)
            dry = dry or (
                own.warmth is Warmth.COOKING
                and placed.step in self._floury
                and StationKind.OVEN in own.done.kinds
            )
            own = replace(own, dry=dry)
            found.append(own)
            cooked = cooked or own.warmth is Warmth.COOKING
            frozen = own.warmth is Warmth.FROZEN or (frozen and own.warmth not in _THAW)
            if number + 1 < len(loads):
                link = self._link(placed.step, path[number + 1])
                begins = loads[number + 1].start
                if begins > placed.end:
                    waits = self._of_wait(own, placed, link.after, link.wait, (placed.end, begins), cooked)
                    frozen = frozen and waits.warmth is not Warmth.COLD
                    found.append(waits)
        eaten = self._eaten(path[-1])
        last = loads[-1]
        if eaten is not None and eaten > last.end:
            keep = keep_of(self.plan, self.plan.steps[last.step])
            wait = keep.wait if keep is not None else Wait()
            found.append(self._of_wait(found[-1], last, None, wait, (last.end, eaten), cooked))
        return Story(food, path, tuple(found), eaten)

    def _eaten(self, step: StepId) -> int | None:
        keep = keep_of(self.plan, self.plan.steps[step])
        return None if keep is None else self.plan.dish_of[step].course

    def _link(self, before: StepId, after: StepId) -> Link:
        return next(
            link
            for link in self.plan.links_from[before]
            if link.after == after and link.kind is LinkKind.END_TO_START
        )

    def done(self, placed: Placed) -> Done:
        """Return what a placed step does."""
        key = (placed.step, placed.way)
        if key not in self._done:
            self._done[key] = done_by(self.plan, self.plan.steps[placed.step], placed)
        return self._done[key]

    def _of_step(self, placed: Placed, cooked: bool, frozen: bool) -> Stretch:
        done = self.done(placed)
        warmth = _WARMTH[done.effect]
        if done.effect is Effect.COOL and not cooked:
            warmth = Warmth.BETWEEN
        if frozen and warmth is Warmth.BETWEEN:
            warmth = Warmth.FROZEN
        if warmth in (Warmth.THAWING, Warmth.COLD):
            warmth = self._in_the_cold(warmth, done)
        around, told = self._around(placed.spots[0].station if placed.spots else None, done.kinds, warmth)
        return Stretch(
            placed.start,
            placed.end,
            warmth,
            placed.step,
            False,
            done,
            around,
            told,
            cooked,
            placed.spots[0].station if placed.spots else None,
            placed.setting,
        )

    def _in_the_cold(self, warmth: Warmth, done: Done) -> Warmth:
        """Marinating and chilling are cold only in a cold place; thawing is thawing anywhere."""
        if warmth is Warmth.THAWING or done.kinds & COLD:
            return warmth
        told = done.effect is Effect.CHILL and not done.kinds
        return Warmth.COLD if told else Warmth.BETWEEN

    def _of_wait(
        self,
        before: Stretch,
        placed: Placed,
        after: StepId | None,
        wait: Wait,
        times: tuple[int, int],
        cooked: bool,
    ) -> Stretch:
        stay = self._stays.get((placed.step, after, placed.load)) or self._stays.get((placed.step, after, 0))
        kinds = frozenset({wait.use.kind}) if wait.use is not None else frozenset()
        station = stay.spots[0].station if stay is not None and stay.spots else None
        warmth, kept_at = _held(wait, kinds), None
        if wait.how is Holding.VESSEL and not kinds:
            stays_there = before.warmth in (Warmth.COLD, Warmth.FROZEN, Warmth.HOT)
            warmth = before.warmth if stays_there else Warmth.BETWEEN
            station = before.station if stays_there else None
            kept_at = before.setting if stays_there else None
        if before.warmth is Warmth.FROZEN and warmth is Warmth.BETWEEN:
            warmth = (
                Warmth.FROZEN if before.waits is False and before.done.effect is not Effect.FREEZE else warmth
            )
        around, told = self._around(station, kinds, warmth)
        setting = stay.setting if stay is not None else None
        if setting is None and wait.use is not None and wait.use.heat is not None:
            setting = wait.use.heat.setting
        setting = kept_at if setting is None else setting
        done = before.done
        made = Stretch(*times, warmth, placed.step, True, done, around, told, cooked, station, setting)
        return replace(made, dry=before.dry)

    def _around(
        self, station: StationId | None, kinds: frozenset[StationKind], warmth: Warmth
    ) -> tuple[Fraction, bool]:
        """Return °C of a place, and whether that is told."""
        place = self.plan.kitchen.station.get(station) if station is not None else None
        if place is not None and place.keeps_at is not None:
            return Fraction(place.keeps_at), True
        if StationKind.FREEZER in kinds or (warmth is Warmth.FROZEN and not kinds):
            return Fraction(-18), False
        if kinds & COLD or (warmth is Warmth.COLD and not kinds):
            return Fraction(4), False
        return self._room, self.plan.kitchen.room is not None


_WARMTH: dict[Effect, Warmth] = {
    Effect.PREPARE: Warmth.BETWEEN,
    Effect.CLEAN: Warmth.BETWEEN,
    Effect.COOK: Warmth.COOKING,
    Effect.REHEAT: Warmth.COOKING,
    Effect.HOLD: Warmth.HOT,
    Effect.COOL: Warmth.COOLING,
    Effect.COOL_IN_ICE: Warmth.COOLING,
    Effect.CHILL: Warmth.COLD,
    Effect.FREEZE: Warmth.FROZEN,
    Effect.THAW: Warmth.THAWING,
    Effect.THAW_IN_WATER: Warmth.THAWING,
    Effect.MARINATE: Warmth.COLD,
    Effect.CURE: Warmth.COLD,
    Effect.FERMENT: Warmth.FERMENTING,
}


_THAW = frozenset({Warmth.THAWING, Warmth.COOKING, Warmth.COLD})


def _held(wait: Wait, kinds: frozenset[StationKind]) -> Warmth:
    if wait.how is Holding.FREEZER or StationKind.FREEZER in kinds:
        return Warmth.FROZEN
    if wait.how is Holding.FRIDGE or kinds & COLD:
        return Warmth.COLD
    if wait.how is Holding.HOT or kinds & {StationKind.WARM_DRAWER, StationKind.HOT_BOX}:
        return Warmth.HOT
    return Warmth.BETWEEN
