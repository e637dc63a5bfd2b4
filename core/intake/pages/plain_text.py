"""A recipe as plain words: finds title, servings, times, ingredients, sections and method, headed or not.

Headings are known by their words ("Ingredients", "You will need", "Method", "What to do"); without any, lines that
begin with an amount are ingredients and the rest is the method. The text stays as it is; pieces say what is where.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from core.intake.draft_sentences import sentences
from core.intake.pages.pieces import (
    LONGEST_LINE,
    LONGEST_PARAGRAPH,
    MOST_CHARACTERS,
    MOST_INGREDIENTS,
    MOST_METHOD,
    Piece,
    PieceKind,
    RecipeText,
    fit,
)
from core.intake.pages.plain_prose import from_prose, listed
from core.intake.pages.plain_words import (
    BULLET,
    INGREDIENTS,
    METHOD,
    NOTE_LINE,
    NOTES,
    NUMBERED,
    ONLY_A_NUMBER,
    Part,
    facts_in,
    is_amount_line,
    is_sentence,
    section_in,
    title_end,
)

_TOO_LONG = "The recipe is longer than any that can be read at once; the end of it was left out."
_UNHEADED = (
    "No headings part ingredients from method; lines that begin with an amount were taken for ingredients."
)


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the text that is not empty: where it stands without bullets, and whether it begins a paragraph."""

    start: int
    end: int
    text: str
    begins: bool
    is_heading: bool = False


def plain_recipe(text: str) -> RecipeText:
    """Return the pieces of a recipe in plain words; raise nothing: a text that is none has no pieces of one."""
    remarks: list[str] = []
    text = fit(text)
    if len(text) > MOST_CHARACTERS:
        text = text[:MOST_CHARACTERS]
        remarks.append(_TOO_LONG)
    if not text.endswith("\n"):
        text += "\n"
    lines = list(_lines(text))
    reading = _Reading(lines)
    reading.read()
    reading.pieces = from_prose(text, reading.pieces)
    if reading.unheaded and reading.pieces:
        remarks.append(_UNHEADED)
    if reading.is_cut:
        remarks.append(_TOO_LONG)
    return RecipeText(text, tuple(reading.pieces), tuple(remarks))


def _lines(text: str) -> Iterator[_Line]:
    at, begins = 0, True
    for raw in text.split("\n"):
        met = BULLET.match(raw)
        lead = met.end() if met else 0
        body = raw[lead:].rstrip()
        if body:
            yield _Line(at + lead, at + lead + len(body), body, begins, raw.lstrip().startswith("#"))
        begins = not body
        at += len(raw) + 1


def _section(line: _Line, amount: bool) -> str:
    if line.is_heading and len(line.text) <= 70:
        return line.text.strip(" #*:")
    return section_in(line.text, amount)


