"""A step written as a line that reads back as the same step, and what of a step no line can say."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from core.measures.heat import parse_heat_range, show_heat_range
from core.measures.minutes import parse_span, show_minutes
from core.measures.refusal import Refusal
from core.plan.menu import Link, LinkKind
from core.plan.step import (
    Attention,
    ClockTime,
    Doneness,
    Heat,
    Holding,
    Keep,
    Loads,
    Span,
    Step,
    Touch,
    Use,
    VesselUse,
    Wait,
)
from core.reading.line import read_line
from core.reading.line_names import Names
from core.reading.line_patterns import in_quotes
from core.reading.line_rules_time import day_words
from core.reading.line_value import Line, LineWait
from core.reading.line_verbs import attention_with_touches

_FIELDS: dict[str, Any] = {
    "does": "",
    "length": None,
    "uses": (),
    "vessels": (),
    "hands": 1,
    "skill": "",
    "attention": Attention.HANDS_ON,
    "loads": None,
    "touches": (),
    "put_in": None,
    "take_out": None,
    "least_piece": None,
    "earliest": None,
    "latest": None,
    "clock": None,
    "doneness": None,
    "keeps": None,
}
"""Fields of a step that a line may say, with what they are where it does not."""

_SPOKEN = {
    "does": "what is done",
    "length": "the length",
    "uses": "the places",
    "vessels": "the vessels",
    "hands": "the number of cooks",
    "skill": "the skill",
    "attention": "the attention",
    "loads": "the loads",
    "touches": "the touches",
    "put_in": "putting in",
    "take_out": "taking out",
    "least_piece": "the pieces",
    "earliest": "not before",
    "latest": "done by",
    "clock": "the clock",
    "doneness": "when it is done",
    "keeps": "how long it keeps",
    "wait": "the wait after it",
}

_X = in_quotes("x")  # words of a step that say nothing by themselves

Piece = tuple[str, str]


def write_line(step: Step, link: Link | None = None, names: Names = Names()) -> str:  # noqa: B008  a frozen value
    """Return the line of a step; `link` leads to the step below.

    The line reads back as the step, but for what `beyond_line` tells.
    """
    return _written(step, link, names)[0]


def beyond_line(step: Step, link: Link | None = None, names: Names = Names()) -> tuple[str, ...]:  # noqa: B008
    """Return, in plain words, what of a step and the link to the next one its line does not say."""
    found = [_SPOKEN[name] for name in _written(step, link, names)[1]]
    if step.alternatives:
        found.append("other ways to do it")
    if step.yields is not None:
        found.append("what it yields for other dishes")
    if step.food is not None:
        found.append("what it does to the food")
    if step.note:
        found.append("the note")
    if link is not None and link.brings is not None:
        found.append("what the link brings")
    if link is not None and link.kind is not LinkKind.END_TO_START:
        found.append("the kind of the link")
    return tuple(found)


def _written(step: Step, link: Link | None, names: Names) -> tuple[str, tuple[str, ...]]:
    """Return the line and the fields that it does not say: in plain words, else in quotes where it must be."""
    best = _tried(step, link, names, step.does)
    for strict in (False, True):
        if not best[1]:
            break
        other = _tried(step, link, names, in_quotes(step.does), strict=strict)
        best = other if len(other[1]) < len(best[1]) else best
    return best


def _tried(
    step: Step, link: Link | None, names: Names, does: str, *, strict: bool = False
) -> tuple[str, tuple[str, ...]]:
    pieces: list[Piece] = [("does", f"{does} {_span(step.length)}"), *_pieces(step, link, names, strict)]
    left: list[str] = []
    while True:
        text = ", ".join(piece for _name, piece in pieces)
        line = read_line(text, names)
        wrong = _differing(step, link, line)
        fresh = [name for name in wrong if name not in left]
        left += fresh
        kept = [piece for piece in pieces if piece[0] not in left or piece[0] == "does"]
        if not fresh or len(kept) == len(pieces):
            return text, tuple(name for name in (*_FIELDS, "wait") if name in wrong or _faulty(line, name))
        pieces = kept


def _faulty(line: Line, name: str) -> bool:
    """Count a line with a fault as one that does not say its words."""
    return name == "does" and bool(line.faults)


def _differing(step: Step, link: Link | None, line: Line) -> list[str]:
    found = [
        name for name, plain in _FIELDS.items() if line.step_values.get(name, plain) != getattr(step, name)
    ]
    wait = LineWait() if link is None else LineWait(link.least, link.most, link.wait)
    return found + (["wait"] if (line.wait or LineWait()) != wait else [])


def _pieces(step: Step, link: Link | None, names: Names, strict: bool) -> Iterator[Piece]:
    """Give the phrases of a step, each with its field, waits last; `strict`: all free words in quotes."""
    if bare := read_line(f"{in_quotes(step.does)} 1 min", names).step_values:
        yield from _places(step, bare.get("uses", ()), names)
        usual = attention_with_touches(step.does, step.length) if step.touches else bare["attention"]
        yield from (("vessels", _vessel(each, names)) for each in step.vessels)
        if step.hands != 1:
            yield "hands", f"{step.hands} cooks"
        if step.skill:
            yield "skill", _skill(step.skill, names)
        if step.attention is not usual:
            yield "attention", step.attention.value
    if step.loads is not None:
        yield "loads", _loads(step.loads)
    yield from (("touches", _touch(each, names, strict)) for each in step.touches)
    for name, show in _OPTIONAL:
        value = getattr(step, name)
        if value is not None:
            yield name, show(value)
    if step.doneness is not None:
        yield from _doneness(step.doneness, names, strict)
    if step.keeps is not None:
        yield "keeps", _keep(step.keeps, names)
    if link is not None and LineWait(link.least, link.most, link.wait) != LineWait():
        words = " ".join(part for part in (_bounds(link.least, link.most), _how(link.wait.how)) if part)
        yield "wait", _with_place(f"then {words or 'any time'}", link.wait, names)


def _places(step: Step, from_verb: tuple[Use, ...], names: Names) -> Iterator[Piece]:
    if step.uses == from_verb:
        return
    if not step.uses:
        yield "uses", "no place"
        return
    for use in step.uses:
        yield "uses", _use(use, names)


# ---------------------------------------------------------------- single values


def _span(span: Span) -> str:
    if span.low == span.high:
        return show_minutes(span.likely)
    if span.high < 100 and span.likely == (span.low + span.high + 1) // 2:
        return f"{span.low}-{span.high} min"
    if span.high < 100:
        return f"{span.low}/{span.likely}/{span.high}"
    text = "/".join(show_minutes(each) for each in (span.low, span.likely, span.high))
    try:
        return text if Span(*parse_span(text)) == span else f"{span.low}/{span.likely}/{span.high} min"
    except Refusal:
        return f"{span.low}/{span.likely}/{span.high} min"


def _use(use: Use, names: Names) -> str:
    """Return a place: its kind or its station, then what is wanted of it."""
    kind = names.station_kind.get(use.station) if use.station is not None else None
    words = [f"at {use.station}" if kind is use.kind else use.kind.value]
    if use.units != 1:
        words.append(f"{use.units} {_UNIT_WORD.get(use.kind.value, 'places')}")
    if use.heat is not None:
        words.append(_heat(use.heat))
        words += [] if use.heat.steady else ["not steady"]
    words += [f"{use.area} cm2"] if use.area else []
    words += [f"{use.height} cm high"] if use.height else []
    words += ["raw"] if use.raw else []
    return " ".join(words)


_UNIT_WORD = {"oven": "racks", "burner": "rings"}


def _heat(heat: Heat) -> str:
    wanted = (heat.low, heat.setting, heat.high)
    for text in (f"{heat.setting}C", f"{heat.low}-{heat.high}C"):
        try:
            if parse_heat_range(text) == wanted:
                return text
        except Refusal:
            continue
    return show_heat_range(*wanted).replace(" °C", "C").replace("−", "-").replace(" / ", "/")


def _vessel(use: VesselUse, names: Names) -> str:
    shown = next((each.name.casefold() for each in names.vessels if each.id == use.vessel), "")
    simple = shown.replace(" ", "").isalpha() and names.vessel_of.get(shown) == use.vessel
    name = shown if simple else use.vessel.replace("-", " ")
    if names.vessel_of.get(name) != use.vessel:
        name = use.vessel
    return f"in the {name}" if use.count == 1 else f"in {use.count} x {name}"


def _skill(skill: str, names: Names) -> str:
    known = names.skill_of.get(skill.casefold()) == skill
    return skill if known else f"skill {in_quotes(skill)}"


def _loads(loads: Loads) -> str:
    text = f"{loads.pieces} pieces {loads.per_load} at a time"
    return text + (f", {show_minutes(loads.change_over)} between loads" if loads.change_over else "")


def _touch(touch: Touch, names: Names, strict: bool) -> str:
    if touch.from_end:
        when = f"{show_minutes(touch.at)} before the end" if touch.at else "at the end"
    else:
        when = f"at {show_minutes(touch.at)}" if touch.at else "at the start"
    does = in_quotes(touch.does) if touch.does else "touch"
    if touch.does and not strict:
        read = read_line(f"{_X} 1 min, {touch.does} {when}", names).step_values.get("touches", ())
        does = touch.does if [each.does for each in read] == [touch.does] else does
    text = f"{does} {when}" + (f" for {show_minutes(touch.minutes)}" if touch.minutes != 1 else "")
    return text + (
        f" by {touch.skill if touch.skill.isalpha() else in_quotes(touch.skill)}" if touch.skill else ""
    )


def _short(minutes: int) -> str:
    return show_minutes(minutes) if minutes else "0"


def _offset(offset: int) -> str:
    if not offset:
        return "plating"
    return f"{show_minutes(abs(offset))} {'before' if offset < 0 else 'after'}"


def _clock(at: ClockTime) -> str:
    return f"at {at.minute // 60:02}:{at.minute % 60:02} {day_words(at.days_before)}"


_OPTIONAL: tuple[tuple[str, Callable[[Any], str]], ...] = (
    ("put_in", lambda minutes: f"put in {_short(minutes)}"),
    ("take_out", lambda minutes: f"take out {_short(minutes)}"),
    ("least_piece", lambda minutes: f"in pieces of {show_minutes(minutes)}"),
    ("earliest", lambda offset: f"not before {_offset(offset)}"),
    ("latest", lambda offset: f"done by {_offset(offset)}"),
    ("clock", _clock),
)


def _doneness(doneness: Doneness, names: Names, strict: bool) -> Iterator[Piece]:
    if doneness.core is not None:
        yield "doneness", f"core {doneness.core}C"
    if doneness.rest is not None:
        yield "doneness", f"rested {show_minutes(doneness.rest)}"
    if doneness.cue or (doneness.core is None and doneness.rest is None):
        cue = in_quotes(doneness.cue)
        if doneness.cue and not strict:
            read = read_line(f"{_X} 1 min, until {doneness.cue}", names)
            cue = doneness.cue if read.doneness == {"cue": doneness.cue} and not read.faults else cue
        yield "doneness", f"until {cue}"


def _bounds(least: int, most: int | None) -> str:
    if most is None:
        return f"at least {show_minutes(least)}" if least else ""
    if least == most:
        return f"exactly {show_minutes(least)}" if least else "at once"
    return (
        f"at least {show_minutes(least)} up to {show_minutes(most)}"
        if least
        else f"up to {show_minutes(most)}"
    )


def _how(how: Holding) -> str:
    return "" if how is Holding.COUNTER else how.value


def _with_place(text: str, wait: Wait, names: Names) -> str:
    if wait.use is None:
        return text
    place = _use(wait.use, names)
    cold = {Holding.FRIDGE: "fridge ", Holding.FREEZER: "freezer "}.get(wait.how, "")
    named = cold and wait.use.area and wait.use.units == 1 and wait.use.heat is None
    return f"{text} {place.removeprefix(cold) if named else place}"


def _keep(keep: Keep, names: Names) -> str:
    bounds = "any time" if keep.most is None else _bounds(0, keep.most)
    words = " ".join(part for part in ("keeps", bounds, _how(keep.wait.how)) if part)
    return _with_place(words, keep.wait, names)
