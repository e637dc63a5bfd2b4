"""Core temperatures and rests below the chosen set, with the cook's own target beside; and food that nothing cooks.

Where a row lets a cook choose less for themselves (a roast, fish, eggs), that is a caution, with the published value;
with a guest at risk at the table it is over the limit, for the cook chooses for them too.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil

from core.measures.words import join_words
from core.plan.edits.steps import ChangeStep
from core.plan.food import Effect
from core.plan.step import Doneness
from core.safety.case import Case, degrees, said
from core.safety.check_holding import held_at
from core.safety.finding import Finding, FoodWay, Level
from core.safety.limits import core_short, hold_needed
from core.safety.rules import Hold, Measure, Rule
from core.safety.story import Story, Stretch, Warmth

_WHILE = 180
"""Seconds of a hold that a rest off the heat is taken to give: as long as the rest that USDA asks for."""
_LONG = 600
"""Seconds from which on even a roast's hold is asked about, though its rest may count (Food Code 3-401.11(B))."""
_RAW = "not for the pregnant, the very young, the old and the ill"


def doneness(case: Case, story: Story) -> Iterator[Finding]:
    """Find raw animal food whose hottest cooking, as told, stays below a row; ask where nothing is told."""
    if not story.food.raw_animal or story.eaten is None or any(each.dry for each in story.stretches):
        return
    cooks = [number for number, each in enumerate(story.stretches) if each.warmth is Warmth.COOKING]
    if not cooks:
        yield from _served_raw(case, story)
        return
    told = [number for number in cooks if story.stretches[number].done.core is not None]
    for rule in case.rows(Measure.CORE, story.food):
        if not told:
            last = story.stretches[cooks[-1]]
            asked = f"{_least(rule)} is asked for {story.food.kind}"
            case.ask(f"{case.step(last.step)}: say the core temperature; {asked}.")
            continue
        hottest = max(told, key=lambda number: story.stretches[number].done.core or 0)
        yield from _judged(case, story, rule, hottest)


def _judged(case: Case, story: Story, rule: Rule, number: int) -> Iterator[Finding]:
    each = story.stretches[number]
    core, rest = each.done.core, rest_after(story, number)
    assert core is not None, each.step
    held = _held_seconds(case, story, number, rule)
    short = core_short(rule, core, held, rest)
    if not short.any:
        _ask_of_a_long_hold(case, story, number, rule)
        return
    level = Level.CAUTION if rule.own_target and not case.at_risk else Level.OVER
    name = case.name(story.food)
    over: tuple[Fraction | int, str]
    if short.degrees:
        hold = _usual_hold(rule)
        short_by = short.degrees if hold is None else hold.at.celsius - core
        over = (short_by, "°C")
        what = (
            f"{name}: your target is {degrees(core)}, {degrees(short_by)} below {_least(rule)}; warmth that it"
            " gains while it rests does not count"
        )
    elif short.seconds:
        over = (short.seconds, "s")
        longer = said(ceil(short.seconds / 60))
        what = f"{name}: at {degrees(core)} it is to stay {longer} longer, counted at that temperature"
    else:
        over = (short.rest, "min")
        what = f"{name} rests {said(rest)} after {degrees(core)}, {said(short.rest)} less than is asked"
    what += f"; {_RAW}" if level is Level.CAUTION else _for(case)
    yield case.finding(rule, story, (each,), over, what, (_mend(case, rule, each),), level=level)


def _hot_after(case: Case, story: Story, number: int) -> int:
    """Return the minutes for which it is held right after cooking where it is told to be as warm as its core."""
    minutes, core = 0, story.stretches[number].done.core or 0
    for each in story.stretches[number + 1 :]:
        if each.warmth is not Warmth.HOT or (held_at(case, each) or 0) < core:
            break
        minutes += each.minutes
    return minutes


def _held_seconds(case: Case, story: Story, number: int, rule: Rule) -> int:
    """Return the seconds that count as held at the core: where hot, as told, else what it rests.

    A rest of what nobody may choose less for counts for the shortest while only: off the heat it cools.
    """
    rest = rest_after(story, number) * 60
    if story.stretches[number].done.rest is None and not rule.own_target:
        rest = min(rest, _WHILE)
    return max(rest, _hot_after(case, story, number) * 60)


