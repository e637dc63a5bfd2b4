"""Holding hot and cold: places less hot, or less cold, than a limit; what is asked where their warmth is not told."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from core.safety.case import Case, degrees, said
from core.safety.check_between import out_stretches
from core.safety.finding import Finding, FoodWay
from core.safety.rules import Measure, Rule
from core.safety.story import Story, Stretch, Warmth


def holding(case: Case, story: Story) -> Iterator[Finding]:
    """Find places that hold food less hot, or less cold, than a limit; ask how hot where the time is too long."""
    for each in story.stretches:
        if each.minutes == 0:
            continue
        hot = held_at(case, each)
        if each.warmth is Warmth.HOT and hot is not None:
            for rule in case.rows(Measure.HOT_HOLD, story.food, cooked=True):
                yield from _too_cool(case, story, rule, each, hot)
        if _is_cold(each) and each.told and story.perishable(each):
            for rule in case.rows(Measure.COLD_HOLD, story.food, cooked=True):
                yield from _too_warm(case, story, rule, each)
    _ask_how_hot(case, story)
    _ask_for_the_room(case, story)


def held_at(case: Case, stretch: Stretch) -> int | None:
    """Return °C at which a place holds food hot: what its thermometer or its dial says, the less; None: not told."""
    place = case.plan.kitchen.station.get(stretch.station) if stretch.station is not None else None
    shown = place.keeps_at if place is not None else None
    return min((each for each in (shown, stretch.setting) if each is not None), default=None)


def _is_cold(stretch: Stretch) -> bool:
    """Tell whether it stands in the cold; what thaws anywhere else is told by the rows of thawing."""
    return stretch.warmth is Warmth.COLD or (
        stretch.warmth is Warmth.THAWING and stretch.around <= 10 and stretch.station is not None
    )


def _too_cool(case: Case, story: Story, rule: Rule, each: Stretch, hot: int) -> Iterator[Finding]:
    least = rule.values.least
    assert least is not None, rule.id
    if hot < least.celsius:
        under = least.celsius - hot
        sentence = f"{case.name(story.food)} is held at {degrees(hot)}, {degrees(under)} below {least}"
        way = FoodWay(f"Set the place so that the food stays at {least} or above, and read a probe.")
        yield case.finding(rule, story, (each,), (under, "°C"), sentence, (way,))


def _too_warm(case: Case, story: Story, rule: Rule, each: Stretch) -> Iterator[Finding]:
    most = rule.values.most
    assert most is not None, rule.id
    if each.around > most.celsius:
        over: Fraction = each.around - most.celsius
        name, warm = case.name(story.food), degrees(each.around)
        sentence = f"{name} stands in the cold at {warm}, {degrees(over)} above {most}"
        way = FoodWay("Set the fridge colder, take out what need not be cold, or use another cold place.")
        yield case.finding(rule, story, (each,), (over, "°C"), sentence, (way,))


# ---------------------------------------------------------------- what is asked


def _ask_how_hot(case: Case, story: Story) -> None:
    """Ask how hot food is held where, were it not hot, it would be out for longer than a row bears."""
    untold = [
        each
        for each in story.stretches
        if each.warmth is Warmth.HOT and held_at(case, each) is None and story.perishable(each)
    ]
    rows = tuple(case.rows(Measure.OUT_HOT, story.food, cooked=True))
    rows = rows or tuple(case.rows(Measure.OUT, story.food, cooked=True))
    limit = min((each.values.minutes or 0 for each in rows if each.values.room_above is None), default=None)
    if limit is None or not untold:
        return
    out = max((sum(each.minutes for each in count) for count in out_stretches(story)), default=0)
    if sum(each.minutes for each in untold) + out <= limit:
        return
    for rule in case.rows(Measure.HOT_HOLD, story.food, cooked=True):
        for step in dict.fromkeys(each.step for each in untold):
            case.ask(
                f"{case.step(step)}: say how warm the food is held there; {rule.values.least} or more is asked for."
            )


def _ask_for_the_room(case: Case, story: Story) -> None:
    """Ask how warm the kitchen is where food is out for longer than a row for a warm one bears."""
    if case.plan.kitchen.room is not None:
        return
    out = max((sum(each.minutes for each in count) for count in out_stretches(story)), default=0)
    for rule in case.rows(Measure.OUT, story.food, cooked=True):
        warm, limit = rule.values.room_above, rule.values.minutes or 0
        if warm is not None and out > limit:
            case.ask(
                f"The kitchen: say how warm it is; above {warm} food may be out for {said(limit)} only"
                f" ({rule.source})."
            )