class _Reading:
    """Goes through the lines once, knowing in which part of the recipe it is."""

    def __init__(self, lines: list[_Line]) -> None:
        self.lines = lines
        self.pieces: list[Piece] = []
        self.is_cut = False
        heads = [INGREDIENTS.fullmatch(each.text) is not None for each in lines]
        methods = [METHOD.fullmatch(each.text) is not None for each in lines]
        self.unheaded = not any(heads) and not any(methods)
        self._headed = {Part.INGREDIENTS: any(heads), Part.METHOD: any(methods)}
        self._numbered = any(NUMBERED.match(each.text) for each in lines)
        self._amounts = any(is_amount_line(each.text) for each in lines)
        self._at = 0
        self._part = Part.HEAD
        self._section = ""
        self._counts = {PieceKind.INGREDIENT: 0, PieceKind.METHOD: 0}

    def read(self) -> None:
        """Find all pieces."""
        at = self._title()
        for number in range(at, len(self.lines)):
            self._at = number
            self._line(self.lines[number])

    def _title(self) -> int:
        """Take the first line for the title, unless it is a heading, an amount or a numbered step."""
        if not self.lines:
            return 0
        first = self.lines[0]
        text = first.text
        is_other = (
            INGREDIENTS.fullmatch(text)
            or METHOD.fullmatch(text)
            or NUMBERED.match(text)
            or ONLY_A_NUMBER.fullmatch(text)
        )
        prose = len(self.lines) == 1 and ". " in text
        if is_other or prose or is_amount_line(text) or facts_in(text) or len(text) > 150:
            return 0
        end = first.start + title_end(text)
        self._add(PieceKind.TITLE, first.start, min(end, first.start + LONGEST_LINE))
        for kind, low, high in facts_in(text[title_end(text) :]):
            self._add(kind, end + low, end + high)
        return 1

    # ------------------------------------------------------------ one line

    def _line(self, line: _Line) -> None:
        for pattern, part in ((INGREDIENTS, Part.INGREDIENTS), (METHOD, Part.METHOD), (NOTES, Part.NOTES)):
            if met := pattern.fullmatch(line.text):
                self._part, self._section = part, ""
                more = met.start("more") if met["more"] else len(line.text)
                if not self._facts(line, more) and part is Part.INGREDIENTS:
                    self._in_one_line(line, more)
                return
        if self._part in (Part.HEAD, Part.INGREDIENTS) and self._facts(line):
            return
        if self._part is Part.HEAD:
            self._in_head(line)
        elif self._part is Part.INGREDIENTS:
            self._in_ingredients(line)
        elif self._part is Part.METHOD:
            self._in_method(line)
        else:
            self._add(PieceKind.NOTE, line.start, line.end)

    def _in_one_line(self, line: _Line, start: int) -> bool:
        """Take ingredients that one line lists behind its heading: "For the dough: 500 g flour, 7 g yeast"."""
        start += len(line.text[start:]) - len(line.text[start:].lstrip(" :-–—"))
        found = listed(line.text, start, len(line.text))
        for low, high in found:
            self._add(PieceKind.INGREDIENT, line.start + low, line.start + high)
        return bool(found)

    def _facts(self, line: _Line, start: int = 0) -> bool:
        """Take servings and times that stand in a line by themselves; tell whether there were any."""
        found = facts_in(line.text[start:])
        for kind, low, high in found:
            self._add(kind, line.start + start + low, line.start + start + high)
        return bool(found)

    def _in_head(self, line: _Line) -> None:
        """Before any heading: words about the dish, unless it has no headings of its own."""
        told = [each for each in sentences(line.text, 0, len(line.text)) if facts_in(line.text[slice(*each)])]
        if told:
            for start, end in told:
                for kind, low, high in facts_in(line.text[start:end]):
                    self._add(kind, line.start + start + low, line.start + start + high)
        elif self._headed[Part.INGREDIENTS]:
            self._add(PieceKind.NOTE, line.start, line.end)
        elif is_amount_line(line.text) or self._is_section(line):
            self._part = Part.INGREDIENTS
            self._in_ingredients(line)
        elif not self._headed[Part.METHOD] and (NUMBERED.match(line.text) or ONLY_A_NUMBER.match(line.text)):
            self._part = Part.METHOD
            self._in_method(line)
        elif self._headed[Part.METHOD]:
            kind = PieceKind.NOTE if is_sentence(line.text) else PieceKind.INGREDIENT
            self._add(kind, line.start, line.end)
        elif is_sentence(line.text) and not self._amounts:
            self._part = Part.METHOD
            self._in_method(line)
        elif self._leads_amounts(line):
            self._part = Part.INGREDIENTS
            self._in_ingredients(line)
        else:
            self._add(PieceKind.NOTE, line.start, line.end)

    def _leads_amounts(self, line: _Line) -> bool:
        """Tell whether a line begins a paragraph of ingredients, though it has no amount: "bones of 2 birds"."""
        after = self.lines[self._at + 1 : self._at + 2]
        first = self.unheaded and line.begins and not is_sentence(line.text)
        return bool(first and after and not after[0].begins and is_amount_line(after[0].text))

    def _in_ingredients(self, line: _Line) -> None:
        begins_method = NUMBERED.match(line.text) or ONLY_A_NUMBER.match(line.text) or is_sentence(line.text)
        if not self._headed[Part.METHOD] and begins_method and not is_amount_line(line.text):
            self._part, self._section = Part.METHOD, ""
            self._in_method(line)
        elif name := _section(line, is_amount_line(line.text)):
            self._heading(line, name)
        elif ":" in line.text and (name := section_in(line.text[: line.text.index(":") + 1], amount=False)):
            was, self._section = self._section, name
            if not self._in_one_line(line, line.text.index(":")):
                self._section = was
                self._add(PieceKind.INGREDIENT, line.start, min(line.end, line.start + LONGEST_LINE))
        else:
            self._add(PieceKind.INGREDIENT, line.start, min(line.end, line.start + LONGEST_LINE))

    def _is_section(self, line: _Line) -> bool:
        """Tell whether a line before any ingredient heads some of them."""
        after = self.lines[self._at + 1 : self._at + 2]
        return bool(_section(line, is_amount_line(line.text)) and after and is_amount_line(after[0].text))

    def _in_method(self, line: _Line) -> None:
        if ONLY_A_NUMBER.fullmatch(line.text):
            return
        met = NUMBERED.match(line.text)
        start = line.start + (met.end() if met else 0)
        name = "" if met else _section(line, amount=False)
        if note := NOTE_LINE.match(line.text):
            self._add(PieceKind.NOTE, line.start + note.end(), line.end)
        elif name:
            self._heading(line, name)
        elif not met and self._goes_on(line):
            last = self.pieces.pop()
            self.pieces.append(
                Piece(last.kind, last.start, min(line.end, last.start + LONGEST_PARAGRAPH), last.section)
            )
        else:
            self._add(PieceKind.METHOD, start, min(line.end, start + LONGEST_PARAGRAPH))

    def _goes_on(self, line: _Line) -> bool:
        """Tell whether a line is the rest of the paragraph above: lines are broken where the text was copied."""
        if line.begins or not self.pieces or self.pieces[-1].kind is not PieceKind.METHOD:
            return False
        above = self.lines[self._at - 1]
        if above.end != self.pieces[-1].end:
            return False
        return self._numbered or line.text[:1].islower() or above.text[-1:] not in ".!?:"

    # ------------------------------------------------------------ keeping

    def _heading(self, line: _Line, name: str) -> None:
        self._section = name
        at = line.start + max(line.text.find(name), 0)
        self._add(PieceKind.HEADING, at, at + len(name))

    def _add(self, kind: PieceKind, start: int, end: int) -> None:
        most = {PieceKind.INGREDIENT: MOST_INGREDIENTS, PieceKind.METHOD: MOST_METHOD}.get(kind)
        if most is not None:
            self._counts[kind] += 1
            if self._counts[kind] > most:
                self.is_cut = True
                return
        if start < end:
            section = (
                self._section if kind in (PieceKind.INGREDIENT, PieceKind.METHOD, PieceKind.HEADING) else ""
            )
            self.pieces.append(Piece(kind, start, end, section))
