"""The cook's line: a step of a dish in one line, as cooks say it ("bake 45-50 min 190C, turn at 25").

What is understood becomes chips and values, what is not stays in the words of the step, and a word that looks like
a value but is none is a fault at that word. The help page is `core.reading.line_grammar`.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from core.measures.number import LONGEST
from core.measures.refusal import Refusal, quoted
from core.plan.step import Doneness, Step
from core.reading import line_rules_place as places
from core.reading import line_rules_time as times
from core.reading import line_rules_wait as waits
from core.reading import line_rules_work as work
from core.reading.line_compose import composed
from core.reading.line_look_alike import look_alike
from core.reading.line_names import Names
from core.reading.line_scan import Rule, scan, words_of
from core.reading.line_value import Chip, Fault, Line, Says

_VALUES: tuple[Rule, ...] = (
    places.core,
    places.heat,
    times.rested,
    times.limits,
    times.clock,
    times.piece,
    work.loads,
    times.length,
    places.size,
    places.vessel,
    places.place,
    work.attention,
    work.people,
)
_RULES: tuple[Rule, ...] = (
    times.label,
    waits.follows,
    waits.keep,
    waits.wait,
    work.transfer,
    *_VALUES,
    work.cue(_VALUES),
    work.touch,
)
_SPACES = re.compile(r"[ \t]{2,}")


def read_line(text: str, names: Names = Names()) -> Line:  # noqa: B008  a frozen value
    """Read one line. Never raises: what is wrong is a fault of the line, and its text is kept as it was typed."""
    if len(text) > LONGEST:
        sentence = f"{quoted(text)} is longer than {LONGEST} characters; write a shorter line and a note."
        return Line(text, faults=(Fault(LONGEST, len(text), sentence),))
    here = scan(text, names, _RULES, look_alike)
    does = words_of(here)
    verb_at = here.said[0] if here.said else (0, 0)
    found = composed(here.text, here.chips, does, verb_at)
    label = next((chip.value for chip in here.chips if chip.kind is Says.LABEL), "")
    faults = [*here.faults, *found.faults]
    if not does.strip() and text.strip():
        faults.append(Fault(0, len(text), "Say what is done; begin with a verb, such as bake or slice."))
    return Line(
        text=text,
        chips=(*here.chips, *found.implied),
        faults=tuple(sorted(faults, key=lambda fault: fault.start)),
        step_values=found.values,
        implied=found.unsaid,
        doneness=found.doneness,
        wait=found.wait,
        follows=found.follows,
        label=label,
    )


_PLAIN: dict[str, Any] = {
    "hands": 1,
    "skill": "",
    "touches": (),
    "put_in": None,
    "take_out": None,
    "uses": (),
    "vessels": (),
    "loads": None,
    "least_piece": None,
    "earliest": None,
    "latest": None,
    "clock": None,
    "keeps": None,
}
"""What a field is when a line that spoke of it no longer does."""


def with_line(step: Step, line: Line, was: Line | None = None) -> Step:
    """Return a step as a line changes it: only what the line speaks of, all else stays.

    With `was`, the line that the cook began to change, what that one spoke of and this one no longer does is
    taken away again, and what follows from the verb is taken from the new words.
    """
    values = {name: line.step_values[name] for name in line.spoken if name != "doneness"}
    if was is not None:
        gone = (was.spoken - line.spoken) & frozenset(_PLAIN)
        values |= {name: _PLAIN[name] for name in gone}
        for name in line.implied:
            if name in was.spoken or getattr(step, name) == was.step_values.get(name):
                values[name] = line.step_values[name]
        for name in was.implied - frozenset(line.step_values):
            if name in _PLAIN and getattr(step, name) == was.step_values[name]:
                values[name] = _PLAIN[name]
    return replace(step, **values, doneness=_doneness(step.doneness, line, was))


def _doneness(old: Doneness | None, line: Line, was: Line | None) -> Doneness | None:
    parts = dict(line.doneness)
    gone = {name for name in was.doneness if name not in parts} if was is not None else set()
    if not parts and not gone:
        return old
    base = old or Doneness()
    merged = Doneness(
        parts.get("cue", "" if "cue" in gone else base.cue),
        parts.get("core", None if "core" in gone else base.core),
        parts.get("rest", None if "rest" in gone else base.rest),
    )
    return None if merged == Doneness() and not parts else merged


def with_chip(text: str, chip: Chip, new_words: str) -> str:
    """Return the line with a chip's phrase written anew; "" takes it out. A chip that is implied is added.

    Raise Refusal where the chip does not stand in the line.
    """
    if not 0 <= chip.start <= chip.end <= len(text):
        raise Refusal("The line has changed since; choose the phrase again.")
    words = " ".join(new_words.split())
    if chip.implied:
        return f"{text.rstrip().rstrip(',')}, {words}" if words else text
    before, after = text[: chip.start], text[chip.end :]
    if words:
        left = " " if before and not before[-1].isspace() else ""
        right = " " if after and not after[0].isspace() and after[0] != "," else ""
        return f"{before}{left}{words}{right}{after}"
    before, after = before.rstrip(), after.lstrip()
    if after.startswith(",") and (not before or before.endswith(",")):
        after = after[1:].lstrip()
    if not after:
        return before.rstrip(", ")
    return f"{before}{'' if after.startswith(',') or not before else ' '}{after}"
