"""Reads an ingredient line as recipes print it: how much of what, how prepared; each with its place in the line.

A small grammar over the unit vocabulary of core.measures, measured against labelled lines
(tests/core/reading/test_ingredient_labelled.py). What it cannot read of a line stays the item.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.measures.number import LONGEST
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal, quoted
from core.measures.unit_names import SYSTEMS, UNITS
from core.reading.ingredient_amount import Amount, amount_at
from core.reading.ingredient_words import (
    DONE_FIRST,
    FOR_WHAT,
    NEEDS_OF,
    OPTIONAL,
    PART_OF,
    QUALITY,
    TO_TASTE,
    TRAILING,
    UNIT_OF,
)

Span = tuple[int, int]

_EVENED = {
    **dict.fromkeys(map(ord, "‐‑‒–—−"), "-"),
    **dict.fromkeys(map(ord, "\u00a0\u2009\u202f\t\n\r"), " "),
    ord("⁄"): "/",
    ord("×"): "x",
    ord("′"): "'",
    ord("″"): '"',
}
_BULLET = re.compile(r"\s*(?:[-*•·‣\u25aa\u25a2\u2610\u25a1\u25e6+]+(?:\s+|$))*")
_BRACKET = re.compile(r" ?\(([^()]*)\)")
_DASH = re.compile(r" - |; ?|, ?| \| ")
_OR_AMOUNT = re.compile(r" or (?=\S)", re.IGNORECASE)
_LAST = re.compile(
    r"(?P<item>[^\d½¼¾⅓⅔]*?[^\W\d])(?P<sign>\s*(?:[:=]|\.{2,}|…|-|\bx\b)?\s*)"
    r"(?P<rest>(?:[\d½¼¾⅓⅔]|a pinch\b|to taste\b).*)",
    re.IGNORECASE,
)
_LEAD_OF = re.compile(r"(?:of|the) ", re.IGNORECASE)
_NOTE_MARK = re.compile(r"[\s*†‡.,;:]+\Z")


@dataclass(frozen=True, slots=True)
class Part:
    """Say from where to where in the line the words of one value stand."""

    what: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class IngredientLine:
    """Hold what a line says. `quantity` None: to taste, or not to be measured.

    `comment`: words that are none of the rest, as other measures of the same amount. `pieces`: so many single
    pieces of a told weight. `doubts`: sentences on what the line leaves open. `spans`: where each value stands,
    `what` being quantity, item, preparation, comment or optional.
    """

    quantity: Quantity | None
    item: str
    preparation: str = ""
    optional: bool = False
    comment: str = ""
    pieces: int = 0
    doubts: tuple[str, ...] = ()
    spans: tuple[Part, ...] = ()

    def span_of(self, what: str) -> Span | None:
        """Return where the first words of a value stand in the line."""
        return next(((each.start, each.end) for each in self.spans if each.what == what), None)


def read_ingredient(line: str, system: str = "us") -> IngredientLine:
    """Return what one line of a list of ingredients says.

    The system (unit_names.SYSTEMS) says whose spoons and cups plain ones are. Of a range the greater amount is
    kept, and said in `doubts`; several packs of a told weight come to their weight. Raise Refusal for a line
    longer than 1,000 characters only.
    """
    if system not in SYSTEMS:
        raise ValueError(f"unknown system of units: {system}")
    if len(line) > LONGEST:
        raise Refusal(f"{quoted(line)} is longer than {LONGEST} characters; write one ingredient to a line.")
    return _Reading(line, system).result()


def plain_of(line: str) -> str:
    """Return a line of the same length with plain dashes, spaces and slashes."""
    return line.translate(_EVENED)


class _Reading:
    """Reads one line from left to right; what is understood is blanked out of the rest."""

    def __init__(self, line: str, system: str) -> None:
        self.line, self.plain, self.system = line, plain_of(line), system
        self.parts: list[Part] = []
        self.amount = Amount(None, 0)
        self.unit_behind = ""

    def result(self) -> IngredientLine:
        plain = self.plain
        met = _BULLET.match(plain)
        at = met.end() if met else 0
        if self._mark(OPTIONAL.match(plain, at), "optional"):
            at = len(plain) - len(plain[self.parts[-1].end :].lstrip(" :)"))
        if part := PART_OF.match(plain, at):
            self._add("preparation", part.start("part"), part.end("part"))
            at = part.end()
        found = amount_at(plain, at, self.system)
        if found is None and (last := self._amount_last(at)):
            found, (at, stop) = last
            rest = (at, stop)
        else:
            rest = (at if found is None else found.end, len(plain))
        if found is not None:
            self._keep(found, at if found.end <= len(plain) else 0)
        self._tail(*rest)
        return self._made()

    def _keep(self, amount: Amount, at: int) -> None:
        self.amount = amount
        if amount.quantity is not None and not self._has("quantity"):
            self._add("quantity", at, amount.end)
        for start, end in amount.asides:
            self._add("comment", start, end)

    def _amount_last(self, at: int) -> tuple[Amount, Span] | None:
        """Return an amount that ends the line and where the thing before it stands: "flour: 200 g"."""
        met = _LAST.fullmatch(self.plain, at)
        if met is None:
            return None
        start = met.start("rest")
        found = amount_at(self.plain, start, self.system)
        if found is None or found.quantity is None or self.plain[found.end :].strip(" .,)"):
            return None
        if not found.quantity.unit and not met["sign"].strip() and ")" in met["rest"]:
            return None
        self._add("quantity", start, found.end)
        return found, (at, met.end("item"))

    # ------------------------------------------------------------ what follows the amount

    def _tail(self, start: int, end: int) -> None:
        """Read name and preparation between two places."""
        start = self._brackets_and_marks(start, end)
        rest = self.plain[:end]
        cut = self._name_end(rest, start)
        for piece_start, piece_end in self._pieces(rest, cut):
            self._add(self._kind_of(piece_start, piece_end), piece_start, piece_end)
        if met := FOR_WHAT.search(rest, start, cut):
            self._add("preparation", met.start() + 1, met.end())
            cut = met.start()
        for met in _OR_AMOUNT.finditer(rest, start, cut):
            if amount_at(rest, met.end(), self.system) is not None and rest[met.end()].isdigit():
                self._add("comment", met.start() + 1, cut)
                cut = met.start()
                break
        self._name(start, cut)

    def _brackets_and_marks(self, start: int, end: int) -> int:
        """Take optional, to taste and what stands in brackets out of the rest; return where the name begins."""
        for pattern, what in ((OPTIONAL, "optional"), (TO_TASTE, "to taste")):
            while self._mark(pattern.search(self.plain, start, end), what):
                pass
        while met := _BRACKET.search(self.plain, start, end):
            if met[1].strip():
                self._add("comment", *self._trimmed(met.start(1), met.end(1)))
            self._blank(met.start(), met.end())
        while start < end and (self.plain[start] in " ,;:-" or (lead := _LEAD_OF.match(self.plain, start))):
            start = start + 1 if self.plain[start] in " ,;:-" else lead.end()  # type: ignore[union-attr]
        return start

    def _name_end(self, rest: str, start: int) -> int:
        """Return where the name ends: at the first comma or dash that parts it from what is done to it."""
        for met in _DASH.finditer(rest, start):
            before = rest[start : met.start()].strip()
            if not before or (
                met[0].startswith(",") and QUALITY.fullmatch(before) and rest[met.end() :].strip()
            ):
                continue
            return met.start()
        return len(rest)

    def _pieces(self, rest: str, cut: int) -> Iterator[Span]:
        """Yield what follows the name: in one piece, but for amounts of their own."""
        met = _DASH.match(rest, cut)
        start = met.end() if met else cut
        start, end = self._trimmed(start, len(rest))
        if start < end:
            yield start, end

    def _kind_of(self, start: int, end: int) -> str:
        found = amount_at(self.plain[:end], start, self.system)
        alone = found is not None and found.quantity is not None and found.end >= end
        return "comment" if alone else "preparation"

    def _name(self, start: int, end: int) -> None:
        pack = self.amount.quantity is not None and UNIT_OF.get(self.amount.quantity.unit, "") in (
            "tin",
            "can",
            "jar",
        )
        tinned = pack or any(self.line[a:b] for a, b in self.amount.asides if self._is_pack(a, b))
        if not tinned and (met := DONE_FIRST.match(self.plain, start, end)):
            self._add("preparation", met.start(), met.end() - 1)
            start = met.end()
            if of := _LEAD_OF.match(self.plain, start):
                start = of.end()
        start, end = self._trimmed(start, end)
        end = self._unit_last(start, end)
        start, end = self._trimmed(start, end)
        self._add("item", start, end)
        if start >= end:
            self._unit_alone()

    def _unit_alone(self) -> None:
        """Take a unit that counts and has nothing behind it for the thing itself: "3 cloves" are a spice."""
        quantity, span = (
            self.amount.quantity,
            next((each for each in self.parts if each.what == "quantity"), None),
        )
        if quantity is None or span is None or UNITS.get(quantity.unit, UNITS["g"]).kind != "count":
            return
        words = self.plain[span.start : span.end].rstrip()
        start = span.start + len(words) - len(words.rpartition(" ")[2])
        if quantity.unit and start > span.start:
            self.amount = replace(self.amount, quantity=replace(quantity, unit=""))
            self._add("item", start, span.end)

    def _is_pack(self, start: int, end: int) -> bool:
        words = self.plain[start:end].casefold().split()
        return any(UNIT_OF.get(each.strip("()."), "") in ("tin", "can", "jar") for each in words)

    def _unit_last(self, start: int, end: int) -> int:
        """Take the unit off the end of a name that was only counted: "2 garlic cloves"."""
        quantity = self.amount.quantity
        before, gap, last = self.plain[start:end].rpartition(" ")
        unit = UNIT_OF.get(last.casefold(), "")
        if quantity is None or quantity.unit or unit not in TRAILING or unit in NEEDS_OF or not gap:
            return end
        if before.split()[-1:] in (["whole"], ["ground"], ["dried"]):
            return end
        self.unit_behind = unit
        return start + len(before)

    # ------------------------------------------------------------ keeping

    def _add(self, what: str, start: int, end: int) -> None:
        start, end = self._trimmed(start, end)
        if start < end:
            self.parts.append(Part(what, start, end))

    def _has(self, what: str) -> bool:
        return any(each.what == what for each in self.parts)

    def _mark(self, met: re.Match[str] | None, what: str) -> bool:
        if met is None:
            return False
        self._add(what, met.start(), met.end())
        self._blank(met.start(), met.end())
        return True

    def _blank(self, start: int, end: int) -> None:
        self.plain = self.plain[:start] + " " * (end - start) + self.plain[end:]

    def _trimmed(self, start: int, end: int) -> Span:
        while start < end and self.plain[start] in " ,;:":
            start += 1
        while start < end and self.plain[end - 1] in " ,;:*†":
            end -= 1
        if end - start > 1 and self.plain[end - 1] == "." and self.plain[end - 3 : end - 2] != ".":
            end -= 1
        return start, end

    def _words(self, what: str) -> str:
        """Return the words of a value as the line has them; what was taken out between them is left out."""
        found = []
        for each in self.parts:
            if each.what == what:
                shown = self.plain if what in ("item", "preparation") else self.line
                text = "".join(
                    sign if kept != " " or sign.isspace() else " "
                    for sign, kept in zip(
                        self.line[each.start : each.end], shown[each.start : each.end], strict=True
                    )
                )
                found.append(" ".join(text.split()))
        return ", ".join(_NOTE_MARK.sub("", each) for each in found if each)

    def _made(self) -> IngredientLine:
        quantity, amount = self.amount.quantity, self.amount
        if quantity is not None and self.unit_behind:
            quantity = replace(quantity, unit=self.unit_behind)
        item = self._words("item")
        first = next((each for each in self.parts if each.what == "item"), None)
        several = item.casefold().startswith("each ")
        item = item if first is None or self.line[: first.start].strip(" -*•") else _lower_first(item)
        doubts = []
        if amount.doubt is not None and quantity is not None:
            words = " ".join(self.line[slice(*amount.doubt)].split())
            doubts.append(f"The line says {words}: {quantity.as_text()} is taken, the greater amount.")
        if several:
            doubts.append("The line gives one amount for several things; write a line for each of them.")
        return IngredientLine(
            quantity=quantity,
            item=item,
            preparation=_lower_first(self._words("preparation")),
            optional=self._has("optional"),
            comment=self._words("comment"),
            pieces=amount.pieces,
            doubts=tuple(doubts),
            spans=tuple(sorted(self.parts, key=lambda each: (each.start, each.end))),
        )


def _lower_first(text: str) -> str:
    """Return a text without the capital that only begins a line."""
    head, gap, tail = text.partition(" ")
    return text if head.isupper() and len(head) > 1 else head[:1].lower() + head[1:] + gap + tail
