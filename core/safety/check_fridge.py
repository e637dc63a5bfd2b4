"""What a fridge has to take away: warm food that is put into it, against what it can chill.

Heat in kJ: mass times 3.7 kJ/(kg K), of food with much water (order of handbooks' tables, from memory), times the °C
above 5. How warm food is when it goes in: what its cooling step says, else it falls in a straight line from where it
was cooked to the room within two hours (common practice, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from core.measures.number import show_decimal
from core.plan.edits.foods import TellCare
from core.plan.food import Effect, FoodCare
from core.plan.ids import StationId, StepId
from core.plan.kitchen import COLD
from core.safety.case import Case, degrees, said
from core.safety.finding import Finding, FoodWay
from core.safety.foods import grams_of
from core.safety.rules import Measure, Rule
from core.safety.story import Story, Stretch, Warmth

_KILOJOULE = Fraction(37, 10_000)
"""kJ for a gram and a degree."""
_COLD, _HOT, _EVEN = 5, 95, 120


@dataclass(frozen=True)
class _Entry:
    """Food that goes warm into a cold place: when, how warm, how much heat, whose."""

    at: int
    station: StationId
    step: StepId
    story: Story
    stretch: Stretch
    celsius: Fraction
    grams: Fraction

    @property
    def heat(self) -> Fraction:
        """Return kJ above what is cold."""
        return self.grams * _KILOJOULE * max(Fraction(0), self.celsius - _COLD)


def fridge_load(case: Case) -> Iterator[Finding]:
    """Find stretches of time in which more heat goes into a cold place than it can take away."""
    entries = sorted(_entries(case), key=lambda each: each.at)
    for rule in case.rules.by_measure[Measure.FRIDGE_LOAD]:
        minutes, watts = rule.values.minutes or 0, rule.values.watts or 0
        most = Fraction(watts * minutes * 60, 1000)
        told: set[StationId] = set()
        for first in entries:
            there = [each for each in entries if each.station == first.station]
            together = [each for each in there if 0 <= each.at - first.at < minutes]
            heat = sum((each.heat for each in together), Fraction(0))
            if heat > most and first.station not in told:
                told.add(first.station)
                yield _too_warm(case, rule, together, heat - most)


def _too_warm(case: Case, rule: Rule, together: list[_Entry], over: Fraction) -> Finding:
    worst = max(together, key=lambda each: each.heat)
    minutes, watts = rule.values.minutes or 0, rule.values.watts or 0
    share = show_decimal((over + Fraction(watts * minutes * 60, 1000)) * 1000 / 60 / minutes, 0)
    sentence = (
        f"{case.name(worst.story.food)} goes into {case.facts.words.station(worst.station)} at about"
        f" {degrees(round(worst.celsius))}, {case.clock(worst.at)}: within {said(minutes)} that asks for {share} W"
        f" beside what it does anyway, and it is taken to have {watts} W; what stands there gets warm"
    )
    stretches = tuple(each.stretch for each in together if each is worst)
    earlier = _step_before(worst)
    ways = [
        FoodWay("Cool it in an ice bath first, or in a cool box with ice, and put it in at 21 °C or less.")
    ]
    if earlier is not None and earlier.done.effect is Effect.COOL:
        plain = case.plan.steps[earlier.step].food or FoodCare()
        care = FoodCare(Effect.COOL_IN_ICE, plain.depth, plain.container)
        ways.append(FoodWay(f"Do {case.step(earlier.step)} in an ice bath.", TellCare(earlier.step, care)))
    return case.finding(rule, worst.story, stretches, (over, "kJ"), sentence, tuple(ways))


def _step_before(entry: _Entry) -> Stretch | None:
    at = entry.story.stretches.index(entry.stretch)
    return next((each for each in reversed(entry.story.stretches[:at]) if not each.waits), None)


def _entries(case: Case) -> Iterator[_Entry]:
    """Yield each warm entry once, with the mass of all foods in it."""
    found: dict[tuple[StepId, bool, int], list[tuple[Story, Stretch]]] = {}
    for story in case.stories:
        for number, each in enumerate(story.stretches):
            before = story.stretches[number - 1] if number else None
            if (
                before is None
                or each.warmth is not Warmth.COLD
                or not each.cooked
                or not _is_cold(case, each)
            ):
                continue
            if before.warmth not in (Warmth.COLD, Warmth.FROZEN):
                found.setdefault((each.step, each.waits, each.start), []).append((story, each))
    for (step, _waits, start), those in found.items():
        grams = dict(_mass(case, story, step) for story, _each in those)
        story, stretch = next((pair for pair in those if pair[0].perishable(pair[1])), those[0])
        if story.perishable(stretch) and stretch.station is not None:
            warm = _entering(case, story, stretch)
            yield _Entry(start, stretch.station, step, story, stretch, warm, sum(grams.values(), Fraction(0)))


def _mass(case: Case, story: Story, step: StepId) -> tuple[tuple[str, str], Fraction]:
    """Return what a food is counted by, and its grams: of what a link brings, as much as it brings, once."""
    upto = story.path[: story.path.index(step) + 1]
    for before, after in reversed(tuple(pairwise(upto))):
        link = next(each for each in case.plan.links_from[before] if each.after == after)
        if link.brings is not None and (grams := grams_of(link.brings)) is not None:
            return (before, after), grams
    return (story.food.dish, str(story.food.line)), story.food.grams or Fraction(0)


def _is_cold(case: Case, stretch: Stretch) -> bool:
    place = case.plan.kitchen.station.get(stretch.station) if stretch.station is not None else None
    return place is not None and place.kind in COLD


def _entering(case: Case, story: Story, stretch: Stretch) -> Fraction:
    """Return how warm a food is taken to be when it goes into the cold."""
    room = stretch.around if case.plan.kitchen.room is None else Fraction(case.plan.kitchen.room)
    room = max(room, Fraction(21))
    minutes = 0
    for each in reversed(story.stretches[: story.stretches.index(stretch)]):
        if each.warmth is Warmth.COOLING and not each.waits and each.done.target is not None:
            return Fraction(each.done.target)
        if each.warmth is Warmth.COOLING and each.done.effect is Effect.COOL_IN_ICE:
            return Fraction(21)
        if each.warmth in (Warmth.COOKING, Warmth.HOT):
            hot = Fraction(each.done.target if each.done.target is not None else _HOT)
            return max(room, hot - (hot - room) * min(minutes, _EVEN) / _EVEN) if hot > room else hot
        if each.warmth in (Warmth.COLD, Warmth.FROZEN):
            return Fraction(_COLD) + min(Fraction(minutes, 8), room - _COLD)
        minutes += each.minutes
    return room
