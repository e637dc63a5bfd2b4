"""Where a step happens and where food waits, as typed: "160 C +-15, 2 racks", "1200 cm2, 18 cm, raw"."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, PlainValidator, WithJsonSchema

from core.intake.text.entry import Entry
from core.intake.text.nearest import one_of
from core.intake.text.scalars import is_whole, wrong
from core.measures.heat import parse_heat, parse_heat_range, show_heat_range
from core.measures.refusal import Refusal, quoted
from core.measures.words import plural_of
from core.plan.ids import StationId
from core.plan.kitchen import StationKind
from core.plan.step import Heat, Use

Typed = dict[str, Any]

KEY_OF = {kind: kind.value.replace(" ", "_") for kind in StationKind}
"""The key under which a step names each kind of place."""
KIND_OF = {key: kind for kind, key in KEY_OF.items()}

_SPLIT = re.compile(r",\s+|,(?=[^\d\s])")
_KINDS = "|".join(kind.value for kind in StationKind)
_KIND = re.compile(rf"(?:(\d+) )?({_KINDS})(?:e?s)?")
_UNITS = re.compile(r"(\d+)(?: (?:rack|ring|place|slot|zone|unit|burner|machine)s?)?")
_AREA = re.compile(r"([\d,]+) ?(?:cm2|cm²)")
_SIDES = re.compile(r"(\d+) ?x ?(\d+) ?cm")
_HEIGHT = re.compile(r"(\d+) ?cm(?: high)?")
_AT = re.compile(r"(?:at|in|on) (?:the )?([a-z0-9][a-z0-9_-]*)")
_UNSTEADY = ("need not be steady", "not steady")


def celsius_in(value: object) -> int:
    """Return whole degrees C from a number of degrees or a text such as "160 C" or "375F"."""
    if is_whole(value):
        return int(str(value))
    if not isinstance(value, str):
        raise wrong(value, 'a temperature; write "160 C" or "325F"')
    return parse_heat(value)


def celsius_out(celsius: int) -> str | int:
    """Return degrees C as people write them."""
    text = f"{celsius} C"
    try:
        return text if parse_heat(text) == celsius else celsius
    except Refusal:
        return celsius


def heat_in(value: object) -> tuple[int, int, int]:
    """Return (low, setting, high) in C from "160 C +-15", "375F" or a table of the three."""
    if is_whole(value):
        value = str(value)
    if isinstance(value, str):
        return parse_heat_range(value)
    if isinstance(value, dict) and set(value) == {"low", "setting", "high"}:
        low, setting, high = (celsius_in(value[key]) for key in ("low", "setting", "high"))
        return low, setting, high
    raise wrong(value, 'a temperature; write "160 C +-15" or "325F"')


def heat_out(low: int, setting: int, high: int) -> Any:
    """Return a range of temperature as people write it."""
    text = show_heat_range(low, setting, high)
    try:
        if heat_in(text) == (low, setting, high):
            return text
    except Refusal:
        pass
    return {"low": low, "setting": setting, "high": high}


def kind_in(value: object) -> StationKind:
    """Return the kind of place from its word."""
    words = {kind.value: kind for kind in StationKind} | KIND_OF
    return words[one_of(value, words, "a kind of place")]


Celsius = Annotated[
    int,
    BeforeValidator(celsius_in),
    WithJsonSchema(
        {"type": ["integer", "string"], "description": 'temperature: "160 C", "325F", or degrees C'}
    ),
]
HeatText = Annotated[
    tuple[int, int, int],
    PlainValidator(heat_in),
    WithJsonSchema(
        {
            "type": ["string", "integer", "object"],
            "description": 'setting and what it bears: "160 C +-15", "375F", "150/160/175 C"; alone it '
            "bears 15 C either side; or a table of low, setting, high",
        }
    ),
]
KindText = Annotated[
    StationKind,
    BeforeValidator(kind_in),
    WithJsonSchema({"enum": [kind.value for kind in StationKind]}),
]


class PlaceText(Entry):
    """A share of a station."""

    short: ClassVar[str] = (
        'parts with commas: "230 C +-10, 2 racks"; "1200 cm2, 18 cm, raw" (or "40x30 cm, 18 cm"); '
        '"at lower-oven"; "need not be steady" where the food may be inside while the heat still changes; '
        "2 alone is two racks, rings or places. In a list called uses, and where food waits, "
        'the kind of place is named too: "hot box", "2 burners"'
    )

    kind: KindText | None = None
    """Kind of place; left out where the key already says it."""
    units: int = 1
    """Racks, rings, grate places or slots."""
    station: str | None = None
    """Id of the one station that will do."""
    area: int = 0
    """Area on one shelf in cm2."""
    height: int = 0
    """Height needed on the shelf in cm."""
    raw: bool = False
    """Raw food that belongs on the lowest shelf."""
    heat: HeatText | None = None
    """Temperature wanted."""
    steady: bool = True
    """False where the food may be inside while the heat still changes."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        return parts_in(text, _SPLIT.split(" ".join(text.split())))

    def use(self, kind: StationKind | None = None) -> Use:
        """Return the use; raise Refusal when no kind is known or two kinds are named."""
        named = self.kind or kind
        if named is None:
            raise Refusal('The kind of place is not named; write it first, such as "burner" or "hot box".')
        if kind is not None and named is not kind:
            raise Refusal(f"This names {named.value} under {kind.value}; write one of them.")
        heat = None
        if self.heat is not None:
            low, setting, high = self.heat
            heat = Heat(setting, low, high, self.steady)
        elif not self.steady:
            raise Refusal(
                "A place without a temperature is always steady; add the temperature or leave that out."
            )
        station = None if self.station is None else StationId(self.station)
        return Use(named, self.units, station, self.area, self.height, self.raw, heat)


