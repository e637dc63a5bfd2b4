"""How food waits, as typed: "30 to 60 min, on the counter"; and how long a finished thing keeps."""

from __future__ import annotations

import re
from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, WithJsonSchema, model_validator

from core.intake.text.entry import Entry
from core.intake.text.nearest import nearest, one_of
from core.intake.text.places import PlaceText, Typed, is_place_word, parts_in, split_parts, use_out
from core.intake.text.scalars import Minutes, QuantityText, minutes_out, quantity_out
from core.measures.minutes import parse_minutes, parse_span, show_minutes
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal, quoted
from core.plan.kitchen import StationKind
from core.plan.step import Holding, Keep, Wait

_HOLDINGS = {each.value: each for each in Holding}
_KIND_OF_HOLDING = {Holding.FRIDGE: StationKind.FRIDGE, Holding.FREEZER: StationKind.FREEZER}
_BOUND = re.compile(r"(up to|at most|at least|exactly) (.+)")
_BETWEEN = re.compile(r".*\d.*(?: to |-|–|/).*\d.*")
_HEAT = re.compile(r"\d ?(?:°|c\b|f\b)|±|\+/?-|\bgas\b|\bfan\b")
_FREE = ("any time", "no limit")
_EXAMPLES = '"up to 20 min, on the counter" or "30 to 60 min, in the fridge, 600 cm2"'


def holding_in(value: object) -> Holding:
    """Return how food waits from its words."""
    return _HOLDINGS[one_of(value, _HOLDINGS, "a way of waiting")]


HoldingText = Annotated[
    Holding,
    BeforeValidator(holding_in),
    WithJsonSchema({"enum": list(_HOLDINGS)}),
]


def wait_parts(text: str) -> Typed:
    """Return the table that a short line about waiting stands for; raise Refusal if it cannot be read."""
    found: Typed = {}
    places: list[str] = []
    for part in split_parts(text):
        said = _wait_part(part)
        if said is None:
            places.append(part)
            continue
        for key, value in said.items():
            if key in found:
                raise Refusal(f"{quoted(text)} says twice {_SPOKEN[key]}; write it once.")
            found[key] = value
    if places:
        found["place"] = parts_in(text, places)
    return found


_SPOKEN = {
    "least": "how short it may wait",
    "most": "how long it may wait",
    "how": "how it waits",
    "brings": "what it brings",
}


def _wait_part(part: str) -> Typed | None:
    """Return what a part says of waiting; None when it speaks of the place."""
    word = part.casefold()
    if word in _HOLDINGS:
        return {"how": word}
    if word.startswith("brings "):
        return {"brings": part[len("brings ") :]}
    if word in _FREE:
        return {}
    if word == "at once":
        return {"least": 0, "most": 0}
    # "on the countr" is a way of waiting misspelt, not a station: here a station is named with "at"
    if not word.startswith(("in ", "on ")) and (is_place_word(word) or _HEAT.search(word)):
        return None
    return _bounds(part, word)


def _bounds(part: str, word: str) -> Typed:
    if met := _BOUND.fullmatch(word):
        minutes = parse_minutes(met[2])
        return {
            "up to": {"most": minutes},
            "at most": {"most": minutes},
            "at least": {"least": minutes},
            "exactly": {"least": minutes, "most": minutes},
        }[met[1]]
    if _BETWEEN.fullmatch(word):
        low, _likely, high = parse_span(word)
        return {"least": low, "most": high}
    try:
        shown = show_minutes(parse_minutes(part))
    except Refusal:
        near = _meant(part)
        raise Refusal(f"{quoted(part)} is no part of a wait; {near}write it as {_EXAMPLES}.") from None
    raise Refusal(f'{quoted(part)}: write "up to {shown}", "at least {shown}" or "exactly {shown}".')


def _meant(part: str) -> str:
    near = nearest(part, _HOLDINGS)
    return f'did you mean "{near}"? If not, ' if near else ""


