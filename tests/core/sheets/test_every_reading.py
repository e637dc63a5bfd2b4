"""The temperature log read back by poppler: each reading once, in its minute, beside its limit, and nothing else."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import timedelta

import pytest

from core.plan import meaning
from core.plan.food import Effect
from core.plan.ids import StepId
from core.plan.kitchen import COLD, HEATED, StationKind
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Holding, Step
from core.sheets.kinds import SheetKind
from core.timetable.timetable import Placed, Timetable
from tests.core.sheets.feasts import FEASTS, printed
from tests.core.sheets.paper_rows import temperature_rows
from tests.core.sheets.reading import on_the_wall, squeezed
from tests.core.sheets.told import clock_said, day_said, dish_said, does_said, load_said

CASES = [*((name, "A4") for name in FEASTS), *(("hall", page) for page in ("A4 across", "Letter", "Letter across"))]
_COLD_WAYS = frozenset({Holding.FRIDGE, Holding.FREEZER})
HOT = HEATED | {StationKind.BURNER}
COOLED = ((0, "write down; the clock runs from 57 °C"), (120, "21 °C or less"), (360, "5 °C or less"))
"""US FDA Food Code 2022, 3-501.14(A): from 57 °C to 21 °C within 2 h, to 5 °C within 6 h in all."""
HELD, CHILLED, REHEATED = "60 °C or more", "4.4 °C or less", "73.9 °C or more"
"""USDA FSIS: hot food at 140 °F or above, a refrigerator at 40 °F or below; FoodSafety.gov: leftovers to 165 °F."""


@dataclass(frozen=True)
class Reading:
    """One reading: its minute, how its row begins (a pattern of squeezed text), what limit it holds."""

    at: int
    opens: str
    limit: str


def readings(plan: Plan, timetable: Timetable) -> list[Reading]:
    """Return each core temperature, each stage of cooling while the food is there, each hour of holding hot."""
    found = []
    for placed in timetable.placed:
        step, dish = plan.steps[placed.step], plan.dish_of[placed.step]
        head, load = dish_said(dish) + ".*?", re.escape(load_said(plan, placed))
        does = re.escape(does_said(plan, placed)[:30]) + ".*?"
        core = None if step.doneness is None else step.doneness.core
        if core is not None:
            outs = {hand.start for hand in placed.hands if hand.start + hand.minutes == placed.end > hand.start}
            out = meaning.transfers(plan, step, placed.way)[1]
            at = placed.end - out if placed.end - out in outs else placed.end
            again = f"; reheating: {REHEATED}" if effect(step) is Effect.REHEAT else ""
            limit = f"core {core} °C{again}"
            found.append(Reading(at, head + does + load, limit))
        if cools(plan, timetable, placed):
            for after, limit in COOLED:
                if placed.start + after <= last_there(plan, timetable, placed.step):
                    lead = "startofcooling:" if after == 0 else f"after{after // 60}h:"
                    found.append(Reading(placed.start + after, head + lead + does + load, limit))
        held = [(placed.start, placed.end)] if effect(step) is Effect.HOLD else []
        for start, end in [*held, *hot_waits(plan, timetable, placed)]:
            hours = sorted({*range(start, end, 60), end})
            found += [Reading(at, f"{head}heldhot(?::{does})?{load}", HELD) for at in hours]
    return found


def effect(step: Step) -> Effect | None:
    """Return what a step does to its food: as it is told, else by the verb that it begins with."""
    if step.food is not None and step.food.effect is not None:
        return step.food.effect
    verb = step.does.split()[0].strip(",.;:").casefold()
    verbs = {"cool": Effect.COOL, "chill": Effect.COOL, "shock": Effect.COOL, "ice": Effect.COOL}
    return verbs.get(verb, Effect.REHEAT if verb in {"reheat", "re-heat", "rewarm"} else None)


def cools(plan: Plan, timetable: Timetable, placed: Placed) -> bool:
    """Return whether food of a dish that was hot begins to cool for the cold."""
    step, colds = plan.steps[placed.step], {Effect.COOL, Effect.COOL_IN_ICE}
    if effect(step) not in colds or any(effect(plan.steps[each]) in colds for each in before(plan, step.id)):
        return False
    if step.food is not None and step.food.effect is not None:
        return True
    onward = {step.id, *onwards(plan, step.id)}
    chilled = any(link.wait.how in _COLD_WAYS for each in onward for link in plan.links_from[each])
    keeps = [meaning.keep_of(plan, plan.steps[each]) for each in onward]
    chilled |= any(keep is not None and keep.wait.how in _COLD_WAYS for keep in keeps)
    return backwards_hot(plan, timetable, step.id) and (chilled or stands(plan, timetable, onward, COLD))


def before(plan: Plan, step: StepId) -> list[StepId]:
    return [link.before for link in plan.links_to[step] if link.kind is LinkKind.END_TO_START]


def onwards(plan: Plan, step: StepId) -> set[StepId]:
    found: set[StepId] = set()
    for link in plan.links_from[step]:
        if link.kind is LinkKind.END_TO_START and plan.dish_of[link.after] is plan.dish_of[step]:
            found |= {link.after, *onwards(plan, link.after)}
    return found


def backwards_hot(plan: Plan, timetable: Timetable, step: StepId) -> bool:
    own = [each for each in before(plan, step) if plan.dish_of[each] is plan.dish_of[step]]
    return stands(plan, timetable, set(own), HOT) or any(backwards_hot(plan, timetable, each) for each in own)


def stands(plan: Plan, timetable: Timetable, steps: set[StepId], kinds: frozenset[StationKind]) -> bool:
    return any(
        plan.kitchen.station[spot.station].kind in kinds
        for each in timetable.placed
        if each.step in steps
        for spot in each.spots
    )




def last_there(plan: Plan, timetable: Timetable, step: StepId) -> int:
    """Return the last minute in which the food is there to measure: then it is served, heated or in another dish."""
    dish, ends = plan.dish_of[step], []
    for link in plan.links_from[step]:
        loads = timetable.loads_of.get(link.after, ())
        if link.kind is LinkKind.END_TO_START and loads:
            gone = plan.dish_of[link.after] is not dish or stands(plan, timetable, {link.after}, HOT)
            ends.append(loads[-1].start if gone else last_there(plan, timetable, link.after))
    if ends:
        return max(ends)
    return dish.course if dish.served else timetable.loads_of[step][-1].end


def hot_waits(plan: Plan, timetable: Timetable, placed: Placed) -> list[tuple[int, int]]:
    """Return the stretches of half an hour or longer for which food waits hot."""
    ends = []
    for link in plan.links_from[placed.step]:
        after = timetable.loads_of.get(link.after, ())
        if link.kind is LinkKind.END_TO_START and link.wait.how is Holding.HOT and after:
            paired = len(after) == len(timetable.loads_of[placed.step]) > 1
            ends.append((after[placed.load] if paired else after[0]).start)
    keep, dish = meaning.keep_of(plan, plan.steps[placed.step]), plan.dish_of[placed.step]
    if keep is not None and dish.served and keep.wait.how is Holding.HOT:
        ends.append(dish.course)
    return [(placed.end, end) for end in ends if end - placed.end >= 30]


@pytest.mark.parametrize(("name", "page"), CASES)
def test_temperatures(name: str, page: str) -> None:
    """Each reading once, in its minute, beside its limit; the first of each day for each cold place in use."""
    plan, timetable = FEASTS[name]()
    rows = temperature_rows(printed(SheetKind.TEMPERATURES, name, page))
    left = list(rows)
    wanted = readings(plan, timetable)
    missing = []
    for each in wanted:
        key = (day_said(plan, each.at), clock_said(plan, each.at))
        found = [
            row for row in left
            if (row.day, row.clock) == key and re.match(each.opens, row.text) and squeezed(each.limit) in row.text
        ]  # fmt: skip
        if found:
            left.remove(found[0])
        else:
            missing.append((key, each))
    for day in dict.fromkeys(row.day for row in rows):
        for station in plan.kitchen.stations:
            if station.kind in COLD and in_use(plan, timetable, station.id, day):
                limit = squeezed("frozen hard, −18 °C" if station.kind is StationKind.FREEZER else CHILLED)
                name_ = squeezed(station.name)
                found = [row for row in left if row.day == day and row.clock == "first" and row.text.startswith(name_)]
                assert len(found) == 1, (day, station.name)
                assert limit in found[0].text
                left.remove(found[0])
    assert not missing
    assert not left
    assert {day_said(plan, each.at) for each in wanted} == {row.day for row in rows}
    assert wanted


def in_use(plan: Plan, timetable: Timetable, station: str, day: str) -> bool:
    for each in (*timetable.placed, *timetable.stays):
        if any(spot.station == station for spot in each.spots) and each.end > each.start:
            first, last = on_the_wall(plan, each.start).date(), on_the_wall(plan, each.end - 1).date()
            days = {first + timedelta(days=number) for number in range((last - first).days + 1)}
            if day in {f"{one:%-d %B}" for one in days}:
                return True
    return False


def test_both_falls_of_the_hour_are_read_apart() -> None:
    """Worked by hand: cooling begins at 01:30 CEST; two hours later it is 02:30 CET, the second time of that name."""
    rows = temperature_rows(printed(SheetKind.TEMPERATURES, "Berlin, autumn"))
    (after,) = [row for row in rows if "after2h" in row.text]
    assert (after.day, after.clock) == ("25 October", "02:30 CET")
    assert [row.clock for row in rows if "startofcooling" in row.text] == ["01:30"]
