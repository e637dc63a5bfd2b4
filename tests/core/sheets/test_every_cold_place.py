"""Fridge plan and labels read back by poppler: what stands in the cold from when to when, and its boxes."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from datetime import datetime, timedelta

import pytest

from core.plan import meaning
from core.plan.ids import StepId
from core.plan.kitchen import COLD, StationKind
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Holding, Use
from core.sheets.kinds import SheetKind
from core.timetable.timetable import Placed, Timetable
from tests.core.sheets.feasts import FEASTS, printed
from tests.core.sheets.paper_rows import CLOCK, fridge_rows
from tests.core.sheets.reading import on_the_wall, pages, squeezed
from tests.core.sheets.told import clock_said, day_said, dish_said, when_said

CASES = [*((name, "A4") for name in FEASTS), *(("hall", page) for page in ("A4 across", "Letter", "Letter across"))]


@dataclass(frozen=True)
class Cold:
    """Food in the cold: where, from when to when, of which steps; raw or not."""

    start: int
    end: int
    place: tuple[str, int | None]
    steps: tuple[StepId, ...]
    raw: bool


def stood(plan: Plan, timetable: Timetable) -> list[Cold]:
    """Return what stands on each shelf: food that goes on standing there in the same minute is one."""
    found: list[Cold] = []
    for each in (*timetable.placed, *timetable.stays):
        spots = {(spot.station, spot.shelf) for spot in each.spots if plan.kitchen.station[spot.station].kind in COLD}
        if isinstance(each, Placed):
            step = plan.steps[each.step]
            steps, uses = (each.step,), meaning.way_of(plan, step, each.way)[1]
        else:
            steps = (each.before,) if each.after is None else (each.before, each.after)
            uses = waiting_use(plan, each.before, each.after)
        raw = any(use.raw for use in uses if use.kind in COLD)
        found += [Cold(each.start, each.end, spot, steps, raw) for spot in spots if each.end > each.start]
    return joined(found, same_place=True)


def waiting_use(plan: Plan, before: StepId, after: StepId | None) -> tuple[Use, ...]:
    if after is None:
        keep = meaning.keep_of(plan, plan.steps[before])
        return () if keep is None or keep.wait.use is None else (keep.wait.use,)
    links = (link for link in plan.links_from[before] if link.after == after and link.kind is LinkKind.END_TO_START)
    return tuple(link.wait.use for link in links if link.wait.use is not None)


def joined(colds: list[Cold], *, same_place: bool) -> list[Cold]:
    found: list[Cold] = []
    for each in sorted(colds, key=lambda one: (one.start, one.end, one.steps)):
        before = next(
            (
                one for one in found
                if one.end == each.start and set(one.steps) & set(each.steps)
                and (one.place == each.place or not same_place)
            ),
            None,
        )  # fmt: skip
        if before is None:
            found.append(each)
        else:
            steps = (*before.steps, *each.steps)
            found[found.index(before)] = Cold(before.start, each.end, before.place, steps, before.raw or each.raw)
    return found


@pytest.mark.parametrize(("name", "page"), CASES)
def test_fridge(name: str, page: str) -> None:
    """Begin and end of all that stands in a cold place, its dish, what was done to it, its shelf, and whether raw."""
    plan, timetable = FEASTS[name]()
    names = {each.id: each.name for each in plan.kitchen.stations if each.kind in COLD}
    rows = fridge_rows(printed(SheetKind.FRIDGE, name, page), list(names.values()))
    left = list(rows)
    wanted = stood(plan, timetable)
    for each in wanted:
        station, shelf = plan.kitchen.station[each.place[0]], each.place[1]  # type: ignore[index]
        key = (day_said(plan, each.start), station.name, clock_said(plan, each.start))
        end, dish = when_said(plan, each.end, each.start), plan.dish_of[each.steps[0]]
        opens = rf"{dish_said(dish)}.*?{re.escape(squeezed(plan.steps[each.steps[0]].does)[:40])}"
        on = squeezed(shelf_said(station.shelves, shelf))
        found = [
            row for row in left
            if (row.day, row.place, row.clock) == key and squeezed(row.second) == end and re.match(opens, row.text)
            and on in row.text and ("RAW:" in row.text) == each.raw
        ]  # fmt: skip
        assert found, (key, end, opens, on, each.raw, [row for row in rows if row.clock == key[2]])
        left.remove(found[0])
    assert not left
    assert wanted


def shelf_said(shelves: tuple, index: int | None) -> str:  # type: ignore[type-arg]
    if index is None or len(shelves) < 2:
        return ""
    return str(shelves[index].name) or ("lowest shelf" if index == 0 else f"shelf {index + 1} from below")


# ---- boxes


@dataclass(frozen=True)
class Box:
    """Food that waits in the cold without a break, wherever: of which step it is, when it was made, until when."""

    cold: Cold
    latest: int | None
    frozen: bool


STAMP = rf"[A-Z][a-z]{{2}} \d+ [A-Z][a-z]{{2}}, {CLOCK}"
LABEL = re.compile(rf"use by(?: (?P<by>{STAMP}))? made (?P<made>{STAMP}) for (?P<for>{STAMP})")
_HOW = {Holding.FRIDGE: False, Holding.FREEZER: True}


def boxes(plan: Plan, timetable: Timetable) -> list[Box]:
    """Return each box that waits for two hours or longer, with the plan's own limit, counted as its waits are.

    The food may be done sooner than the time reserved for it (`early`), and its wait counts from then.
    """
    colds: list[tuple[Cold, int | None, bool]] = []
    for placed in timetable.placed:
        step = plan.steps[placed.step]
        kinds = {plan.kitchen.station[spot.station].kind for spot in placed.spots} & COLD
        if placed.load == 0 and kinds:
            raw = any(use.raw for use in step.uses)
            frozen = kinds == {StationKind.FREEZER}
            latest = _could_wait(plan, timetable, placed, frozen=frozen)
            colds.append((Cold(placed.start, placed.end, ("", None), (placed.step,), raw), latest, frozen))
        if placed.load == 0:
            colds += _waits(plan, timetable, placed)
    found: list[Box] = []
    for cold, latest, frozen in sorted(colds, key=lambda each: (each[0].start, each[0].end)):
        before = next(
            (
                each for each in found
                if each.cold.end == cold.start and each.frozen == frozen and set(each.cold.steps) & set(cold.steps)
            ),
            None,
        )  # fmt: skip
        if before is None:
            found.append(Box(cold, latest, frozen))
        else:
            whole = joined([before.cold, cold], same_place=False)
            assert len(whole) == 1
            found[found.index(before)] = Box(whole[0], latest, frozen)
    return [each for each in found if each.cold.end - each.cold.start >= 120]


def _could_wait(plan: Plan, timetable: Timetable, placed: Placed, *, frozen: bool) -> int | None:
    """Return the plan's limit of what goes on in the minute in which it comes out of the cold; None for no limit."""
    mosts = [
        link.most
        for link in plan.links_from[placed.step]
        if link.kind is LinkKind.END_TO_START and _HOW.get(link.wait.how) is frozen and link.most is not None
        and any(each.start == placed.end for each in timetable.loads_of.get(link.after, ())[:1])
    ]  # fmt: skip
    done = placed.end - meaning.reserved(plan, placed.step, placed.way).early
    return min((done + most for most in mosts), default=None)