class KeepText(Entry):
    """How long a finished thing may wait until it is served, and how."""

    short: ClassVar[str] = (
        'how long and how: "up to 20 min, on the counter"; "up to 60 min, held hot, hot box"; "any time"'
    )

    most: Minutes | None = None
    """Minutes at most; left out: no limit."""
    how: HoldingText = Holding.COUNTER
    """How it waits."""
    place: PlaceText | None = None
    """The scarce place it waits in; left out: room is not scarce."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        found = wait_parts(text)
        if found.pop("least", 0) or "brings" in found:
            raise Refusal(
                f'{quoted(text)}: say how long at most and how, such as "up to 20 min, on the counter".'
            )
        return found

    @model_validator(mode="after")
    def _place_has_kind(self) -> KeepText:
        self.wait()
        return self

    def wait(self) -> Wait:
        """Return how and where it waits."""
        if self.place is None:
            return Wait(self.how)
        kind = None if self.place.kind else _KIND_OF_HOLDING.get(self.how)
        return Wait(self.how, self.place.use(kind))

    def keep(self) -> Keep:
        """Return the keep."""
        return Keep(self.most, self.wait())


class WaitText(KeepText):
    """How long food waits, and how, until the next step."""

    short: ClassVar[str] = (
        'how long and how: "up to 20 min, on the counter"; "30 to 60 min"; '
        '"at least 4 h, in the fridge, 600 cm2, 12 cm"; "at once"; "up to 60 min, held hot, hot box"; '
        'a by-product: "up to 5 days, in the fridge, brings 300 ml"'
    )

    least: Minutes = 0
    """The next step begins not sooner after."""
    brings: QuantityText = None
    """How much a by-product comes to."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        return wait_parts(text)


def bounds_out(least: int, most: int | None) -> str:
    """Return the bounds of a wait as typed, "" when there are none."""
    if most is None:
        return f"at least {show_minutes(least)}" if least else ""
    if least == most:
        return f"exactly {show_minutes(least)}" if least else "at once"
    return f"{show_minutes(least)} to {show_minutes(most)}" if least else f"up to {show_minutes(most)}"


def wait_words(least: int, most: int | None, wait: Wait, brings: Quantity | None = None) -> str:
    """Return the short line of a wait; it may need checking that it reads back."""
    parts = [bounds_out(least, most)]
    if wait != Wait():
        parts.append(wait.how.value)
    if wait.use is not None:
        shown = use_out(wait.use, _kind_said(wait))
        # a place that is only a number, or fills no part, is named by its kind
        parts.append(shown if isinstance(shown, str) else str(use_out(wait.use)))
    if brings is not None:
        parts.append(f"brings {quantity_out(brings)}")
    return ", ".join(part for part in parts if part)


def wait_table(least: int, most: int | None, wait: Wait, brings: Quantity | None = None) -> Typed:
    """Return the table of a wait."""
    table: Typed = {}
    if least:
        table["least"] = minutes_out(least)
    if most is not None:
        table["most"] = minutes_out(most)
    if wait.how is not Holding.COUNTER:
        table["how"] = wait.how.value
    if wait.use is not None:
        table["place"] = use_out(wait.use)
    if brings is not None:
        table["brings"] = quantity_out(brings)
    return table


def _kind_said(wait: Wait) -> StationKind | None:
    said = _KIND_OF_HOLDING.get(wait.how)
    return said if wait.use is not None and wait.use.kind is said else None


def keep_out(keep: Keep) -> Any:
    """Return a keep as typed."""
    text = wait_words(0, keep.most, keep.wait) or "any time"
    try:
        if KeepText.model_validate(text).keep() == keep:
            return text
    except ValueError:
        pass
    return wait_table(0, keep.most, keep.wait)


def wait_out(least: int, most: int | None, wait: Wait, brings: Quantity | None) -> Any:
    """Return a wait as typed: the short line, or the table where the line cannot say it."""
    text = wait_words(least, most, wait, brings) or "any time"
    try:
        read = WaitText.model_validate(text)
        if (read.least, read.most, read.wait(), read.brings) == (least, most, wait, brings):
            return text
    except ValueError:
        pass
    return wait_table(least, most, wait, brings)
