"""Cooling in stages by the depth of the food, in a fridge or a freezer; reheating."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil

from core.plan.edits.foods import TellCare
from core.plan.edits.steps import ChangeStep
from core.plan.food import Container, Effect, FoodCare
from core.plan.ids import StepId
from core.plan.step import Doneness
from core.safety.case import Case, degrees, said
from core.safety.cooling_time import Phase, cools
from core.safety.finding import Finding, FoodWay
from core.safety.limits import late_stage
from core.safety.rules import Measure, Rule
from core.safety.story import Story, Stretch, Warmth

_BOILS = 95
"""°C of cooked food whose temperature is not told, before it cools."""
_IN_COLD = frozenset({Warmth.COLD, Warmth.FROZEN})
_CALM = _IN_COLD | {Warmth.BETWEEN, Warmth.COOLING}
_TRAYS = (50, 40, 30, 25, 20)
_LONGEST = 24 * 60


def cooling(case: Case, story: Story) -> Iterator[Finding]:
    """Find food that, by a sum, does not fall to a limit in time. Food whose depth is not told is asked about."""
    for start, phases in _coolings(story):
        for rule in case.rows(Measure.COOL, story.food, cooked=True):
            depth, container = _lies(case, phases)
            if depth == 0:
                cold = next((each for each in phases if each.warmth in _IN_COLD), phases[-1])
                case.ask(
                    f"{case.step(cold.step)}: say how deep the food lies, so that its cooling can be judged."
                )
                continue
            yield from _judged(case, story, rule, start, phases, (depth, container))


def _coolings(story: Story) -> Iterator[tuple[float, tuple[Stretch, ...]]]:
    """Yield where hot food goes into the cold: °C at first, and its stretches until it leaves the cold."""
    hot: float | None = None
    found: list[Stretch] = []
    for each in (*story.stretches, None):
        if each is not None and each.warmth in _CALM and hot is not None:
            chilled = any(one.warmth in _IN_COLD for one in found)
            if not (chilled and each.warmth not in _IN_COLD):
                found.append(each)
                continue
        if hot is not None and any(one.warmth in _IN_COLD for one in found):
            yield hot, tuple(found)
            hot = None
        found = []
        if each is not None and each.warmth in (Warmth.COOKING, Warmth.HOT):
            target = each.done.target if not each.waits else None
            hot = float(min(100, target)) if target is not None and target >= 40 else hot or _BOILS
        elif each is not None and each.warmth is not Warmth.BETWEEN:
            hot = None


def _lies(case: Case, phases: Sequence[Stretch]) -> tuple[int, Container | None]:
    """Return the depth told for the cold part, else for any part."""
    told = [_care(case, each.step) for each in reversed(phases)]
    return next(((care.depth, care.container) for care in told if care.depth), (0, None))


def _care(case: Case, step: StepId) -> FoodCare:
    return case.plan.steps[step].food or FoodCare()


def _judged(
    case: Case,
    story: Story,
    rule: Rule,
    start: float,
    phases: tuple[Stretch, ...],
    lies: tuple[int, Container | None],
) -> Iterator[Finding]:
    begins = rule.values.begins
    assert begins is not None, rule.id
    curve = cools(start, _phases(case, phases, lies))
    begun = 0.0 if start <= begins.celsius else curve.falls_to(float(begins.celsius))
    length = sum(each.minutes for each in phases)
    if begun is None or begun >= length:
        return
    reached = [curve.falls_to(float(stage.limit.celsius)) for stage in rule.values.stages]
    late = late_stage(rule, [None if at is None else at - begun for at in reached], length - begun)
    if late is None:
        return
    stage, over = late
    at = reached[rule.values.stages.index(stage)]
    when = (
        f"at {case.clock(phases[0].start + round(at))}" if at is not None else "not before it leaves the cold"
    )
    due = phases[0].start + round(begun) + stage.minutes
    sentence = (
        f"{case.name(story.food)}, {lies[0]} mm deep, falls to {stage.limit} {when} by a sum, and is to be there at"
        f" {case.clock(due)}, {said(stage.minutes)} after {begins}"
    )
    ways = tuple(_shallower(case, rule, start, phases, lies[0]))
    yield case.finding(rule, story, phases, (max(1, round(over)), "min"), sentence, ways)


def _phases(
    case: Case, stretches: Sequence[Stretch], lies: tuple[int, Container | None], iced: bool = False
) -> tuple[Phase, ...]:
    found = []
    for each in stretches:
        if each.minutes == 0:
            continue
        care = _care(case, each.step)
        depth, container = (care.depth, care.container) if care.depth and not iced else lies
        around, celsius = "air", float(each.around)
        if not each.waits and each.done.effect is Effect.COOL_IN_ICE:
            around, celsius = "ice", 1.0
        elif each.warmth is Warmth.COLD:
            around = "fridge"
        elif each.warmth is Warmth.FROZEN:
            around, celsius = "fridge", max(0.0, celsius)  # below that the heat goes into freezing
        told = each.done.target if each.warmth is Warmth.COOLING and not each.waits else None
        found.append(Phase(each.minutes, around, celsius, depth, container, told))
    return tuple(found)


def _shallower(
    case: Case, rule: Rule, start: float, phases: tuple[Stretch, ...], depth: int
) -> Iterator[FoodWay]:
    """Yield the deepest of some shallow trays in which it would do, and an ice bath first."""
    cold = next(each for each in phases if each.warmth in _IN_COLD)
    for tray in (each for each in _TRAYS if each < depth):
        at = _in_trays(case, rule, start, phases, tray)
        if at is not None:
            trays = -(-depth // tray)
            last = rule.values.stages[-1].limit
            many = f"{trays} shallow trays" if trays > 1 else "a shallow tray"
            care = FoodCare(_care(case, cold.step).effect, tray, Container.TRAY)
            yield FoodWay(
                f"Chill in {many}, {tray} mm deep: reaches {last} by {case.clock(phases[0].start + round(at))}.",
                TellCare(cold.step, care),
            )
            return
    yield FoodWay("Cool it in small portions, stirred in an ice bath, before it goes into the fridge.")


def _in_trays(case: Case, rule: Rule, start: float, phases: tuple[Stretch, ...], tray: int) -> float | None:
    """Return the minutes until it is as cold as the last stage asks, if it meets every stage."""
    lies = (tray, Container.TRAY)
    last = replace(phases[-1], end=max(phases[-1].end, phases[-1].start + _LONGEST))
    longer = (*phases[:-1], last)
    curve = cools(start, _phases(case, longer, lies, iced=True))
    begins = rule.values.begins
    assert begins is not None, rule.id
    begun = 0.0 if start <= begins.celsius else curve.falls_to(float(begins.celsius))
    reached = [curve.falls_to(float(stage.limit.celsius)) for stage in rule.values.stages]
    if begun is None or any(at is None for at in reached):
        return None
    late = late_stage(rule, [None if at is None else at - begun for at in reached], _LONGEST)
    return reached[-1] if late is None else None


# ---------------------------------------------------------------- reheating


def reheating(case: Case, story: Story) -> Iterator[Finding]:
    """Find food from the cold that is not made hot enough, takes too long, or goes into hot holding as it is."""
    for rule in case.rows(Measure.REHEAT, story.food, cooked=True):
        for number in story.reheated:
            yield from _reheated(case, story, rule, number)
        yield from _held_cold(case, story, rule)


def _reheated(case: Case, story: Story, rule: Rule, number: int) -> Iterator[Finding]:
    least = rule.values.least
    assert least is not None, rule.id
    hot: list[Stretch] = []
    for each in story.stretches[number:]:
        if each.warmth in (Warmth.COLD, Warmth.FROZEN):
            break
        if each.warmth is Warmth.COOKING:
            hot.append(each)
    first = hot[0]
    told = [each.done.target for each in hot if each.done.target is not None]
    if not told:
        case.ask(
            f"{case.step(first.step)}: say to which core temperature it is reheated; {least} is asked for."
        )
    elif max(told) < least.celsius:
        under = least.celsius - max(told)
        sentence = (
            f"{case.name(story.food)} is reheated to {degrees(max(told))}, {degrees(under)} below {least}"
        )
        way = _hotter(case, first.step, ceil(least.celsius))
        yield case.finding(rule, story, tuple(hot), (under, "°C"), sentence, (way,))
    left = max((each.end for each in story.stretches[:number] if each.warmth is Warmth.COLD), default=None)
    if rule.values.minutes is not None and left is not None and first.end - left > rule.values.minutes:
        over = first.end - left - rule.values.minutes
        name, took = case.name(story.food), said(first.end - left)
        sentence = f"{name} is hot {took} after it left the cold, {said(over)} too late"
        way = FoodWay(f"Leave it in the cold until {case.clock(first.end - rule.values.minutes)}.")
        yield case.finding(rule, story, (first,), (over, "min"), sentence, (way,))


def _held_cold(case: Case, story: Story, rule: Rule) -> Iterator[Finding]:
    chilled = False
    for each in story.stretches:
        if each.warmth is Warmth.COOKING:
            chilled = False
        elif each.cooked and each.warmth in _IN_COLD:
            chilled = True
        elif chilled and each.warmth is Warmth.HOT:
            least = rule.values.least
            sentence = f"{case.name(story.food)} goes from the cold into hot holding, and nothing reheats it to {least}"
            yield case.finding(
                rule, story, (each,), (0, ""), sentence, (FoodWay(f"Reheat it to {least} first."),)
            )
            return


def _hotter(case: Case, step: StepId, core: int) -> FoodWay:
    plain = case.plan.steps[step]
    done = replace(plain.doneness or Doneness(), core=core)
    return FoodWay(f"Heat it to {core} °C in the middle.", ChangeStep(step, replace(plain, doneness=done)))