def oldest(plan: Plan, timetable: Timetable, step: StepId, made: int) -> int:
    """Return when the oldest of what is in a step's food went into the cold, since it was last on the heat.

    US FDA Food Code 2022, 3-501.17: what is put together has the mark of its oldest part. Nothing here is frozen.
    """
    loads = timetable.loads_of[step]
    heat = {StationKind.OVEN, StationKind.GRILL, StationKind.BURNER}
    if any(plan.kitchen.station[spot.station].kind in heat for each in loads for spot in each.spots):
        return made
    found = [made]
    for link in plan.links_to[step]:
        before = timetable.loads_of.get(link.before, ())
        if link.kind is not LinkKind.END_TO_START or not before:
            continue
        cold = any(plan.kitchen.station[spot.station].kind in COLD for spot in before[0].spots)
        waits = link.wait.how in _HOW and loads[0].start > before[0].end
        uses = [*(plan.steps[link.before].uses if cold else ()), *([link.wait.use] if waits and link.wait.use else [])]
        if any(use.raw for use in uses):
            continue
        begins = [before[0].start] if cold else [before[0].end] if waits else []
        found += [*begins, oldest(plan, timetable, link.before, made)]
    return min(found)


def _waits(plan: Plan, timetable: Timetable, placed: Placed) -> list[tuple[Cold, int | None, bool]]:
    found = []
    early = meaning.reserved(plan, placed.step, placed.way).early
    ends: list[tuple[int, int | None, Holding, tuple[StepId, ...], bool]] = []
    for link in plan.links_from[placed.step]:
        after = timetable.loads_of.get(link.after, ())
        if link.kind is LinkKind.END_TO_START and after:
            raw = link.wait.use is not None and link.wait.use.raw
            ends.append((after[0].start, link.most, link.wait.how, (placed.step, link.after), raw))
    keep, dish = meaning.keep_of(plan, plan.steps[placed.step]), plan.dish_of[placed.step]
    if keep is not None and dish.served:
        raw = keep.wait.use is not None and keep.wait.use.raw
        ends.append((dish.course, keep.most, keep.wait.how, (placed.step,), raw))
    for end, most, how, steps, raw in ends:
        if how in _HOW and end > placed.end:
            latest = None if most is None else placed.end - early + most
            found.append((Cold(placed.end, end, ("", None), steps, raw), latest, _HOW[how]))
    return found