def _ask_of_a_long_hold(case: Case, story: Story, number: int, rule: Rule) -> None:
    each = story.stretches[number]
    needed = hold_needed(rule, each.done.core or 0) or 0
    long = _LONG if rule.own_target else _WHILE
    if needed > long and _hot_after(case, story, number) * 60 < needed:
        case.ask(
            f"{case.step(each.step)}: {said(ceil(needed / 60))} at {degrees(each.done.core or 0)} count only while the"
            " middle stays that warm, and a rest off the heat cools it; hold it so hot, and read a probe at the end."
        )


def rest_after(story: Story, number: int) -> int:
    """Return the minutes of rest after a cooking: as told, else what the timetable leaves until something is done.

    In a fridge, a freezer or ice nothing rests: the middle is to stay as warm or get warmer.
    """
    told = story.stretches[number].done.rest
    if told is not None:
        return told
    minutes = 0
    for each in story.stretches[number + 1 :]:
        iced = each.done.effect is Effect.COOL_IN_ICE and not each.waits
        if each.warmth in (Warmth.COLD, Warmth.FROZEN) or iced or not (each.waits or each.done.rests):
            break
        minutes += each.minutes
    return minutes


def _least(rule: Rule) -> str:
    hold = _usual_hold(rule)
    if hold is not None:
        time = said(ceil(hold.seconds / 60)) if hold.seconds >= 60 else f"{hold.seconds} s"
        return f"{hold.at} for {time}"
    rest = f" and {said(rule.values.rest)} of rest" if rule.values.rest else ""
    return f"{rule.values.least}{rest}"


def _usual_hold(rule: Rule) -> Hold | None:
    """Return the coolest pair of a table that takes at most two minutes."""
    return next((each for each in rule.values.holds if each.seconds <= 120), None)


def _for(case: Case) -> str:
    return f"; {join_words(list(case.at_risk))} should not eat it so" if case.at_risk else ""


def _mend(case: Case, rule: Rule, each: Stretch) -> FoodWay:
    step, least = case.plan.steps[each.step], rule.values.least
    assert least is not None, rule.id
    done = step.doneness or Doneness()
    core = max(done.core or 0, ceil(least.celsius))
    hold = _usual_hold(rule)
    if hold is not None:
        core = max(core, ceil(hold.at.celsius))
    asked = rule.values.rest or (ceil(hold.seconds / 60) if hold is not None else 0)
    rest = max(done.rest or 0, asked) or done.rest
    pause = f" and let it rest {said(rest)}" if rest else ""
    return FoodWay(
        f"Cook it to {core} °C in the thickest part{pause}.",
        ChangeStep(step.id, replace(step, doneness=replace(done, core=core, rest=rest))),
    )


def _served_raw(case: Case, story: Story) -> Iterator[Finding]:
    """Find food that is served raw where its row lets nobody choose so, or where a guest is at risk."""
    name, last = case.name(story.food), story.stretches[-1]
    for rule in case.rows(Measure.CORE, story.food):
        if not rule.own_target:
            sentence = f"Nothing cooks {name}, and it is served; {_least(rule)} is asked for"
            way = FoodWay("Add a step that cooks it; a used marinade is boiled before it is eaten.")
            yield case.finding(rule, story, (last,), (0, ""), sentence, (way,))
            return
    if not case.at_risk:
        return
    for rule in case.rows(Measure.AT_RISK, story.food):
        sentence = f"{name} is served raw, and {join_words(list(case.at_risk))} should not eat it"
        yield case.finding(
            rule, story, (last,), (0, ""), sentence, (FoodWay("Make something else for them."),)
        )


def cautions(case: Case) -> Iterator[str]:
    """Yield the usual caution for what is served raw or below a published core temperature."""
    raw = [
        case.name(story.food)
        for story in case.stories
        if story.food.raw_animal and story.eaten is not None and story.cooked_at is None
    ]
    if raw:
        names = join_words(list(dict.fromkeys(raw)))
        yield f"Served raw or only cured: {names}; {_RAW} (FoodSafety.gov, from memory)."
