"""A whole dish typed as a block: its name in the first line, then a line for each step."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass, replace

from core.measures.minutes import parse_minutes
from core.measures.refusal import Refusal, quoted
from core.plan.ids import DishId, StepId, fresh, step_id
from core.plan.menu import Dish, Link, LinkKind
from core.reading.line import read_line
from core.reading.line_names import Names
from core.reading.line_patterns import QUOTED, TIME, pattern, unquoted
from core.reading.line_value import Fault, Follow, Line, LineWait

_BULLET = re.compile(r"[ \t]*(?:[-*•]|\d{1,2}[.)])[ \t]+")
_SERVES = pattern(r"(?:serves|for) (?P<n>\d{1,4})(?: people| guests)?")
_WANTED = pattern(r"(?P<n>\d{1,4}) wanted")
_COURSE = pattern(rf"(?:course |serve |served )?(?P<time>{TIME}) (?P<side>before|after)(?: plating)?")
_COMPONENT = pattern(r"not served|for other dishes")
_LABEL = re.compile(r" *(?P<label>[a-z0-9][a-z0-9_-]{0,63}):(?= +\S)")
_LIKE_VALUE = pattern(r"(?:serves|keeps)\b")
_PART = re.compile(rf"(?:{QUOTED}|[^,])+")


@dataclass(frozen=True)
class Typed:
    """One line of a block: its number from 0, where its text begins in it, its step's id, what it says."""

    number: int
    start: int
    step: StepId
    line: Line


@dataclass(frozen=True)
class DishRead:
    """A block as it was read. `dish` is None as long as a line does not say what is done, or how long.

    `faults` have the number of their line from 0; their places count from the beginning of that line.
    """

    text: str
    dish: Dish | None
    links: tuple[Link, ...]
    lines: tuple[Typed, ...]
    faults: tuple[tuple[int, Fault], ...]


def read_dish(text: str, names: Names = Names(), taken: Collection[str] = ()) -> DishRead:  # noqa: B008
    """Read a dish: "Gratin, serves 12, 3 min before, keeps up to 60 min", then its steps, one a line.

    A step follows the line above it, with that line's wait, unless it says what it follows. `taken` are ids of
    dishes that there are already. Never raises, and the text is kept.
    """
    rows = text.split("\n")
    first = next((number for number, row in enumerate(rows) if row.strip()), None)
    if first is None:
        fault = Fault(0, 0, "Write the dish's name in the first line and a line for each step below it.")
        return DishRead(text, None, (), (), ((0, fault),))
    dish, wrong = _head(rows[first], names, taken)
    faults = [(first, fault) for fault in wrong]
    lines = _lines(rows, first + 1, replace(names, dish=dish.id))
    for each in lines:
        faults += [
            (each.number, _moved(fault, each.start)) for fault in (*each.line.faults, *_missing(each.line))
        ]
    whole = all("does" in each.line.step_values and "length" in each.line.step_values for each in lines)
    steps = tuple(each.line.step(each.step) for each in lines) if whole else ()
    links = _links(lines)
    return DishRead(text, replace(dish, steps=steps) if whole else None, links, lines, tuple(faults))


def _moved(fault: Fault, by: int) -> Fault:
    return replace(fault, start=fault.start + by, end=fault.end + by)


def _missing(line: Line) -> list[Fault]:
    """Say that a step has no length yet: nothing is invented."""
    does, end = line.step_values.get("does", ""), len(line.text)
    if "length" in line.step_values or not does:
        return []
    return [
        Fault(end, end, f"How long does {quoted(does)} take? Add the length, such as 20 min or 20-30 min.")
    ]


# ---------------------------------------------------------------- the first line


def _head(row: str, names: Names, taken: Collection[str]) -> tuple[Dish, list[Fault]]:
    """Return a dish without steps from its first line; what is no value there belongs to the name."""
    called: list[str] = []
    dish, wanted, faults = Dish(DishId(""), ""), None, []
    label = _LABEL.match(row)
    for met in _PART.finditer(row, label.end() if label else 0):
        part = met[0].strip()
        if asked := _WANTED.fullmatch(part):
            wanted = int(asked["n"])
        elif (found := _head_part(dish, part, names) if called else None) is not None:
            dish = found
        elif called and _LIKE_VALUE.match(part):
            sentence = f"{quoted(part)}: write serves 12, 3 min before, or keeps up to 60 min."
            faults.append(Fault(met.start(), met.end(), sentence))
        else:
            called.append(part)
    name = ", ".join(unquoted(each) for each in called)
    id_ = DishId(fresh(label["label"] if label else name, taken))
    return replace(dish, id=id_, name=name, wanted=dish.written_for if wanted is None else wanted), faults


def _head_part(dish: Dish, part: str, names: Names) -> Dish | None:
    """Return the dish with what a part of its first line says; None where that is nothing."""
    if (met := _SERVES.fullmatch(part)) and int(met["n"]):
        return replace(dish, written_for=int(met["n"]))
    if _COMPONENT.fullmatch(part):
        return replace(dish, served=False)
    if met := _COURSE.fullmatch(part):
        try:
            minutes = parse_minutes(met["time"])
        except Refusal:
            return None
        return replace(dish, course=-minutes if met["side"].casefold() == "before" else minutes)
    if part.casefold().startswith("keeps "):
        line = read_line(f"x, {part}", names)
        keeps = line.step_values.get("keeps")
        return replace(dish, keep=keeps) if keeps is not None and not line.faults else None
    return None


# ---------------------------------------------------------------- the steps


def _lines(rows: list[str], first: int, names: Names) -> tuple[Typed, ...]:
    """Read the lines of the steps; each may name those above it."""
    found: list[Typed] = []
    ids: set[str] = set()
    assert names.dish is not None
    for number, row in enumerate(rows[first:], first):
        if not row.strip():
            continue
        bullet = _BULLET.match(row)
        start = bullet.end() if bullet else 0
        line = read_line(row[start:].rstrip(), names)
        does = str(line.step_values.get("does", ""))
        local = fresh(line.label or does, ids)
        ids.add(local)
        at = step_id(names.dish, local)
        found.append(Typed(number, start, at, line))
        names = replace(names, steps=(*names.steps, (at, does)))
    return tuple(found)


def _links(lines: tuple[Typed, ...]) -> tuple[Link, ...]:
    """Return the links: from the line above, or from what a line says it follows."""
    waits = {each.step: each.line.wait or LineWait() for each in lines}
    found: dict[tuple[StepId, StepId, LinkKind], Link] = {}
    for above, each in zip((None, *lines), lines, strict=False):
        follows = list(each.line.follows)
        if above is not None and all(follow.also for follow in follows):
            follows.insert(0, Follow(above.step))
        for follow in follows:
            if follow.step is None:
                continue
            wait = follow.wait or (waits.get(follow.step) if follow.kind is LinkKind.END_TO_START else None)
            link = (wait or LineWait()).link(follow.step, each.step, follow.kind)
            found.setdefault(link.key, link)
    return tuple(found.values())
