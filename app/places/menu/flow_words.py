"""What is written, typed and spoken about the arrows of a flow."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QCoreApplication

from app.fields.typed_places import read_how, show_how
from core.measures.refusal import Refusal, quoted
from core.plan.check_words import Words
from core.plan.ids import DishId, StepId
from core.plan.kitchen import Kitchen
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Wait

_BETWEEN = re.compile(r"\s*(?:-|–|\bto\b)\s*")
_BOUNDS: tuple[set[str], ...] = ({"least"}, {"most"}, {"least", "most"}, set())


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("FlowWords", words)


def wait_words(link: Link) -> str:
    """Return how long and how the food waits on a link, and what is counted where that is not the usual."""
    from core.intake.text.waits import bounds_out

    parts = [bounds_out(link.least, link.most)]
    if link.wait.how is not Wait().how:
        parts.append(link.wait.how.value)
    words = ", ".join(part for part in parts if part)
    if link.kind is LinkKind.START_TO_START:
        return tr("start to start {wait}").format(wait=words).strip()
    if link.kind is LinkKind.END_TO_END:
        return tr("end to end {wait}").format(wait=words).strip()
    return words


def spoken_link(plan: Plan, link: Link) -> str:
    """Return a link as a sentence for assistive technology."""
    words, wait = Words(plan), wait_words(link)
    said = tr("{one}, then {other}").format(one=words.step(link.before), other=words.step(link.after))
    return f"{said} ({wait})" if wait else said


def told_link(plan: Plan, dish: DishId, link: Link) -> str:
    """Return a link in few words, the dish's name only at steps of another one."""
    ends = []
    for step in (link.before, link.after):
        own = plan.dish_of[step]
        ends.append(short_step(plan, step) if own.id == dish else f"{own.name}: {short_step(plan, step)}")
    wait = wait_words(link) or tr("as long as you like")
    return tr("{one}, then {other}: {wait}").format(one=ends[0], other=ends[1], wait=wait)


def short_step(plan: Plan, step: StepId) -> str:
    """Return what a step does up to its first comma, in quotes."""
    return f"“{plan.steps[step].does.split(',')[0]}”" if step in plan.steps else "…"


def wait_text(link: Link, kitchen: Kitchen) -> str:
    """Return a link's wait as it is typed: "10 min to 30 min, on the counter"."""
    from core.intake.text.waits import bounds_out

    bounds = bounds_out(link.least, link.most) or "any time"
    how = show_how((link.wait, link.brings), kitchen)
    kind = "" if link.kind is LinkKind.END_TO_START else f"{link.kind}, "
    return f"{kind}{bounds}, {how}"


def link_typed(text: str, link: Link, kitchen: Kitchen) -> Link:
    """Return a link with the wait that a text says; an empty one is any time on the counter.

    Raise Refusal with the mend where the text cannot be read, such as "10 min" (up to? at least? exactly?).
    """
    from core.intake.text.places import split_parts

    kind, found, how = LinkKind.END_TO_START, dict[str, int](), []
    for part in split_parts(text):
        plain = " ".join(part.split()).casefold()
        if plain in set(LinkKind):
            kind = LinkKind(plain)
            continue
        bounds = _bounds_in(part)
        if bounds is None:
            how.append(part)
        elif found.keys() & bounds.keys():
            raise Refusal(f"{quoted(text)} says twice how long it may wait; write it once, such as 10-30 min.")
        else:
            found |= bounds
    wait, brings = read_how(", ".join(how), kitchen)
    return replace(
        link, kind=kind, least=found.get("least", 0), most=found.get("most"), wait=wait, brings=brings
    )


def _bounds_in(part: str) -> dict[str, Any] | None:
    """Return what a part says of how long, None where it speaks of something else or cannot be read."""
    from core.intake.text.waits import wait_parts

    try:
        said = wait_parts(part)
    except Refusal:
        _refuse_turned_round(part)
        return None
    return dict(said) if set(said) in _BOUNDS else None


def _refuse_turned_round(part: str) -> None:
    """Raise Refusal for two lengths of which the first is the longer one."""
    from core.measures.minutes import parse_minutes

    ends = _BETWEEN.split(part.strip(), maxsplit=1)
    if len(ends) < 2:
        return
    try:
        least, most = (parse_minutes(end) for end in ends)
    except Refusal:
        return
    if least > most:
        raise Refusal(f"{quoted(part)}: the longest wait is shorter than the least; write the least first: 10-40 min.")
