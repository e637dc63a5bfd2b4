"""What a line says, in words for the screen: on chips, and in a step's row."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from core.plan.ids import StepId, dish_part
from core.plan.plan import Plan
from core.plan.step import Attention
from core.reading.line_rules_wait import FollowSaid
from core.reading.line_value import Chip, Line, Says

_FROM = (", as usual", ", for its visits")
_ATTENTION = {
    Attention.HANDS_ON: "hands on",
    Attention.TENDED: "by itself, with touches",
    Attention.HANDS_OFF: "by itself",
}
_SIZES = (Says.AREA, Says.HEIGHT, Says.RAW, Says.STEADY)  # of the place named before them
_LONGEST = 34  # signs of a step's words on a chip


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("LineWords", words)


def short(words: str, most: int = _LONGEST) -> str:
    """Return words cut after a whole word where they are long."""
    if len(words) <= most:
        return words
    return words[:most].rsplit(" ", 1)[0].rstrip(" ,;") + "…"


def step_words(plan: Plan, step: StepId, dish: object = None) -> str:
    """Return what a step does in few words, with its dish where that is another one."""
    the_step = plan.steps.get(step)
    does = short(the_step.does) if the_step is not None else step.partition(".")[2].replace("-", " ")
    owner = plan.dish_of.get(step)
    if owner is None or dish is None or dish_part(step) == dish:
        return does
    return tr("{does} ({dish})").format(does=does, dish=owner.name)


def chip_words(chip: Chip, plan: Plan, dish: object = None) -> str:
    """Return what a chip says."""
    said = chip.value
    if chip.kind is Says.ATTENTION and isinstance(said, Attention):
        return tr(_ATTENTION[said])
    if isinstance(said, FollowSaid) and said.step is not None:
        return chip.words.replace(said.step, f"“{step_words(plan, said.step, dish)}”", 1)
    if chip.kind is Says.LENGTH:
        return chip.words.removeprefix("takes ")
    if chip.kind is Says.CUE:
        return tr("until {cue}").format(cue=said) if said else tr("until it is done")
    words = chip.words
    for tail in _FROM:
        words = words.removesuffix(tail)
    return words


def line_told(line: Line, plan: Plan, dish: object = None) -> list[str]:
    """Return what a line says beside what is done: first how long and how much of a cook it takes."""
    order = {Says.LENGTH: 0, Says.ATTENTION: 1}
    chips = sorted(line.chips, key=lambda chip: (order.get(chip.kind, 2), chip.start))
    if any(each.kind is Says.TOUCH for each in chips):  # they say it
        chips = [each for each in chips if not (each.kind is Says.ATTENTION and each.implied)]
    told: list[tuple[str, list[str]]] = []
    for each in chips:
        words = chip_words(each, plan, dish)
        if each.kind in _SIZES and told:
            told[-1][1].append(words)
        elif each.kind is not Says.LABEL:
            told.append((words, []))
    return [f"{words} ({', '.join(sizes)})" if sizes else words for words, sizes in told]
