"""Checks of each step by itself: words, lengths, touches, loads, limits in time."""

from __future__ import annotations

from dataclasses import replace

from core.measures.minutes import show_minutes, show_tminus
from core.plan import meaning
from core.plan.check_problem import (
    LONGEST,
    MOST_COUNT,
    Family,
    Problems,
    amount_trouble,
    name_trouble,
    out_of,
    problem,
    texts_trouble,
)
from core.plan.check_words import short, spoken
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.step import Attention, Span, Step, Touch, Use

MOST_LOADS = 200
_DAY = 24 * 60
_DEEPEST = 1000
_COLDEST, _HOTTEST = -60, 350  # °C in the middle of food


def step_problems(plan: Plan) -> Problems:
    """Find what is wrong with each step by itself."""
    for dish in plan.menu.dishes:
        for step in dish.steps:
            name = spoken(dish, step)
            yield from _texts(step, name)
            yield from _lengths(step, name)
            yield from _touches(step, name)
            yield from _transfers(plan, step, name)
            yield from _loads(dish, step, name)
            yield from _times(step, name)
            yield from _doneness(step, name)
            yield from _yields(step, name)
            yield from _care(step, name)


def _care(step: Step, name: str) -> Problems:
    if step.food is not None and out_of(step.food.depth, 0, _DEEPEST):
        yield problem(
            Family.NUMBERS,
            f"In {name} the food lies {step.food.depth} mm deep; give 0 (not told) to {_DEEPEST} mm.",
            step.id,
        )


def ways_of(step: Step) -> tuple[tuple[str, Span, tuple[Use, ...]], ...]:
    """Return each way to do a step: its name ("" as written), length and places."""
    others = ((each.name, each.length, each.uses) for each in step.alternatives)
    return (("", step.length, step.uses), *others)


def way_chosen(plan: Plan, step: Step) -> tuple[str, Span, tuple[Use, ...]]:
    """Return the way chosen for a step, or the step as written where the choice is none of its ways."""
    ways = ways_of(step)
    choice = plan.choices.get(step.id)
    return ways[choice.way] if choice is not None and 0 <= choice.way < len(ways) else ways[0]


def with_ways_that_are(plan: Plan) -> Plan:
    """Return the plan without choices of ways that there are not, so that its meaning can be asked."""
    most = {step.id: len(step.alternatives) for dish in plan.menu.dishes for step in dish.steps}
    choices = tuple(each for each in plan.decisions.choices if 0 <= each.way <= most.get(each.step, -1))
    if choices == plan.decisions.choices:
        return plan
    return replace(plan, decisions=replace(plan.decisions, choices=choices))


def in_way(name: str, way: str) -> str:
    """Return a step's words, and the way meant where it is not the step as written."""
    return f"{name}, the other way “{short(way)}”," if way else name


def _texts(step: Step, name: str) -> Problems:
    if trouble := name_trouble(step.does):
        yield problem(Family.TEXTS, f"What is done in {name} {trouble}.", step.id)
    for each in step.alternatives:
        if trouble := name_trouble(each.name):
            yield problem(Family.TEXTS, f"The name of another way to do {name} {trouble}.", step.id)
    texts = [step.skill, step.note, *(text for each in step.touches for text in (each.does, each.skill))]
    if step.doneness is not None:
        texts.append(step.doneness.cue)
    if trouble := texts_trouble(*texts):
        yield problem(Family.TEXTS, f"A text of {name} {trouble}.", step.id)


def _lengths(step: Step, name: str) -> Problems:
    for way, length, _uses in ways_of(step):
        shown = f"{length.low}, {length.likely} and {length.high} min"
        if not length.low <= length.likely <= length.high:
            yield problem(
                Family.LENGTH,
                f"{in_way(name, way)} has the lengths {shown}; write the shortest first, the longest last.",
                step.id,
            )
        elif length.low < 1:
            yield problem(
                Family.LENGTH,
                f"{in_way(name, way)} takes {show_minutes(length.low)}; give it 1 min or more.",
                step.id,
            )
        elif length.high > LONGEST:
            yield problem(
                Family.LENGTH,
                f"{in_way(name, way)} takes longer than a year; give it 366 days or less.",
                step.id,
            )
    if step.least_piece is not None and not 1 <= step.least_piece <= max(1, step.length.low):
        yield problem(
            Family.LENGTH,
            f"{name} may be done in pieces of {step.least_piece} min; give 1 to {step.length.low} min.",
            step.id,
        )


def _touches(step: Step, name: str) -> Problems:
    for touch in step.touches:
        words = f"The touch {_touch_words(touch)}of {name}"
        if touch.at < 0:
            yield problem(
                Family.TOUCHES,
                f"{words} comes {show_minutes(-touch.at)} too soon; let it begin at 0 or later.",
                step.id,
            )
        elif touch.minutes < 1:
            yield problem(
                Family.TOUCHES,
                f"{words} takes {show_minutes(touch.minutes)}; give it 1 min or more.",
                step.id,
            )
        elif touch.at + touch.minutes > step.length.low:
            over = touch.at + touch.minutes - step.length.low
            yield problem(
                Family.TOUCHES,
                f"{words} falls {show_minutes(over)} outside its shortest length,"
                f" {show_minutes(step.length.low)};"
                f" move the touch, or give the step at least {show_minutes(touch.at + touch.minutes)}.",
                step.id,
            )


