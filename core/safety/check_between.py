"""Minutes between cold and hot, summed along a story; marinating and curing only in the cold and not for too long.

Thawing and marinating out of the cold are told by their own rules and not counted here. What ferments on purpose is
not counted: its acid is what keeps it, and the report says that no limit was held against it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from core.plan.edits.links import ChangeLink
from core.plan.food import Arrival, Effect
from core.plan.menu import LinkKind
from core.plan.step import Holding, Wait
from core.safety.case import Case, said
from core.safety.finding import Finding, FoodWay
from core.safety.limits import time_control_until
from core.safety.rules import Measure, Rule
from core.safety.story import Story, Stretch, Warmth

_SHORT, _HOT_AGAIN = 15, 74
"""Minutes below which, and °C told from which on, what is cooked already is cooked anew: our choice, and Food Code
3-403.11(A)."""
_OUT = frozenset({Warmth.BETWEEN, Warmth.COOLING})
_SOAKS = frozenset({Effect.MARINATE, Effect.CURE})


def out_stretches(story: Story) -> Iterator[tuple[Stretch, ...]]:
    """Yield each count of a story: what is out of cold and heat from one cooking to the next."""
    found: list[Stretch] = []
    for number, each in enumerate(story.stretches):
        if each.warmth is Warmth.COOKING and number not in story.reheated and _cooks(each):
            yield tuple(found)
            found = []
        elif each.warmth in _OUT and story.perishable(each) and not (_soaks(each) and not each.waits):
            found.append(each)
    yield tuple(found)


def _cooks(stretch: Stretch) -> bool:
    """Tell whether it begins a new count: a short warming of what is cooked already does not."""
    hot = stretch.done.target is not None and stretch.done.target >= _HOT_AGAIN
    return not stretch.cooked or stretch.minutes >= _SHORT or hot


def between(case: Case, story: Story) -> Iterator[Finding]:
    """Find where a food is too long between cold and hot, the worst count for each row."""
    _ask_of_ferments(case, story)
    _ask_of_what_comes_warm(case, story)
    counts = [count for count in out_stretches(story) if count]
    split = bool(case.rules.by_measure[Measure.OUT_HOT])
    for measure in (Measure.OUT, Measure.OUT_HOT):
        for rule in case.rows(measure, story.food, cooked=True):
            worst: tuple[int, tuple[Stretch, ...]] | None = None
            for count in counts:
                held = tuple(
                    each
                    for each in count
                    if _asked(rule, each)
                    and (not split or _is_hot(story, each) == (measure is Measure.OUT_HOT))
                )
                minutes = sum(each.minutes for each in held)
                if held and (worst is None or minutes > worst[0]):
                    worst = minutes, held
            limit = rule.values.minutes
            assert limit is not None, rule.id
            if worst is not None and worst[0] > limit:
                yield _too_long(case, story, rule, worst)


def _ask_of_ferments(case: Case, story: Story) -> None:
    for each in story.stretches:
        if each.warmth is Warmth.FERMENTING and story.perishable(each):
            case.ask(
                f"{case.step(each.step)}: no limit was held against its time out of the cold; a starter, salt or acid"
                " as in a published method keeps it, and a pH meter tells."
            )


def _ask_of_what_comes_warm(case: Case, story: Story) -> None:
    if story.food.arrives is Arrival.ROOM and story.stretches and story.perishable(story.stretches[0]):
        case.ask(
            f"{case.name(story.food)} comes at room temperature: no limit was held against the time before its first"
            " step; let a step in the plan stand for it."
        )


def _asked(rule: Rule, stretch: Stretch) -> bool:
    warm = rule.values.room_above
    return warm is None or stretch.around > warm.celsius


def _is_hot(story: Story, stretch: Stretch) -> bool:
    """Tell whether a food was cooked and not chilled since, so that it is hot that cools."""
    at = story.stretches.index(stretch)
    for each in reversed(story.stretches[:at]):
        if each.warmth in (Warmth.COLD, Warmth.FROZEN):
            return False
        if each.warmth is Warmth.COOKING:
            return True
    return False


def _too_long(case: Case, story: Story, rule: Rule, worst: tuple[int, tuple[Stretch, ...]]) -> Finding:
    minutes, count = worst
    limit = rule.values.minutes or 0
    warm = f", in more than {rule.values.room_above}" if rule.values.room_above is not None else ""
    left = limit
    spent_at = count[-1].end
    for each in count:
        if each.minutes > left:
            spent_at = each.start + left
            break
        left -= each.minutes
    sentence = (
        f"{case.name(story.food)} is neither cold nor hot for {said(minutes)} in all, by {case.clock(count[-1].end)}"
        f"{warm}: {said(minutes - limit)} over {said(limit)}; its time is spent at {case.clock(spent_at)}"
    )
    ways = (*_into_the_cold(case, count, spent_at), *_by_time_alone(case, story, count))
    return case.finding(rule, story, count, (minutes - limit, "min"), sentence, ways)


def _into_the_cold(case: Case, count: tuple[Stretch, ...], spent_at: int) -> Iterator[FoodWay]:
    yield FoodWay(f"Put it in the cold, hold it hot or serve it by {case.clock(spent_at)}.")
    waits = sorted((each for each in count if each.waits), key=lambda each: -each.minutes)
    for stretch in waits[:1]:
        links = [
            link
            for link in case.plan.links_from[stretch.step]
            if link.kind is LinkKind.END_TO_START and link.wait.how is Holding.COUNTER
        ]
        for link in links[:1]:
            cold = replace(link, wait=Wait(Holding.FRIDGE))
            yield FoodWay(
                f"Let it wait in the fridge after {case.step(stretch.step)}, from {case.clock(stretch.start)}.",
                ChangeLink(link.key, cold),
            )


def _by_time_alone(case: Case, story: Story, count: tuple[Stretch, ...]) -> Iterator[FoodWay]:
    """Yield what a longer plan of time control would bear, where the food comes out of the cold and stays cool."""
    before = story.stretches[: story.stretches.index(count[0])]
    cold = before[-1].warmth is Warmth.COLD if before else story.food.arrives is Arrival.FRIDGE
    if not cold or any(_is_hot(story, each) for each in count):
        return
    for rule in case.rows(Measure.TIME_CONTROL, story.food, cooked=True):
        mark = time_control_until(rule, count[0].start, max(each.around for each in count))
        if mark is not None and mark >= count[-1].end:
            until = case.clock(mark)
            yield FoodWay(
                f"Only by a written plan of time control chosen beforehand ({rule.source}): marked with {until}, never"
                f" above {rule.values.peak} until then, served or thrown away by then."
            )


def marinating(case: Case, story: Story) -> Iterator[Finding]:
    """Find marinating out of the cold, and for too long."""
    for number, each in enumerate(story.stretches):
        if each.waits or not _soaks(each):
            continue
        what = each.done.effect.value
        if each.warmth is not Warmth.COLD:
            for rule in case.rows(Measure.MARINATE_COLD, story.food):
                over = each.minutes - (rule.values.minutes or 0)
                if over > 0:
                    sentence = (
                        f"{case.name(story.food)}: it is to {what} out of the fridge for {said(each.minutes)}, from"
                        f" {case.clock(each.start)}"
                    )
                    way = FoodWay("Let it stand in the fridge, covered: give the step a place in the fridge.")
                    yield case.finding(rule, story, (each,), (over, "min"), sentence, (way,))
        if each.done.effect is Effect.MARINATE:
            yield from _for_too_long(case, story, number)


def _for_too_long(case: Case, story: Story, number: int) -> Iterator[Finding]:
    each = story.stretches[number]
    after = story.stretches[number + 1] if number + 1 < len(story.stretches) else None
    end = after.end if after is not None and after.waits else each.end
    for rule in case.rows(Measure.MARINATE, story.food):
        limit = rule.values.minutes or 0
        over = end - each.start - limit
        if over > 0:
            sentence = (
                f"{case.name(story.food)} marinates for {said(end - each.start)}, {said(over)} over {said(limit)}:"
                f" at the latest until {case.clock(each.start + limit)}"
            )
            way = FoodWay(
                f"Begin to marinate at {case.clock(end - limit)} or later; a used marinade is boiled or thrown away."
            )
            yield case.finding(rule, story, (each,), (over, "min"), sentence, (way,))


def _soaks(stretch: Stretch) -> bool:
    return stretch.done.effect in _SOAKS
