"""Checks of hands: whoever a step asks for must exist in the kitchen."""

from __future__ import annotations

from core.plan import meaning
from core.plan.check_problem import Family, Problems, problem
from core.plan.check_words import short, spoken
from core.plan.kitchen import Kitchen
from core.plan.meaning import HandsAt
from core.plan.plan import Plan
from core.plan.step import Step


def hands_problems(plan: Plan) -> Problems:
    """Find steps that ask for more hands, or other skills, than the kitchen's cooks have."""
    for dish in plan.menu.dishes:
        for step in dish.steps:
            sentence = _step(plan, step, spoken(dish, step))
            if sentence:
                yield problem(Family.HANDS, sentence, step.id)


def _step(plan: Plan, step: Step, name: str) -> str:
    kitchen = plan.kitchen
    if step.hands < 1:
        return f"{name} is done by {step.hands} cooks; give it 1 or more, or make it hands-off."
    hands = meaning.hands_of(plan, step, max(1, step.length.likely))
    if not hands:
        return ""
    if not kitchen.cooks:
        return (
            f"{name} takes a cook's hands, and the kitchen has no cook; add one under Kitchen,"
            " or make it hands-off with 0 min for putting in and taking out."
        )
    for each in hands:
        if sentence := _people(kitchen, each, name):
            return sentence
    return ""


def _people(kitchen: Kitchen, hands: HandsAt, name: str) -> str:
    there = len(kitchen.cooks)
    if hands.people > there:
        return (
            f"{name} takes {hands.people} cooks at once, and the kitchen has {there}; take fewer, or add one."
        )
    able = sum(1 for cook in kitchen.cooks if hands.skill in cook.skills)
    if not hands.skill or able >= hands.people:
        return ""
    who = "no cook has it" if able == 0 else f"only {able} of the {hands.people} cooks it takes has it"
    return f"{name} asks for the skill “{short(hands.skill)}”, and {who}; give it to a cook, or leave it out."