def _touch_words(touch: Touch) -> str:
    side = "before the end" if touch.from_end else "after the start"
    return f"“{short(touch.does)}” " if touch.does.strip() else f"{show_minutes(touch.at)} {side} "


def _transfers(plan: Plan, step: Step, name: str) -> Problems:
    if step.attention is Attention.HANDS_ON:
        return
    for minutes, what in ((step.put_in, "Putting in"), (step.take_out, "Taking out")):
        if out_of(minutes, 0, LONGEST):
            yield problem(
                Family.TOUCHES,
                f"{what} at {name} takes {show_minutes(minutes)}; give it 0 min or more.",
                step.id,
            )
            return
    put_in, take_out = meaning.transfers(plan, step)
    # With both, a step too short for them is simply a cook's throughout; one alone would stick out of it.
    if put_in and take_out:
        return
    _way, length, uses = way_chosen(plan, step)
    shortest = _shortest(length, uses)
    if max(put_in, take_out) > shortest >= 1:
        yield problem(
            Family.TOUCHES,
            f"Putting in or taking out at {name} takes {show_minutes(max(put_in, take_out))}, longer than"
            f" the step's shortest {show_minutes(shortest)}; give it less, or make the step hands-on.",
            step.id,
        )


def _shortest(length: Span, uses: tuple[Use, ...]) -> int:
    """Return the shortest length over the settings its place may be given."""
    heat = next((use.heat for use in uses if use.heat is not None), None)
    return length.low if heat is None else meaning.length_at(length.low, heat, heat.high)


def _loads(dish: Dish, step: Step, name: str) -> Problems:
    loads = step.loads
    if loads is None:
        return
    if out_of(loads.pieces, 1, MOST_COUNT) or out_of(loads.per_load, 1, MOST_COUNT):
        yield problem(
            Family.LOADS,
            f"{name} makes {loads.pieces} pieces, {loads.per_load} to a load; give both 1 to {MOST_COUNT}.",
            step.id,
        )
        return
    if out_of(loads.change_over, 0, LONGEST):
        yield problem(
            Family.LOADS,
            f"Between the loads of {name} are {show_minutes(loads.change_over)}; give 0 or more.",
            step.id,
        )
    if dish.written_for >= 1 and (count := meaning.load_count(dish, step)) > MOST_LOADS:
        yield problem(
            Family.LOADS,
            f"{name} comes to {count} loads; a load must hold more, so that there are {MOST_LOADS} or fewer.",
            step.id,
        )


def _times(step: Step, name: str) -> Problems:
    for minutes, what in ((step.earliest, "earliest"), (step.latest, "latest")):
        if out_of(minutes, -LONGEST, LONGEST):
            yield problem(
                Family.TIMES,
                f"The {what} time of {name} is more than a year from plating; set it nearer.",
                step.id,
            )
    if (
        step.earliest is not None
        and step.latest is not None
        and step.earliest + step.length.low > step.latest
    ):
        yield problem(
            Family.TIMES,
            f"{name} may begin at {show_tminus(step.earliest)} and must end by {show_tminus(step.latest)},"
            f" too little for its {show_minutes(step.length.low)}; widen one of the two.",
            step.id,
        )
    if step.clock is not None:
        if out_of(step.clock.minute, 0, _DAY - 1):
            yield problem(
                Family.TIMES, f"The clock time of {name} is not a time of day; give 00:00 to 23:59.", step.id
            )
        if out_of(step.clock.days_before, -LONGEST // _DAY, LONGEST // _DAY):
            yield problem(
                Family.TIMES,
                f"The clock time of {name} is more than a year from plating; set it nearer.",
                step.id,
            )
    if step.keeps is not None and out_of(step.keeps.most, 0, LONGEST):
        yield problem(
            Family.TIMES,
            f"{name} cannot keep for {show_minutes(step.keeps.most)}; give 0 to 366 days, or no limit.",
            step.id,
        )


def _doneness(step: Step, name: str) -> Problems:
    if step.doneness is None:
        return
    if out_of(step.doneness.core, _COLDEST, _HOTTEST):
        yield problem(
            Family.NUMBERS,
            f"{name} is done at {step.doneness.core} °C in the middle; give {_COLDEST} to {_HOTTEST} °C.",
            step.id,
        )
    if out_of(step.doneness.rest, 0, LONGEST):
        yield problem(
            Family.NUMBERS, f"{name} rests for {show_minutes(step.doneness.rest)}; give 0 or more.", step.id
        )


def _yields(step: Step, name: str) -> Problems:
    if step.yields is None:
        return
    if trouble := name_trouble(step.yields.item):
        yield problem(Family.TEXTS, f"The name of what {name} yields besides {trouble}.", step.id)
    quantity = step.yields.quantity
    what = f"What {name} yields besides, {short(step.yields.item)},"
    if trouble := amount_trouble(quantity):
        yield problem(Family.NUMBERS, f"{what} {trouble}.", step.id)
    elif quantity.to_taste or not quantity.amount:
        yield problem(Family.NUMBERS, f"{what} comes to nothing; give its amount, or leave it out.", step.id)
