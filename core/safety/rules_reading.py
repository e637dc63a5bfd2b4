"""Reading a set of food rules from TOML. A refusal names the file, the row and the mend."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any, NoReturn, TypeVar

from core.measures.refusal import Refusal, quoted
from core.measures.words import join_words
from core.plan.food import FoodKind
from core.safety.rules import (
    GROUPS,
    Degrees,
    Family,
    Hold,
    Measure,
    Rule,
    RuleSet,
    Source,
    Stage,
    Tag,
    Values,
)

_FAMILIES: dict[Family, tuple[Measure, ...]] = {
    Family.BETWEEN: (Measure.OUT, Measure.OUT_HOT, Measure.TIME_CONTROL),
    Family.MARINATING: (Measure.MARINATE_COLD, Measure.MARINATE),
    Family.THAWING: (Measure.THAW_COLD, Measure.THAW_FRIDGE, Measure.THAW_WATER),
    Family.COOLING: (Measure.COOL,),
    Family.REHEATING: (Measure.REHEAT,),
    Family.HOLDING: (Measure.HOT_HOLD, Measure.COLD_HOLD),
    Family.STORAGE: (Measure.KEEP_RAW, Measure.KEEP_COOKED, Measure.DATE_MARK),
    Family.RAW_FIRST: (Measure.RAW_BELOW, Measure.RAW_WASH),
    Family.DONENESS: (Measure.CORE,),
    Family.FRIDGE: (Measure.FRIDGE_LOAD,),
    Family.GUESTS: (Measure.AT_RISK,),
}
_NEEDS: dict[Measure, tuple[str, ...]] = {
    Measure.OUT: ("minutes",),
    Measure.OUT_HOT: ("minutes",),
    Measure.TIME_CONTROL: ("minutes", "peak"),
    Measure.MARINATE_COLD: ("minutes",),
    Measure.MARINATE: ("minutes",),
    Measure.THAW_COLD: ("minutes",),
    Measure.THAW_FRIDGE: (),
    Measure.THAW_WATER: ("minutes",),
    Measure.COOL: ("from", "stages"),
    Measure.HOT_HOLD: ("least",),
    Measure.COLD_HOLD: ("most",),
    Measure.REHEAT: ("least",),
    Measure.KEEP_RAW: ("days",),
    Measure.KEEP_COOKED: ("days",),
    Measure.DATE_MARK: ("days",),
    Measure.RAW_BELOW: (),
    Measure.RAW_WASH: (),
    Measure.CORE: ("least",),
    Measure.FRIDGE_LOAD: ("watts", "minutes"),
    Measure.AT_RISK: (),
}
_NUMBERS = {"minutes": 366 * 24 * 60, "days": 366, "rest": 24 * 60, "watts": 100_000}
_DEGREES = ("least", "most", "peak", "room_above", "from", "rest_below")
_TEXTS = ("publisher", "document", "section")
_KNOWN = frozenset(
    {"id", "family", "measure", "foods", "read", "tag", "advice", "own_target", "stages", "holds"}
    | set(_NUMBERS)
    | set(_DEGREES)
    | set(_TEXTS)
)
_LARGEST = 200_000
"""Bytes of a file of rules."""
Word = TypeVar("Word", Family, Measure, Tag)


def read_rules(path: Path) -> RuleSet:
    """Return the set in a file; refuse what is none, naming file, row and mend."""
    name = path.name
    try:
        if path.stat().st_size > _LARGEST:
            raise Refusal(f"“{name}” is too large for a set of food rules; choose another file.")
        text = path.read_text(encoding="utf-8")
    except OSError as wrong:
        raise Refusal(f"“{name}” cannot be read ({wrong.strerror or wrong}); choose another file.") from None
    except UnicodeDecodeError:
        raise Refusal(f"“{name}” is no text in UTF-8; save it as such.") from None
    return rules_in(text, name)


def rules_in(text: str, file: str) -> RuleSet:
    """Return the set in a text; `file` names it in refusals."""
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        raise Refusal(f"“{file}”: {wrong}; mend that line.") from None
    said = _Row(file, "the head", table)
    strange = sorted(set(table) - {"id", "name", "note", "rule"})
    if strange:
        said.refuse(f"the key {strange[0]} is not known; take it out")
    rows = table.get("rule")
    if not isinstance(rows, list) or not rows or not all(isinstance(each, dict) for each in rows):
        said.refuse("it has no rows; write at least one [[rule]]")
    rules: list[Rule] = []
    for number, row in enumerate(rows, start=1):
        rule = _rule(_Row(file, f"row {number}", row))
        if any(each.id == rule.id for each in rules):
            _Row(file, f"row {number}", row).refuse("an earlier row bears the same id; give it another")
        rules.append(rule)
    return RuleSet(said.text("id"), said.text("name"), said.text("note", ""), tuple(rules))


class _Row:
    """One row as typed, with its name for refusals."""

    def __init__(self, file: str, name: str, table: Mapping[str, Any]) -> None:
        own = table.get("id")
        self._name = f"{name} ({own})" if isinstance(own, str) and own and name != "the head" else name
        self._file = file
        self.table = table

    def refuse(self, why: str) -> NoReturn:
        raise Refusal(f"“{self._file}”, {self._name}: {why}.")

    def text(self, key: str, usual: str | None = None) -> str:
        found = self.table.get(key, usual)
        if not isinstance(found, str) or (usual is None and not found.strip()):
            self.refuse(f"{key} is missing or no text; write one in quotes")
        return found.strip()

    def word(self, key: str, words: type[Word]) -> Word:
        found = self.text(key)
        known = {each.value: each for each in words}
        if found not in known:
            self.refuse(f"{key} {quoted(found)} is not known; write {_either(tuple(known))}")
        return known[found]

    def number(self, key: str, most: int, least: int = 0, table: Mapping[str, Any] | None = None) -> int:
        found = (self.table if table is None else table).get(key)
        if not isinstance(found, int) or isinstance(found, bool) or not least <= found <= most:
            self.refuse(f"{key} must be a whole number from {least} to {most}; correct it")
        return found

    def flag(self, key: str) -> bool:
        found = self.table.get(key, False)
        if not isinstance(found, bool):
            self.refuse(f"{key} must be true or false; correct it")
        return found

    def degrees(self, key: str, found: object) -> Degrees:
        if not isinstance(found, dict):
            self.refuse(
                f"{key} must be a temperature in both scales; write {{ celsius = 5, fahrenheit = 41 }}"
            )
        values = []
        for scale in ("celsius", "fahrenheit"):
            each = found.get(scale)
            if not isinstance(each, (int, float)) or isinstance(each, bool) or not -100 <= each <= 1000:
                self.refuse(
                    f"{key} needs {scale} as a number of degrees; write {{ celsius = 5, fahrenheit = 41 }}"
                )
            values.append(Fraction(str(each)))
        celsius, fahrenheit = values
        if abs(fahrenheit - (celsius * 9 / 5 + 32)) > 2:
            self.refuse(f"{key}: {float(celsius):g} °C is not {float(fahrenheit):g} °F; correct one of them")
        return Degrees(celsius, fahrenheit)

    def tables(self, key: str) -> Sequence[Mapping[str, Any]]:
        found = self.table.get(key, [])
        if not isinstance(found, list) or not all(isinstance(each, dict) for each in found):
            self.refuse(f"{key} must be a list of tables; write it in square brackets")
        return found


def _rule(row: _Row) -> Rule:
    own = row.text("id")
    strange = sorted(set(row.table) - _KNOWN)
    if strange:
        row.refuse(f"the key {strange[0]} is not known; take it out")
    family, measure = row.word("family", Family), row.word("measure", Measure)
    if measure not in _FAMILIES[family]:
        row.refuse(f"{measure} is no measure of the family {family}; write {_either(_FAMILIES[family])}")
    missing = [key for key in _NEEDS[measure] if key not in row.table]
    if missing:
        row.refuse(f"the measure {measure} needs {join_words(missing)}; write it")
    advice, target = row.flag("advice"), row.flag("own_target")
    return Rule(own, family, measure, _foods(row), _values(row), _source(row), advice, target)


def _foods(row: _Row) -> tuple[str, ...]:
    found = row.table.get("foods")
    known = (*GROUPS, *(each.value for each in FoodKind))
    if not isinstance(found, list) or not found:
        row.refuse('foods is missing; write a list such as ["poultry"] or ["perishable"]')
    for each in found:
        if each not in known:
            row.refuse(f"the food {quoted(str(each))} is not known; write {_either(known)}")
    return tuple(found)


def _values(row: _Row) -> Values:
    numbers = {key: row.number(key, most) for key, most in _NUMBERS.items() if key in row.table}
    warm = {key: row.degrees(key, row.table[key]) for key in _DEGREES if key in row.table}
    begins = warm.pop("from", None)
    stages = tuple(
        Stage(row.number("minutes", 7 * 24 * 60, 1, each), row.degrees("stages", each))
        for each in row.tables("stages")
    )
    if any(b.minutes <= a.minutes or b.limit.celsius >= a.limit.celsius for a, b in pairwise(stages)):
        row.refuse("stages must come later and colder one after another; put them in order")
    holds = tuple(
        Hold(row.degrees("holds", each), row.number("seconds", 24 * 3600, 0, each))
        for each in row.tables("holds")
    )
    if any(b.at.celsius <= a.at.celsius or b.seconds > a.seconds for a, b in pairwise(holds)):
        row.refuse("holds must become hotter and shorter one after another; put them in order")
    return Values(
        numbers.get("minutes"),
        numbers.get("days"),
        warm.get("least"),
        warm.get("most"),
        warm.get("peak"),
        warm.get("room_above"),
        numbers.get("rest"),
        warm.get("rest_below"),
        numbers.get("watts"),
        begins,
        stages,
        holds,
    )


def _source(row: _Row) -> Source:
    tag = row.word("tag", Tag)
    read = row.table.get("read")
    if tag in (Tag.READ, Tag.SECOND_HAND) and (not isinstance(read, date) or isinstance(read, datetime)):
        row.refuse("read is missing or no date; write the day on which it was read, such as 2026-11-30")
    if read is not None and not isinstance(read, date):
        row.refuse("read is no date; write a day such as 2026-11-30")
    return Source(row.text("publisher"), row.text("document"), row.text("section", ""), read, tag)


def _either(words: Sequence[str]) -> str:
    return join_words([str(each) for each in words]).replace(" and ", " or ")
