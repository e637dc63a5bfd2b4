"""Goes through a line from left to right: at each word a rule takes a phrase, or the word is the step's own."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from core.reading.line_names import Names
from core.reading.line_patterns import QUOTED, evened, unquoted
from core.reading.line_value import Chip, Fault, Says

_WORD = re.compile(r"[^\s,]+")
_GAP = re.compile(r"[\s,]*")
_QUOTED = re.compile(rf"{QUOTED}(?=[\s,]|$)")
_BEFORE = re.compile(r"(?P<word>[^\s,]+) +$")
_NUMBER_COMMA = re.compile(r"(?<=\d),(?=\d)")


@dataclass(frozen=True, slots=True)
class Met:
    """What a rule found: where it ends, its chips and faults, and words of the step inside it."""

    end: int
    chips: tuple[Chip, ...] = ()
    faults: tuple[Fault, ...] = ()
    said: tuple[tuple[int, int], ...] = ()


def chip(kind: Says, words: str, span: tuple[int, int], value: object) -> Met:
    """Return what a rule found that found one thing."""
    return Met(span[1], (Chip(kind, words, *span, value),))


def faulty(start: int, end: int, sentence: str, instead: str = "") -> Met:
    """Return a phrase that is none; what no chip stands for stays with the step's words."""
    return Met(end, faults=(Fault(start, end, sentence, instead),))


@dataclass
class Scan:
    """Where reading stands. `text` is evened, as long as `raw`; `said` are words of the step, piece by piece.

    `fresh`: here a phrase of its own may begin, because a comma or another phrase is before it.
    `last`: the chip right before, with nothing but spaces or one comma between; `comma`: there was a comma.
    """

    raw: str
    names: Names
    text: str = ""
    pos: int = 0
    chips: list[Chip] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    said: list[tuple[int, int]] = field(default_factory=list)
    commas: list[int] = field(default_factory=list)
    fresh: bool = True
    comma: bool = False
    last: Chip | None = None

    def __post_init__(self) -> None:
        """Even the text."""
        self.text = evened(self.raw)

    @property
    def begins(self) -> bool:
        """Tell whether nothing has been read yet, a short name aside."""
        return not self.said and all(each.kind is Says.LABEL for each in self.chips)

    def has(self, kind: Says) -> bool:
        """Tell whether the line already speaks of something."""
        return any(each.kind is kind for each in self.chips)

    def match(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Return the pattern's match here."""
        return pattern.match(self.text, self.pos)

    def word_before(self) -> str:
        """Return the word before this place in small letters, "" at a comma or a phrase."""
        met = None if self.fresh else _BEFORE.search(self.text, 0, self.pos)
        return met["word"].casefold() if met else ""

    def ends_at(self, end: int) -> bool:
        """Tell whether a comma or the line's end follows a place."""
        rest = self.text[end:].lstrip()
        return not rest or rest[0] == ","


Rule = Callable[[Scan], Met | None]


def scan(
    raw: str, names: Names, rules: Sequence[Rule], look_alike: Callable[[Scan, int], Fault | None]
) -> Scan:
    """Read a line with rules in their order of right; `look_alike` says what is wrong with a word that none took."""
    here = Scan(raw, names)
    here.pos = _gap(here)
    while here.pos < len(here.text):
        met = next((met for rule in rules if (met := rule(here)) is not None), None)
        if met is not None:
            here.chips += met.chips
            here.faults += met.faults
            here.said += met.said if met.chips else ((here.pos, met.end),)
            here.pos = met.end
            here.fresh, here.comma = True, False
            here.last = met.chips[-1] if met.chips else None
        else:
            _take_word(here, look_alike)
        gap = _gap(here)
        if gap > here.pos and "," in here.text[here.pos : gap]:
            here.commas.append(here.pos)
            here.fresh = here.comma = True
        here.pos = gap
    return here


def _gap(here: Scan) -> int:
    met = _GAP.match(here.text, here.pos)
    return met.end() if met else here.pos


def _take_word(here: Scan, look_alike: Callable[[Scan, int], Fault | None]) -> None:
    quote = _QUOTED.match(here.text, here.pos)
    word = quote or _WORD.match(here.text, here.pos)
    end = word.end() if word else here.pos + 1
    while quote is None and (inside := _NUMBER_COMMA.match(here.text, end)):
        more = _WORD.match(here.text, inside.end())
        end = more.end() if more else inside.end()
    if quote is None and (fault := look_alike(here, end)):
        here.faults.append(fault)
    here.said.append((here.pos, end))
    here.pos = end
    here.fresh, here.comma, here.last = False, False, None


def first_words(here: Scan) -> str:
    """Return the words that the step begins with, enough for its verb."""
    return " ".join(unquoted(here.raw[start:end]) for start, end in here.said[:4])


def words_of(here: Scan) -> str:
    """Return the words of the step: what no phrase took, with the spaces and commas that stood between.

    A piece in quotes loses them. Where a phrase stood, one space is left, or the comma that stood there.
    """
    pieces: list[str] = []
    before = None
    for start, end in here.said:
        piece = here.raw[start:end]
        if before is not None:
            between = here.raw[before:start]
            apart = any(before <= each.start < start for each in here.chips)
            if apart:
                between = ", " if any(before <= comma < start for comma in here.commas) else " "
            pieces.append(between)
        pieces.append(unquoted(piece) if _QUOTED.fullmatch(evened(piece)) else piece)
        before = end
    return "".join(pieces)
