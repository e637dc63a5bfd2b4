"""Validation of plans in one place: what is wrong, in sentences that name the thing and say the mend."""

from __future__ import annotations

from core.measures.refusal import Refusal
from core.plan.check_decisions import decision_problems
from core.plan.check_hands import hands_problems
from core.plan.check_kitchen import kitchen_problems
from core.plan.check_links import link_problems
from core.plan.check_menu import menu_problems
from core.plan.check_places import place_problems
from core.plan.check_problem import Family, Problem
from core.plan.check_steps import step_problems, with_ways_that_are
from core.plan.plan import Plan

_MOST_SAID = 5


def found(plan: Plan) -> tuple[Problem, ...]:
    """Return all problems, in the order menu, steps, places, hands, links, kitchen, decisions."""
    chosen = with_ways_that_are(plan)
    each = [
        *menu_problems(plan),
        *step_problems(chosen),
        *place_problems(plan),
        *hands_problems(chosen),
        *link_problems(plan),
        *kitchen_problems(plan.kitchen),
        *decision_problems(plan),
    ]
    return tuple(dict.fromkeys(each))


def problems(plan: Plan) -> tuple[str, ...]:
    """Return a sentence for each thing that is wrong; none for a valid plan. Never raises."""
    return tuple(dict.fromkeys(each.sentence for each in found(plan)))


def require(plan: Plan) -> Plan:
    """Return a valid plan as it is; raise Refusal with the sentences otherwise."""
    sentences = problems(plan)
    if sentences:
        raise Refusal(" ".join(sentences))
    return plan


def require_no_worse(before: Plan, after: Plan) -> Plan:
    """Return `after` unless it has problems that `before` had not; raise Refusal with those alone.

    What was in trouble may stay in trouble of the same family, so that a plan can be mended bit by bit.
    """
    now = found(after)
    if not now:
        return after
    old = found(before)
    new = [each for each in now if not any(_covers(one, each) for one in old)]
    if new:
        raise Refusal(told(tuple(dict.fromkeys(each.sentence for each in new))))
    return after


def told(sentences: tuple[str, ...]) -> str:
    """Return sentences as one text; of many the first few, and how many more."""
    said = list(sentences[:_MOST_SAID])
    more = len(sentences) - len(said)
    if more:
        said.append(f"And {more} more like {'these' if more > 1 else 'this'}.")
    return " ".join(said)


def _covers(old: Problem, new: Problem) -> bool:
    if old.family is not new.family:
        return False
    # A knot of circles that is undone link by link leaves smaller knots of the same steps.
    return new.about <= old.about if new.family is Family.CIRCLE else new.about == old.about
