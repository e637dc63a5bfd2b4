"""What the chosen set of food rules asks of the foods that a step cooks, beside the cook's own target."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from app.places.menu.food_words import kind_said, tr
from core.measures.minutes import show_minutes
from core.measures.number import show_decimal
from core.measures.refusal import Refusal
from core.measures.words import join_words
from core.plan.check_words import short
from core.plan.food import Effect, FoodKind
from core.plan.ids import StepId
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Step
from core.safety.effects import done_by
from core.safety.foods import Food, foods_of
from core.safety.limits import core_short
from core.safety.rules import PERISHABLE, RAW_ANIMAL, Measure, Rule, RuleSet
from core.safety.rules_there import chosen_rules

_HEATS = (Effect.COOK, Effect.REHEAT)
_QUICKEST = 120  # seconds: of a table of holds the coolest that takes at most so long is named


@dataclass(frozen=True, slots=True)
class Asked:
    """What a row asks of foods: their names, whether a kind is only proposed, and what the step's target misses of it.

    `below`: °C; `rest`: minutes of rest that are missing (None: no rest is told); `told`: a target is told.
    """

    rule: Rule
    foods: tuple[Food, ...]
    told: bool
    below: Fraction
    rest: int | None
    seconds: int

    @property
    def short(self) -> bool:
        """Tell whether the target misses the row."""
        return self.told and bool(self.below or self.rest or self.seconds)


def rules_of(plan: Plan) -> RuleSet | None:
    """Return the chosen set of rules; None where it is a file of the user's own that is not read here."""
    try:
        return chosen_rules(plan.decisions.rules)
    except Refusal:
        return None


def foods_in(plan: Plan, step: StepId) -> tuple[Food, ...]:
    """Return the foods that go into a step or into one before it."""
    reached, ahead = {step}, [step]
    while ahead:
        for link in plan.links_to[ahead.pop()]:
            if link.kind is LinkKind.END_TO_START and link.before not in reached:
                reached.add(link.before)
                ahead.append(link.before)
    return tuple(each for each in foods_of(plan) if each.step in reached)


def asked_of(plan: Plan, step: Step) -> tuple[Asked, ...]:
    """Return what the chosen set asks of what a step cooks, one for each row; none where it cooks nothing."""
    rules = rules_of(plan)
    if rules is None or done_by(plan, step, None).effect not in _HEATS:
        return ()
    foods = foods_in(plan, step.id)
    found = ((rule, tuple(_under(rule, foods))) for rule in rules.by_measure[Measure.CORE])
    return tuple(_asked(rule, those, step) for rule, those in found if those)


def least_said(rule: Rule) -> str:
    """Return what a row asks for: "62.8 °C (145 °F) and 3 min of rest"."""
    values = rule.values
    hold = next((each for each in values.holds if each.seconds <= _QUICKEST), None)
    if hold is not None:
        time = show_minutes(ceil(hold.seconds / 60)) if hold.seconds >= 60 else f"{hold.seconds} s"
        return tr("{degrees} for {time}").format(degrees=hold.at, time=time)
    if not values.rest:
        return str(values.least)
    return tr("{degrees} and {rest} of rest").format(degrees=values.least, rest=show_minutes(values.rest))


def beside_target(asked: tuple[Asked, ...]) -> str:
    """Return the rows in short, to stand under the cook's own target; "" for none."""
    return "; ".join(
        tr("{least} for {foods}").format(least=least_said(each.rule), foods=_names(each)) for each in asked
    )


def sentence(each: Asked, step: Step) -> str:
    """Return what a row asks, how the step's own target stands to it, and the source."""
    guess = [food for food in each.foods if food.proposed and food.kind is not None]
    asked = tr("asked for {foods}: {least}").format(foods=_names(each), least=least_said(each.rule))
    core = step.doneness.core if step.doneness is not None else None
    said = asked
    if core is None:
        said = tr("{asked}; no target of yours is told").format(asked=asked)
    elif each.below:
        said = tr("your {core} °C is {below} °C below what is {asked}. {who}").format(
            core=core, below=show_decimal(each.below, 1), asked=asked, who=_who(each.rule)
        )
    elif each.seconds:
        longer = show_minutes(ceil(each.seconds / 60))
        said = tr("at your {core} °C it is to be held {longer} longer; {asked}").format(
            core=core, longer=longer, asked=asked
        )
    elif each.rest:
        rest = show_minutes(each.rest)
        said = tr("with your {core} °C {rest} more of rest belong to it; {asked}").format(
            core=core, rest=rest, asked=asked
        )
    taken = ""
    if guess:
        kinds = join_words(list(dict.fromkeys(kind_said(food.kind) for food in guess if food.kind is not None)))
        taken = " " + tr("Taken for {kinds} by name; say at the ingredients if it is not.").format(kinds=kinds)
    said = said[:1].upper() + said[1:].rstrip(".")
    return f"{said} ({each.rule.source}).{taken}"


def _under(rule: Rule, foods: tuple[Food, ...]) -> Iterator[Food]:
    for food in foods:
        if food.kind is None or food.kind is FoodKind.KEEPS:
            continue
        groups = {PERISHABLE, RAW_ANIMAL} if food.raw_animal else {PERISHABLE}
        if rule.names(food.kind) or groups & set(rule.foods):
            yield food


def _asked(rule: Rule, foods: tuple[Food, ...], step: Step) -> Asked:
    done = step.doneness
    if done is None or done.core is None:
        return Asked(rule, foods, False, Fraction(0), None, 0)
    rest = done.rest or 0
    missing = core_short(rule, done.core, rest * 60, rest)
    return Asked(rule, foods, True, missing.degrees, missing.rest or None, missing.seconds)


def _names(each: Asked) -> str:
    return join_words([short(name) for name in dict.fromkeys(food.item for food in each.foods)])


def _who(rule: Rule) -> str:
    if rule.own_target:
        return tr("A target of your own: not for the pregnant, the very young, the old and the ill.")
    return tr("The set leaves no choice here.")
