"""What is written and spoken about the arrows of a flow."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from core.plan.check_words import Words
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan


def wait_words(link: Link) -> str:
    """Return how long the food waits on a link, and what is counted where that is not the usual."""
    from core.intake.text.waits import bounds_out

    words = bounds_out(link.least, link.most)
    if link.kind is LinkKind.START_TO_START:
        return QCoreApplication.translate("FlowWords", "start to start {wait}").format(wait=words).strip()
    if link.kind is LinkKind.END_TO_END:
        return QCoreApplication.translate("FlowWords", "end to end {wait}").format(wait=words).strip()
    return words


def spoken_link(plan: Plan, link: Link) -> str:
    """Return a link as a sentence for assistive technology."""
    words, wait = Words(plan), wait_words(link)
    said = QCoreApplication.translate("FlowWords", "{one}, then {other}").format(
        one=words.step(link.before), other=words.step(link.after)
    )
    return f"{said} ({wait})" if wait else said
