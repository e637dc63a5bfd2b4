"""What is said of a usual run of steps before it is taken: its steps, where the numbers come from, what to mind."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication

from core.measures.minutes import show_minutes, show_span
from core.plan.blocks import Block, BlockKind, BlockStep

_NAMES = {
    BlockKind.REST_AND_CARVE: QT_TRANSLATE_NOOP("BlockWords", "Rest and carve"),
    BlockKind.BRINE_OVERNIGHT: QT_TRANSLATE_NOOP("BlockWords", "Brine overnight"),
    BlockKind.PROOF_AND_BAKE: QT_TRANSLATE_NOOP("BlockWords", "Proof and bake"),
    BlockKind.BLANCH_AND_FINISH: QT_TRANSLATE_NOOP("BlockWords", "Blanch and finish"),
    BlockKind.MAKE_AHEAD_AND_REHEAT: QT_TRANSLATE_NOOP("BlockWords", "Make ahead and reheat"),
}


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("BlockWords", words)


def name_of(kind: BlockKind) -> str:
    """Return a run's name in the cook's language."""
    return tr(str(_NAMES[kind]))


def spoken_block(block: Block) -> str:
    """Return a run in plain words, for assistive technology."""
    steps = "; ".join(f"{step.does}, {show_minutes(step.length.likely)}" for step in block.steps)
    return f"{name_of(block.kind)}: {steps}. {' '.join(block.cautions)}"


def told_block(block: Block) -> str:
    """Return a run as rich text: each step with its length and source, then the cautions."""
    steps = "".join(_told_step(step) for step in block.steps)
    cautions = "".join(f"<p>{escape(each)}</p>" for each in block.cautions)
    mind = f"<p><b>{escape(tr('Mind'))}</b></p>{cautions}" if cautions else ""
    return f"<ol style='margin-left: -18px'>{steps}</ol>{mind}"


def _told_step(step: BlockStep) -> str:
    span = show_span(step.length.low, step.length.likely, step.length.high)
    said = f"<b>{escape(step.does)}</b>, {escape(span)}<br>{escape(step.source)}"
    if step.follows.source:
        wait = tr("wait before it: {bounds}").format(bounds=_bounds(step))
        said += f"<br>{escape(wait)} ({escape(step.follows.source)})"
    return f"<li>{said}</li>"


def _bounds(step: BlockStep) -> str:
    from core.intake.text.waits import wait_words

    return wait_words(step.follows.least, step.follows.most, step.follows.wait)