def split_parts(text: str) -> list[str]:
    """Return the parts of a short line, at its commas (not those inside 1,200)."""
    return _SPLIT.split(" ".join(text.split()))


def parts_in(text: str, parts: list[str]) -> Typed:
    """Return the table that the parts of a short line stand for; raise Refusal for a part said twice."""
    found: Typed = {}
    for part in parts:
        for key, value in part_in(part).items():
            if found.get(key, value) != value:
                raise Refusal(f"{quoted(text)} says the {_SPOKEN.get(key, key)} twice; write it once.")
            found[key] = value
    return found


_SPOKEN = {"heat": "temperature", "kind": "kind of place", "units": "number"}


def part_in(part: str) -> Typed:
    """Return what one part says, as keys of the table."""
    word = part.casefold().strip()
    if is_place_word(word):
        return _place_words(word)
    return {"heat": part}


def is_place_word(word: str) -> bool:
    """Tell whether a part of a short line speaks of a place (a temperature aside)."""
    patterns = (_KIND, _UNITS, _AREA, _SIDES, _HEIGHT, _AT)
    return word in ("raw", *_UNSTEADY) or any(each.fullmatch(word) for each in patterns)


def _place_words(word: str) -> Typed:
    if word == "raw":
        return {"raw": True}
    if word in _UNSTEADY:
        return {"steady": False}
    if met := _KIND.fullmatch(word):
        count = {"units": int(met[1])} if met[1] else {}
        return {"kind": met[2]} | count
    if met := _AREA.fullmatch(word):
        return {"area": int(met[1].replace(",", ""))}
    if met := _SIDES.fullmatch(word):
        return {"area": int(met[1]) * int(met[2])}
    if met := _HEIGHT.fullmatch(word):
        return {"height": int(met[1])}
    if met := _UNITS.fullmatch(word):
        return {"units": int(met[1])}
    met = _AT.fullmatch(word)
    return {"station": met[1] if met else word}


_UNIT_WORDS = {
    StationKind.OVEN: "rack",
    StationKind.BURNER: "burner",
    StationKind.HOT_BOX: "hot box",
    StationKind.MACHINE: "machine",
}


def words_of(use: Use) -> list[str]:
    """Return the parts of the short line of a use, its kind left out."""
    parts: list[str] = []
    if use.heat is not None:
        shown = heat_out(use.heat.low, use.heat.setting, use.heat.high)
        parts.append(shown if isinstance(shown, str) else "")
    if use.units != 1:
        parts.append(f"{use.units} {plural_of(_UNIT_WORDS.get(use.kind, 'place'))}")
    parts += [f"{use.area} cm2"] if use.area else []
    parts += [f"{use.height} cm"] if use.height else []
    parts += ["raw"] if use.raw else []
    parts += [f"at {use.station}"] if use.station is not None else []
    parts += ["need not be steady"] if use.heat is not None and not use.heat.steady else []
    return parts


def use_out(use: Use, kind: StationKind | None = None) -> Any:
    """Return a use as typed: a number, a short line, or the table where neither can say it.

    `kind` is the kind that the key already says.
    """
    parts = words_of(use)
    if kind is None:
        counted = f"{use.units} {plural_of(use.kind.value)}"
        parts = [each for each in parts if each != counted]
        parts.insert(0, use.kind.value if len(parts) == len(words_of(use)) else counted)
    text: str | int = ", ".join(parts) if parts else use.units
    try:
        if PlaceText.model_validate(text).use(kind) == use:
            return text
    except ValueError:
        pass
    return _table_out(use, kind)


def _table_out(use: Use, kind: StationKind | None) -> Typed:
    table: Typed = {} if kind is not None else {"kind": use.kind.value}
    plain = Use(use.kind)
    table |= {
        key: getattr(use, key)
        for key in ("units", "station", "area", "height", "raw")
        if getattr(use, key) != getattr(plain, key)
    }
    if use.heat is not None:
        table["heat"] = heat_out(use.heat.low, use.heat.setting, use.heat.high)
        if not use.heat.steady:
            table["steady"] = False
    return table


def uses_out(uses: tuple[Use, ...]) -> Mapping[str, Any]:
    """Return the keys that say all the places of a step, in their order."""
    kinds = [use.kind for use in uses]
    grouped = all(kinds[at] is kinds[at - 1] for at in range(1, len(kinds)) if kinds[at] in kinds[:at])
    if not grouped:
        return {"uses": [use_out(use) for use in uses]}
    found: dict[str, Any] = {}
    for kind in dict.fromkeys(kinds):
        shown = [use_out(use, kind) for use in uses if use.kind is kind]
        found[KEY_OF[kind]] = shown[0] if len(shown) == 1 else shown
    return found
