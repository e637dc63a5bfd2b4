"""What the page of one food says beside the plot: the limits it misses, and what is not told of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.places.food.view import FoodView
from app.places.food.words import said, sentence_of

if TYPE_CHECKING:
    from app.places.food.watching import Told


def said_of(view: FoodView, told: Told | None) -> tuple[str, str]:
    """Return the sentences of limits missed, and those on what is untold, the rules and their caution."""
    from core.safety import DEFER
    from core.safety.case import Case

    limits = "\n".join(f"{sentence_of(each)}" for each in view.findings)
    report = told.report if told is not None else None
    if told is not None and told.fault:
        return limits, f"{told.fault}\n\n{DEFER}"
    if report is None or told is None:
        return limits, said("The day is not arranged yet: arrange it, then its temperatures are drawn here.")
    lines = []
    if view.food.kind is None:
        words = "Its kind is not told and not to be guessed: say it at its ingredient, then limits are held against it."
        lines.append(said(words))
    elif view.story is None:
        lines.append(said("No step of it is on the timetable, so that nothing can be drawn or judged."))
    elif not view.limits:
        lines.append(said("No limit of these rules asks about it."))
    case = Case(view.plan, told.timetable, report.rules, ())
    names = {case.name(view.food)}
    if view.story is not None:
        names |= {case.step(step) for step in view.story.path}
    lines += [each for each in report.untold if any(name in each for name in names)]
    steps = said(
        "Where to tell it: kind, how it comes and what a piece weighs at the ingredient; depth and core temperature at "
        "the step; how warm fridge and room are in the Kitchen."
    )
    asked = "\n".join(f"–  {each}" for each in lines)
    rules = said("Rules: {name}.").format(name=report.rules.name)
    band = said("The band is an estimate between a thin piece and a thick one, not a measurement.")
    return limits, "\n\n".join(filter(None, (asked, steps if lines else "", f"{rules} {band}", DEFER)))
