"""Checks of links: their steps exist, their waits are in order, and no chain bites its tail."""

from __future__ import annotations

from collections.abc import Collection

from core.measures.minutes import show_minutes
from core.measures.refusal import quoted
from core.measures.unit_names import UNITS
from core.measures.words import join_words
from core.plan.check_problem import LONGEST, Family, Problems, amount_trouble, out_of, problem
from core.plan.check_words import JOINS, Words, short
from core.plan.ids import StepId
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Step


def link_problems(plan: Plan) -> Problems:
    """Find what is wrong with the links, contradictions of their minutes apart."""
    words = Words(plan)
    steps = {step.id: step for dish in plan.menu.dishes for step in dish.steps}
    seen: set[tuple[StepId, StepId, LinkKind]] = set()
    for link in plan.menu.links:
        if sentence := _ends(link, steps, words):
            yield problem(Family.LINKS, sentence, link.before, link.after)
            continue
        if link.key in seen:
            yield problem(
                Family.LINKS,
                f"{words.step(link.after)} is linked twice as {link.kind} to {words.step(link.before)};"
                " take one of the two links out.",
                link.before,
                link.after,
            )
        seen.add(link.key)
        if sentence := _waits(link, words):
            yield problem(Family.TIMES, sentence, link.before, link.after)
        if link.brings is not None and (trouble := amount_trouble(link.brings)):
            sentence = f"What {words.step(link.before)} brings to {words.step(link.after)} {trouble}."
            yield problem(Family.NUMBERS, sentence, link.before, link.after)
        elif sentence := _by_product(link, steps[link.before], words):
            yield problem(Family.NUMBERS, sentence, link.before, link.after)
    for chain, knot in circles(plan):
        names = [words.step(step) for step in (*chain, chain[0])]
        yield problem(
            Family.CIRCLE,
            f"These steps wait for each other in a circle: {', then '.join(names)}. Take out one of the links"
            f" or orders between {join_words([words.step(step) for step in chain])}.",
            *knot,
        )


def _ends(link: Link, steps: Collection[StepId], words: Words) -> str:
    missing = [step for step in (link.before, link.after) if step not in steps]
    if missing:
        gone = join_words([quoted(step) for step in dict.fromkeys(missing)])
        are = "is no step" if len(set(missing)) == 1 else "are no steps"
        return (
            f"A link from {words.step(link.before)} to {words.step(link.after)} names {gone}, which"
            f" {are} of the menu; take the link out, or let it join two steps that are there."
        )
    if link.before == link.after:
        return f"{words.step(link.before)} is linked to itself; take the link out, or choose another step."
    return ""


def _waits(link: Link, words: Words) -> str:
    pair = f"{words.step(link.after)}, {JOINS[link.kind]} {words.step(link.before)},"
    if out_of(link.least, 0, LONGEST):
        return f"{pair} waits at least {show_minutes(link.least)}; give 0 min to 366 days."
    if link.most is not None and link.most < link.least:
        return (
            f"{pair} waits at least {show_minutes(link.least)} and at most {show_minutes(link.most)};"
            " make the longest wait the longer one, or leave it without a limit."
        )
    if out_of(link.most, 0, LONGEST):
        return f"{pair} may wait for more than a year; give 366 days or less, or no limit."
    return ""


def _by_product(link: Link, before: Step, words: Words) -> str:
    made, brought = before.yields, link.brings
    if made is None or brought is None or brought.to_taste or made.quantity.to_taste:
        return ""
    one, other = made.quantity.unit, brought.unit
    if one == other or amount_trouble(made.quantity) or UNITS[one].kind == UNITS[other].kind != "count":
        return ""
    return (
        f"{words.step(link.before)} yields {made.quantity.as_text()} of {short(made.item)}, and"
        f" {brought.as_text()} of it go to {words.step(link.after)}: these cannot be reckoned together; write"
        " both by weight, both by volume, or in the same unit."
    )


Knot = tuple[tuple[StepId, ...], frozenset[StepId]]
"""One circle of steps, and all steps that are tied up with it."""


def circles(plan: Plan) -> list[Knot]:
    """Return one circle of end-to-start links and orders for each knot of steps that wait for each other."""
    follows, leads = _neighbours(plan)
    found: list[Knot] = []
    tied: set[StepId] = set()
    for chain in _back_to_start(follows):
        if chain[0] not in tied:
            knot = frozenset(_reached(follows, chain[0]) & _reached(leads, chain[0]))
            tied |= knot
            found.append((chain, knot))
    return found


_Pairs = dict[StepId, list[StepId]]


def _neighbours(plan: Plan) -> tuple[_Pairs, _Pairs]:
    """Return what follows each step and what leads to it; links that name no step are left out."""
    follows: _Pairs = {step.id: [] for dish in plan.menu.dishes for step in dish.steps}
    leads: _Pairs = {step: [] for step in follows}
    pairs = [(link.before, link.after) for link in plan.menu.links if link.kind is LinkKind.END_TO_START]
    pairs += [(order.first, order.then) for order in plan.decisions.orders]
    for before, after in pairs:
        if before != after and before in follows and after in follows:
            follows[before].append(after)
            leads[after].append(before)
    return follows, leads


def _back_to_start(follows: _Pairs) -> list[tuple[StepId, ...]]:
    """Return circles met on a walk in depth, at least one of each knot."""
    found: list[tuple[StepId, ...]] = []
    done: dict[StepId, bool] = {}  # False while the step is on the path that is walked
    for start in follows:
        if start in done:
            continue
        path, rests = [start], [iter(follows[start])]
        done[start] = False
        while path:
            step = next(rests[-1], None)
            if step is None:
                done[path.pop()] = True
                rests.pop()
            elif step not in done:
                done[step] = False
                path.append(step)
                rests.append(iter(follows[step]))
            elif not done[step]:
                found.append(tuple(path[path.index(step) :]))
    return found


def _reached(pairs: _Pairs, start: StepId) -> set[StepId]:
    reached = {start}
    waiting = [start]
    while waiting:
        for step in pairs[waiting.pop()]:
            if step not in reached:
                reached.add(step)
                waiting.append(step)
    return reached
