"""Makes edits of the lines that a cook typed: new steps with their links, or a step as its line now says it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from PySide6.QtCore import QCoreApplication

from app.places.menu.line_reading import TypedLine
from core.measures.refusal import Refusal
from core.plan.edits import AddLink, AddStep, ChangeLink, ChangeStep, Edit, RemoveLink, Together
from core.plan.ids import DishId, StepId
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.reading.line import with_line
from core.reading.line_value import Follow, Line, LineWait

Waits = dict[StepId, LineWait]
"""Waits that were said of steps which nothing follows yet; the link that comes later gets them."""


@dataclass
class Made:
    """The edit (None: nothing changes) and the waits that no link can bear yet."""

    edit: Edit | None
    waits: Waits = field(default_factory=dict)


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("LineMaking", words)


def link_after(plan: Plan, step: StepId) -> Link | None:
    """Return the link whose wait a step's line speaks of: to the step below, else the only one that leaves it."""
    ends = [link for link in plan.menu.links if link.before == step and link.kind is LinkKind.END_TO_START]
    steps = [each.id for each in plan.dish_of[step].steps]
    below = steps[steps.index(step) + 1 :][:1]
    found = next((link for link in ends if link.after in below), None)
    return found or (ends[0] if len(ends) == 1 else None)


# ---------------------------------------------------------------- new steps


def new_steps(
    plan: Plan, dish: DishId, typed: Sequence[TypedLine], after: StepId | None, waits: Waits
) -> Made:
    """Return one edit that adds a step for each line after another one; the first follows that one by a link.

    Raise Refusal where a line does not say what is done or how long.
    """
    ids = {each.step for each in typed}
    told = {step: wait for step, wait in waits.items() if step not in ids}  # else of one that was undone
    told.update({each.step: each.line.wait for each in typed if each.line.wait is not None})
    edits: list[Edit] = []
    now = plan
    for each in typed:
        made = _one(now, dish, each, after, told)
        for edit in made:
            now = edit.change(now)
        edits += made
        after = each.step
    left = {step: told[step] for step in ids if step in told and link_after(now, step) is None}
    if len(typed) == 1:
        label = tr("Write “{does}”").format(does=typed[0].line.step_values["does"])
    else:
        label = tr("Write {number} steps").format(number=len(typed))
    return Made(Together(label, tuple(edits)) if edits else None, left)


def _one(plan: Plan, dish: DishId, typed: TypedLine, after: StepId | None, told: Waits) -> list[Edit]:
    """Return the edits that add one step: itself, then the waits of the links at its two ends."""
    step = typed.line.step(typed.step)
    joined = after is not None and all(each.also for each in typed.line.follows)
    links = [link for link in _follow_links(typed, told) if not (joined and _same(link, after, step.id))]
    add = AddStep(dish, step, after, chained=joined, links=tuple(links))
    edits: list[Edit] = [add]
    now = add.change(plan)
    if joined and after is not None and after in told:
        edits.append(_waiting(Link(after, step.id), told[after]))
    below = link_after(now, step.id)
    if below is not None and typed.line.wait is not None:
        edits.append(_waiting(below, typed.line.wait))
    return edits


def _follow_links(typed: TypedLine, told: Waits) -> list[Link]:
    found: dict[tuple[StepId, StepId, LinkKind], Link] = {}
    for each in typed.line.follows:
        if each.step is not None:
            link = _said_wait(each, told).link(each.step, typed.step, each.kind)
            found.setdefault(link.key, link)
    return list(found.values())


def _said_wait(follow: Follow, told: Waits) -> LineWait:
    """Return the wait of a link that a line names: its own, else what the earlier step's line said."""
    own = told.get(follow.step) if follow.step is not None and follow.kind is LinkKind.END_TO_START else None
    return follow.wait or own or LineWait()


def _same(link: Link, before: StepId | None, after: StepId) -> bool:
    return link.key == (before, after, LinkKind.END_TO_START)


def _waiting(link: Link, wait: LineWait) -> ChangeLink:
    """Return the edit that gives a link another wait and leaves the rest of it."""
    return ChangeLink(link.key, replace(link, least=wait.least, most=wait.most, wait=wait.wait))


# ---------------------------------------------------------------- a step that there is


def changed_step(plan: Plan, step: StepId, was: Line, line: Line, waits: Waits) -> Made:
    """Return the edit by which a step becomes what its line now says; what no line can say stays.

    `waits` of the answer has a wait for the step if it said one that no link can bear yet. Raise Refusal where the
    line gives a short name, or a wait and several steps follow.
    """
    if line.label:
        raise Refusal(
            tr("A short name is given when a step is first written; take “{label}:” out.").format(label=line.label)
        )
    old = plan.steps[step]
    new = with_line(old, line, was)
    edits: list[Edit] = [] if new == old else [ChangeStep(step, new)]
    left: Waits = {}
    below = link_after(plan, step)
    if below is None:
        if line.wait is not None and plan.links_from[step]:
            raise Refusal(tr("Several steps follow this one; type the wait on its arrow, in the flow."))
        left = {} if line.wait is None else {step: line.wait}
    elif line.wait != was.wait:
        edits.append(_waiting(below, line.wait or LineWait()))
    edits += _following(plan, step, line, waits)
    if not edits:
        return Made(None, left)
    label = tr("Write “{does}” anew").format(does=new.does)
    return Made(Together(label, tuple(edits)), left)


def _following(plan: Plan, step: StepId, line: Line, waits: Waits) -> list[Edit]:
    """Return the edits that let a step follow what its line names, instead of the step above or besides."""
    if not line.follows:
        return []
    steps = [each.id for each in plan.dish_of[step].steps]
    at = steps.index(step)
    above = steps[at - 1] if at else None
    there = {link.key: link for link in plan.menu.links}
    wanted = {link.key: link for link in _follow_links(TypedLine(0, step, line), waits)}
    edits: list[Edit] = []
    key = (above, step, LinkKind.END_TO_START)
    if above is not None and not all(each.also for each in line.follows) and key in there and key not in wanted:
        edits.append(RemoveLink((above, step, LinkKind.END_TO_START)))
    said = {(each.step, each.kind) for each in line.follows if each.wait is not None}
    for key, link in wanted.items():
        if key not in there:
            edits.append(AddLink(link))
        elif (link.before, link.kind) in said:
            edits.append(_waiting(there[key], LineWait(link.least, link.most, link.wait)))
    return edits
