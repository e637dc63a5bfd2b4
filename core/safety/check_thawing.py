"""Thawing in the cold and long enough, in water and cooked at once; storing raw and cooked food in the cold."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from core.food.thawing import Thaw, in_cold_water, in_fridge
from core.measures.refusal import Refusal
from core.plan.edits.decisions import PinStep
from core.plan.food import Arrival, Effect
from core.safety.case import Case, said
from core.safety.finding import Finding, FoodWay
from core.safety.limits import date_mark
from core.safety.rules import COOKED, Measure, Rule
from core.safety.story import Story, Stretch, Warmth

_DAY = 24 * 60


def thawing(case: Case, story: Story) -> Iterator[Finding]:
    """Find food that thaws out of the cold, too short, or waits after thawing in water; or that nothing thaws."""
    for number, each in enumerate(story.stretches):
        if each.warmth is not Warmth.THAWING:
            continue
        in_water = each.done.effect is Effect.THAW_IN_WATER
        if not in_water and not _in_the_cold(each):
            for rule in case.rows(Measure.THAW_COLD, story.food):
                over = each.minutes - (rule.values.minutes or 0)
                if over > 0:
                    sentence, ways = _on_the_counter(case, story, each), _ways(case, story, each)
                    yield case.finding(rule, story, (each,), (over, "min"), sentence, ways)
        elif in_water:
            yield from _in_water(case, story, number)
        else:
            for rule in case.rows(Measure.THAW_FRIDGE, story.food):
                yield from _too_short(case, story, rule, number, _thaw(story, water=False))
    yield from _still_frozen(case, story)


def _in_the_cold(stretch: Stretch) -> bool:
    return stretch.around <= 10 and stretch.station is not None


def _on_the_counter(case: Case, story: Story, each: Stretch) -> str:
    return (
        f"{case.name(story.food)} thaws out of the fridge for {said(each.minutes)}, from {case.clock(each.start)}:"
        " its outside is warm long before its middle is thawed"
    )


def _thaw(story: Story, water: bool) -> Thaw | None:
    if story.food.piece is None:
        return None
    try:
        return in_cold_water(story.food.piece) if water else in_fridge(story.food.piece)
    except Refusal:
        return None


def _ways(case: Case, story: Story, each: Stretch) -> tuple[FoodWay, ...]:
    thaw = _thaw(story, water=False)
    if thaw is None:
        return (FoodWay("Thaw it in the fridge: give the step a place there, and say what it weighs."),)
    by = each.end - thaw.high
    return (
        FoodWay(f"Thaw it in the fridge: start on {case.clock(by)} ({said(thaw.low)} to {said(thaw.high)})."),
    )


def _too_short(case: Case, story: Story, rule: Rule, number: int, thaw: Thaw | None) -> Iterator[Finding]:
    each = story.stretches[number]
    if thaw is None:
        case.ask(f"{case.name(story.food)}: say what one piece weighs, so that its thawing can be judged.")
        return
    after = story.stretches[number + 1] if number + 1 < len(story.stretches) else None
    end = after.end if after is not None and after.waits and after.warmth is Warmth.COLD else each.end
    short = thaw.low - (end - each.start)
    if short > 0:
        begin = end - thaw.high
        sentence = (
            f"{case.name(story.food)} has {said(end - each.start)} to thaw {thaw.place}, {said(short)} less than its"
            f" weight takes: {said(thaw.low)} to {said(thaw.high)}"
        )
        way = FoodWay(f"Start thawing on {case.clock(begin)}.", PinStep(each.step, start=begin))
        yield case.finding(rule, story, (each,), (short, "min"), sentence, (way,))


def _in_water(case: Case, story: Story, number: int) -> Iterator[Finding]:
    for rule in case.rows(Measure.THAW_WATER, story.food):
        yield from _too_short(case, story, rule, number, _thaw(story, water=True))
        waits = []
        for each in story.stretches[number + 1 :]:
            if each.warmth is Warmth.COOKING:
                break
            if each.waits:
                waits.append(each)
        minutes = sum(each.minutes for each in waits)
        over = minutes - (rule.values.minutes or 0)
        if over > 0:
            sentence = (
                f"{case.name(story.food)} waits {said(minutes)} after thawing in water; it is cooked at once"
            )
            way = FoodWay(f"Thaw it {said(minutes)} later, or in the fridge.")
            yield case.finding(rule, story, tuple(waits), (over, "min"), sentence, (way,))


def _still_frozen(case: Case, story: Story) -> Iterator[Finding]:
    if story.food.arrives is not Arrival.FROZEN:
        return
    for each in story.stretches:
        if each.warmth is Warmth.COLD and not _soaks(each):
            _ask_whether_it_thaws(case, story, each)
            return
        if each.warmth in (Warmth.THAWING, Warmth.COOKING):
            return
        if each.waits or each.done.effect is Effect.FREEZE:
            continue
        for rule in case.rows(Measure.THAW_COLD, story.food):
            sentence = (
                f"{case.name(story.food)} comes frozen, and nothing thaws it before {case.step(each.step)}"
            )
            way = FoodWay(
                "Add a step that thaws it in the fridge, or cook it from frozen: about half as long again."
            )
            yield case.finding(rule, story, (each,), (0, ""), sentence, (way,))
        return


def _ask_whether_it_thaws(case: Case, story: Story, first: Stretch) -> None:
    """Ask which step thaws frozen meat that lies in the cold for less than its weight takes."""
    minutes = 0
    for each in story.stretches[story.stretches.index(first) :]:
        if each.warmth is Warmth.THAWING:
            return
        if each.warmth is not Warmth.COLD:
            break
        minutes += each.minutes
    thaw = _thaw(story, water=False)
    rows = tuple(case.rows(Measure.THAW_COLD, story.food))
    if rows and story.food.raw_animal and (thaw is None or minutes < thaw.low):
        case.ask(
            f"{case.name(story.food)} comes frozen and lies in the cold for {said(minutes)}: say which step thaws it"
            " and what a piece weighs, so that its thawing can be judged."
        )


def _soaks(each: Stretch) -> bool:
    return each.done.effect in (Effect.MARINATE, Effect.CURE)


# ---------------------------------------------------------------- storage


def storage(case: Case, story: Story) -> Iterator[Finding]:
    """Find raw food kept too long before it is cooked, and cooked food kept too long until it is eaten."""
    yield from _raw(case, story)
    made = _made(story)
    if made is None:
        if any(each.warmth is Warmth.COLD for each in story.stretches):
            yield from _marked(case, story, story.stretches[0].start, story.stretches, raw=True)
        return
    start, after = made
    end = after[-1].end
    frozen = [(each.start, each.end) for each in after if each.warmth is Warmth.FROZEN]
    for rule in case.rows(Measure.KEEP_COOKED, story.food, cooked=True):
        minutes = end - start - sum(until - begun for begun, until in frozen)
        yield from _kept_too_long(case, story, rule, after, minutes)
    yield from _marked(case, story, start, after)


def _marked(
    case: Case, story: Story, start: int, after: tuple[Stretch, ...], raw: bool = False
) -> Iterator[Finding]:
    """Find food that is eaten after its date mark; `raw`: it was never cooked, as what is only cut."""
    end = after[-1].end
    frozen = [(each.start, each.end) for each in after if each.warmth is Warmth.FROZEN]
    for rule in case.rows(Measure.DATE_MARK, story.food, cooked=not raw):
        if COOKED not in rule.foods and not (story.food.kind and rule.names(story.food.kind)):
            continue
        days = [tuple(case.plan.wall(at).date() for at in span) for span in frozen]
        last = date_mark(case.plan.wall(start).date(), rule.values.days or 1, [(a, b) for a, b in days])
        over = (case.plan.wall(end).date() - last) // timedelta(days=1)
        if over > 0:
            sentence = f"{case.name(story.food)} is eaten {over} days after its date mark, {last.isoformat()}"
            way = FoodWay("Make it later, or freeze it meanwhile: freezing stops the count.")
            yield case.finding(rule, story, after, (over, "days"), sentence, (way,))


def _raw(case: Case, story: Story) -> Iterator[Finding]:
    stretches: list[Stretch] = []
    for each in story.stretches:
        if (
            each.warmth in (Warmth.COOKING, Warmth.FERMENTING, Warmth.FROZEN)
            or each.done.effect is Effect.CURE
        ):
            break
        if each.cooked:
            break
        if each.warmth is Warmth.THAWING and not each.waits:
            stretches = []
            continue
        stretches.append(each)
    if not stretches or not any(each.warmth is Warmth.COLD for each in stretches):
        return
    minutes = stretches[-1].end - stretches[0].start
    for rule in case.rows(Measure.KEEP_RAW, story.food):
        yield from _kept_too_long(case, story, rule, tuple(stretches), minutes, "raw ")


def _made(story: Story) -> tuple[int, tuple[Stretch, ...]] | None:
    """Return when a food was made and what comes after, where it is kept in the cold after that."""
    for number, each in enumerate(story.stretches):
        if each.cooked and each.warmth in (Warmth.COLD, Warmth.FROZEN):
            start = 0
            for at in range(number - 1, -1, -1):
                if story.stretches[at].warmth is Warmth.COOKING:
                    start = at + 1
                    break
            return story.stretches[start].start, story.stretches[start:]
    return None


def _kept_too_long(
    case: Case, story: Story, rule: Rule, after: tuple[Stretch, ...], minutes: int, raw: str = ""
) -> Iterator[Finding]:
    limit = (rule.values.days or 0) * _DAY
    over = minutes - limit
    if over > 0:
        sentence = (
            f"{case.name(story.food)} is kept {raw}for {said(minutes)}, until {case.clock(after[-1].end)}: {said(over)}"
            f" over {rule.values.days} days"
        )
        ways = [
            FoodWay(
                f"Buy or make it later, after {case.clock(after[-1].end - limit)}; or freeze it meanwhile."
            )
        ]
        yield case.finding(rule, story, after, (over, "min"), sentence, tuple(ways))
