"""Small things written on one line at a step: touches, loads, vessels."""

from __future__ import annotations

import re
from typing import Any, ClassVar

from core.intake.text.entry import Entry
from core.intake.text.places import Typed
from core.intake.text.scalars import Minutes, minutes_out
from core.measures.minutes import parse_minutes, show_minutes
from core.measures.refusal import Refusal, quoted
from core.plan.ids import VesselId
from core.plan.step import Loads, Touch, VesselUse

_WHEN = re.compile(r"at (?P<at>.+)|(?P<left>.+) before (?:the |its )?end", re.IGNORECASE)
_TOUCH_EXAMPLES = '"at 15, 2 min: swap tins" or "5 min before the end, 1 min: probe"'


class TouchText(Entry):
    """A cook's visit to a step that otherwise cooks by itself."""

    short: ClassVar[str] = (
        'when, how long, who, what: "at 15, 2 min: swap tins"; "5 min before the end, 1 min, able: probe"; '
        '"at the end"'
    )

    at: Minutes
    """Minutes from the start, or before the end where from_end is true."""
    minutes: Minutes = 1
    """How long the visit takes."""
    does: str = ""
    """What is done."""
    from_end: bool = False
    """Count from the end of the touch to the end of the step."""
    skill: str = ""
    """Skill asked; left out: anybody."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        first, colon, does = text.partition(":")
        when, *rest = [part.strip() for part in first.split(",")]
        found: Typed = {"does": does.strip()} if colon else {}
        met = _WHEN.fullmatch(when)
        if met is None:
            raise Refusal(f"{quoted(text)} does not begin with its time; write a touch as {_TOUCH_EXAMPLES}.")
        if met["at"] and met["at"].casefold() in ("the end", "end"):
            found |= {"at": 0, "from_end": True}
        elif met["left"]:
            found |= {"at": parse_minutes(met["left"]), "from_end": True}
        else:
            found["at"] = 0 if met["at"].casefold() in ("the start", "start") else parse_minutes(met["at"])
        for part in rest:
            key = "minutes" if part[:1].isdigit() and "minutes" not in found else "skill"
            if key in found:
                raise Refusal(
                    f"{quoted(text)} has too many commas before the colon; write {_TOUCH_EXAMPLES}."
                )
            found[key] = parse_minutes(part) if key == "minutes" else part
        return found

    def touch(self) -> Touch:
        """Return the touch."""
        return Touch(self.at, self.minutes, self.does, self.from_end, self.skill)


def touch_out(touch: Touch) -> Any:
    """Return a touch as typed."""
    when = f"at {show_minutes(touch.at)}"
    if touch.from_end:
        when = f"{show_minutes(touch.at)} before the end" if touch.at else "at the end"
    parts = [when, show_minutes(touch.minutes), *([touch.skill] if touch.skill else [])]
    text = ", ".join(parts) + (f": {touch.does}" if touch.does else "")
    try:
        if TouchText.model_validate(text).touch() == touch:
            return text
    except ValueError:
        pass
    table: Typed = {"at": minutes_out(touch.at), "minutes": minutes_out(touch.minutes), "does": touch.does}
    return table | {"from_end": touch.from_end, "skill": touch.skill}


_PIECES = re.compile(r"(\d+)(?: [a-z][a-z -]*)?")
_PER_LOAD = re.compile(r"(\d+) (?:a|per|to a|to the|each) load|(\d+) at a time")
_BETWEEN = re.compile(r"(.+) (?:between(?: loads)?|change-over)")


class LoadsText(Entry):
    """A step done load by load."""

    short: ClassVar[str] = (
        "pieces for the servings written, pieces to a load, minutes between: "
        '"24 pieces, 8 a load, 2 min between"'
    )

    pieces: int
    """Pieces for the servings that the dish is written for."""
    per_load: int
    """Pieces that a load holds."""
    change_over: Minutes = 0
    """Minutes between two loads."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        found: Typed = {}
        for part in (each.strip().casefold() for each in text.split(",")):
            if met := _PER_LOAD.fullmatch(part):
                found["per_load"] = int(met[1] or met[2])
            elif met := _BETWEEN.fullmatch(part):
                found["change_over"] = parse_minutes(met[1])
            elif met := _PIECES.fullmatch(part):
                found["pieces"] = int(met[1])
            else:
                raise Refusal(f'{quoted(text)}: write loads as "24 pieces, 8 a load, 2 min between".')
        return found

    def loads(self) -> Loads:
        """Return the loads."""
        return Loads(self.pieces, self.per_load, self.change_over)


def loads_out(loads: Loads) -> Any:
    """Return loads as typed."""
    text = f"{loads.pieces} pieces, {loads.per_load} a load"
    if loads.change_over:
        text += f", {show_minutes(loads.change_over)} between"
    try:
        if LoadsText.model_validate(text).loads() == loads:
            return text
    except ValueError:
        pass
    return {
        "pieces": loads.pieces,
        "per_load": loads.per_load,
        "change_over": minutes_out(loads.change_over),
    }


_COUNTED = re.compile(r"(\d+) ?(?:x|×)? ?([a-z0-9][a-z0-9_-]*)", re.IGNORECASE)


class VesselUseText(Entry):
    """So many vessels of a kind."""

    short: ClassVar[str] = 'the id of a vessel, with a number where there are several: "iron-pot", "2 x tin"'

    vessel: str
    """Id of the vessel."""
    count: int = 1
    """How many."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        plain = text.strip()
        met = _COUNTED.fullmatch(plain) if " " in plain else None
        return {"vessel": met[2], "count": int(met[1])} if met else {"vessel": plain}

    def use(self) -> VesselUse:
        """Return the use."""
        return VesselUse(VesselId(self.vessel), self.count)


def vessel_use_out(use: VesselUse) -> Any:
    """Return a vessel use as typed."""
    return use.vessel if use.count == 1 else f"{use.count} x {use.vessel}"