def stamp(plan: Plan, at: int) -> str:
    return f"{on_the_wall(plan, at):%a %-d %b}, {clock_said(plan, at)}"


def use_by(plan: Plan, timetable: Timetable, box: Box) -> str:
    """Return the sooner of the plan's limit and, in a fridge and not raw, the end of the oldest part's seventh day.

    US FDA Food Code 2022, 3-501.17(A): ready-to-eat food at 5 °C or less for at most 7 days, that of making as day 1.
    """
    ends = [] if box.latest is None else [box.latest]
    if not box.frozen and not box.cold.raw:
        made = on_the_wall(plan, oldest(plan, timetable, box.cold.steps[0], box.cold.start))
        last = datetime.combine(made.date() + timedelta(days=6), datetime.max.time().replace(microsecond=0))
        minute = int((last.replace(tzinfo=made.tzinfo, second=0) - on_the_wall(plan, 0)).total_seconds()) // 60
        about = range(minute + 120, minute - 121, -1)  # the clocks may change before it
        ends.append(next(at for at in about if on_the_wall(plan, at).date() == last.date()))
    return stamp(plan, min(ends)) if ends else ""


@pytest.mark.parametrize(("name", "page"), CASES)
def test_labels(name: str, page: str) -> None:
    """One for each box: what it is, when it was made, for when, until when to use it, whether raw, its allergens."""
    plan, timetable = FEASTS[name]()
    text = " ".join(pages(printed(SheetKind.LABELS, name, page)))
    found = list(LABEL.finditer(text))
    wanted = boxes(plan, timetable)
    got = Counter((each["by"] or "", each["made"], each["for"]) for each in found)
    said = Counter(
        (use_by(plan, timetable, box), stamp(plan, box.cold.start), stamp(plan, box.cold.end)) for box in wanted
    )
    assert got == said, (got - said, said - got)
    before = 0
    whole: list[str] = []  # of each box, from the end of the one before to the begin of the next
    for number, each in enumerate(found):
        last = found[number + 1].start() if number + 1 < len(found) else len(text)
        whole.append(squeezed(text[before:last]))
        before = each.end()
    for box in wanted:
        step, dish = plan.steps[box.cold.steps[0]], plan.dish_of[box.cold.steps[0]]
        begins = squeezed(dish.code + dish.name) + squeezed(step.does)[:30]
        made = squeezed(f"made {stamp(plan, box.cold.start)} for {stamp(plan, box.cold.end)}")
        own = [each for each in whole if begins in each.partition(made)[0] and made in each]
        assert own, (dish.name, step.does)
        noted = [*dish.allergens, *(one for item in dish.ingredients for one in item.allergens)]
        assert all(squeezed(one) in own[0].partition(made)[2] for one in noted)
    assert len(re.findall(r"\bRAW\b", text)) == sum(box.cold.raw for box in wanted)
    assert wanted or name == "weeknight"
