"""What the cook chose of the sheets: paper, which are printed together, how each is laid out; kept as text."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, get_args

from core.sheets.kinds import SheetKind
from core.sheets.page import Paper

ALL, EACH_COOK, EACH_STATION, ONLY = "all", "cooks", "stations", "only:"
"""One copy for everybody, one for each cook, one for each station; `ONLY` goes before one's name."""

_USUAL = (SheetKind.RUN, SheetKind.PREP, SheetKind.ORDER, SheetKind.PULL)
_LETTER = frozenset(["BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"])
_LONGEST = 200


@dataclass(frozen=True, slots=True)
class Layout:
    """How one kind of sheet is laid out, and for whom there are copies (`ALL` and so on)."""

    landscape: bool = False
    dense: bool = False
    copies: str = ALL


@dataclass(frozen=True, slots=True)
class Choice:
    """The paper, the sheet last looked at, those printed together, and each one's layout where it is not the usual.

    `bundled`: those printed together were last looked at, not one alone. `printer`: the one last chosen, by its name.
    """

    paper: Paper = "a4"
    shown: SheetKind = SheetKind.RUN
    together: frozenset[SheetKind] = frozenset(_USUAL)
    layouts: Mapping[SheetKind, Layout] = field(default_factory=dict)
    bundled: bool = False
    printer: str = ""

    def layout(self, kind: SheetKind) -> Layout:
        """Return how a kind is laid out."""
        return self.layouts.get(kind, Layout())

    def with_layout(self, kind: SheetKind, **changes: Any) -> Choice:
        """Return the choice with some of a kind's layout changed."""
        return replace(self, layouts={**self.layouts, kind: replace(self.layout(kind), **changes)})

    def with_ticked(self, kind: SheetKind, there: bool) -> Choice:
        """Return the choice with a kind printed together with the others, or not."""
        return replace(self, together=self.together | {kind} if there else self.together - {kind})

    @property
    def in_order(self) -> tuple[SheetKind, ...]:
        """Return the kinds printed together, in the order in which they are listed."""
        return tuple(kind for kind in SheetKind if kind in self.together)


def usual_paper(territory: str) -> Paper:
    """Return the paper that is usual in a country (ISO 3166 letters); Unicode CLDR's paper sizes, from memory."""
    return "us-letter" if territory.upper() in _LETTER else "a4"


def as_text(choice: Choice) -> str:
    """Return the choice as text."""
    layouts = {
        kind.value: {"landscape": each.landscape, "dense": each.dense, "copies": each.copies}
        for kind, each in choice.layouts.items()
    }
    told = {
        "paper": choice.paper,
        "shown": choice.shown.value,
        "together": [kind.value for kind in choice.in_order],
        "layouts": layouts,
        "bundled": choice.bundled,
        "printer": choice.printer,
    }
    return json.dumps(told)


def from_text(text: str, usual: Choice) -> Choice:
    """Return the choice that a text tells; what it does not tell, or tells wrongly, is as usual."""
    try:
        told = json.loads(text)
    except ValueError:
        return usual
    if not isinstance(told, dict):
        return usual
    together = told.get("together")
    if isinstance(together, list):
        usual = replace(usual, together=frozenset(kind for kind in map(_kind, together) if kind is not None))
    layouts = told.get("layouts")
    layouts = layouts if isinstance(layouts, dict) else {}
    return replace(
        usual,
        paper=told["paper"] if told.get("paper") in get_args(Paper) else usual.paper,
        shown=_kind(told.get("shown")) or usual.shown,
        layouts={kind: _layout(each) for name, each in layouts.items() if (kind := _kind(name)) is not None},
        bundled=told.get("bundled") is True,
        printer=printer[:_LONGEST] if isinstance(printer := told.get("printer"), str) else "",
    )


def _kind(name: object) -> SheetKind | None:
    return SheetKind(name) if isinstance(name, str) and name in set(SheetKind) else None


def _layout(told: object) -> Layout:
    if not isinstance(told, dict):
        return Layout()
    copies = told.get("copies")
    return Layout(
        landscape=told.get("landscape") is True,
        dense=told.get("dense") is True,
        copies=copies[:_LONGEST] if isinstance(copies, str) and copies else ALL,
    )
