"""Temperatures in a sentence, however many scales name one: "200C/180C fan/gas 6", "a 350 oven", "hot oven".

A fan setting becomes the conventional one, 20 °C more (a UK habit; standards differ by maker, none found).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from core.measures.gas_mark import celsius_of_gas, is_mark
from core.measures.heat import TOLERANCE
from core.measures.number import number_value, round_half_up
from core.measures.refusal import Refusal
from core.measures.typed_heat import Reading, settle, whole_degrees
from core.plan.step import Heat
from core.reading.phrases_heat_meaning import in_the_food, is_other
from core.reading.phrases_text import Found, Kind, even

OVEN_WORDS = {
    "very slow": (120, 110, 130),
    "very low": (110, 100, 120),
    "slow": (150, 140, 160),
    "cool": (140, 130, 150),
    "low": (120, 100, 140),
    "warm": (160, 150, 170),
    "moderately slow": (160, 150, 170),
    "moderate": (180, 170, 190),
    "medium": (180, 170, 190),
    "moderately hot": (200, 190, 210),
    "medium hot": (200, 190, 210),
    "fairly hot": (200, 190, 210),
    "hot": (220, 210, 230),
    "very hot": (240, 230, 250),
}
"""What ovens are called: °C likely, least, most. Common practice, from memory; books differ by 10 °C."""

_HOTTEST_BARE_C = 275  # above it a number without a scale is Fahrenheit, as in measures.typed_heat

_FAN = r"(?:fan|convection)"
_NUMBER = r"(?<![0-9.,])(?:(?<![0-9a-z])-|\bminus )?[0-9]{1,3}(?:\.[0-9]{1,2})?"
_DEGREE = r"(?:[ -]?(?:°|deg(?:rees?)?\b\.?))"
_SCALE = r"[ -]?(?:celsius|centigrade|fahrenheit|c|f)\b\.?"
_AFTER_FAN = rf" ?\(?{_FAN}(?:[- ](?:forced|assisted|bake))?\b\)?"
_DEGREES = (
    rf"(?:(?P<fan>\b{_FAN}(?:[- ](?:forced|assisted|bake))?)(?: oven)?(?: to| at|:)? ?)?(?P<number>{_NUMBER})"
    rf"(?:(?P<degree>{_DEGREE})?(?P<scale>{_SCALE}|℃|℉)|(?P<bare_degree>{_DEGREE})|(?=(?P<bare>)))"
    rf"(?P<after>{_AFTER_FAN})?"
)
_MARK = r"(?:1/4|1/2|3/4|[¼½¾]|10|[1-9](?:½|\.5| 1/2)?)(?![0-9])"
_GAS = (
    rf"\b(?:gas[ -]?(?:mark)?|regulo|mark) ?(?P<mark>{_MARK})(?: ?(?:-|to|"
    rf"or) ?(?P<mark_to>{_MARK})(?! ?(?:min|hour|h\b)))?"
)
_WORDS = "|".join(word.replace(" ", "[- ]") for word in sorted(OVEN_WORDS, key=len, reverse=True))
_NAMED_OVEN = rf"\b(?P<word>{_WORDS}) oven\b"
_ATOM = re.compile(f"(?:{_GAS})|(?:{_NAMED_OVEN})|(?:{_DEGREES})")
_LOOSE = r"(?P<n>[1-5][0-9][05])"
_OVEN_OF = re.compile(rf"(?<![0-9.,/]){_LOOSE}(?:[- ]degrees?)? (?:oven|grill|smoker)\b")
_SET_TO = re.compile(
    r"\b(?:oven|preheat\w*|pre-heat\w*|heat|heated|bake|baked|roast|roasted|temperature|turn|turned|set|"
    r"lower|reduce|put|slide|goes|in|"
    r"raise|increase|drop|dial|up|down|smoker|grill|hot)\b[^.;0-9]{0,40}?\b(?:to|at|of) (?:about |around )?"
    rf"{_LOOSE}(?![0-9°%]|[.,/][0-9])(?= ?(?:[.,;:)/(]|$|-)| (?:for|until|and|then|or|oven|till|while|"
    rf"before|again|in|on|once|when|with)\b)"
)
_JOIN = re.compile(
    r"[ ,/(;|\[=-]*(?:or|and|at|about|of|around|set to|that is|i\.e\.|ie|for|in an?)?[ (]*(?:the |a )?"
    r"(?:electric|conventional|ordinary|normal|oven)?[ ,:/(=-]*"
)
_LEFT = re.compile(r"(?<![0-9.,a-z])(?P<n>-?[0-9]{1,3})(?: ?°)? ?(?P<by>-+|/|to|and|or) ?$")
_RIGHT = re.compile(r" ?/ ?(?P<n>[1-5][0-9][05])(?![0-9])(?! ?(?:g|ml|min|kg)\b)")
_TO = re.compile(r" ?(?:-|to|and) ?")
_FROM = re.compile(r"\b(?:from|raise|increase|up|reduce|lower|drop|turn)\b[^.;]{0,40}$")


@dataclass(frozen=True, slots=True)
class Warmth:
    """A temperature in whole °C of a conventional oven, and the range that is written (else equal to it).

    `fan`: only a fan setting is written. `core`: it is measured in the food, or in its oil, syrup or water; else
    it is what a place is set to.
    """

    celsius: int
    low: int
    high: int
    fan: bool = False
    core: bool = False

    @property
    def heat(self) -> Heat:
        """Return it as a setting; a lone temperature bears the usual tolerance either side."""
        spread = TOLERANCE if self.low == self.high else 0
        return Heat(self.celsius, self.low - spread, self.high + spread)


@dataclass(frozen=True, slots=True)
class _Atom:
    """One temperature in one scale: exact °C (likely, least, most), where it stands."""

    start: int
    end: int
    scale: str
    celsius: Fraction
    low: Fraction
    high: Fraction
    fan: bool = False


def temperatures(text: str) -> tuple[Found, ...]:
    """Return every temperature of a text in its order; the value is a Warmth."""
    plain = even(text)
    found = []
    for group in _groups(plain, _ranges(plain, _atoms(plain))):
        best = min(group, key=_preference)
        start, end = group[0].start, group[-1].end
        whole = [_whole(each) for each in (best.celsius, best.low, best.high)]
        if any(each is None for each in whole) or is_other(plain, start, end):
            continue
        celsius, low, high = (each for each in whole if each is not None)
        warmth = Warmth(celsius, low, high, best.fan, in_the_food(plain, start, end, celsius))
        found.append(Found(Kind.TEMPERATURE, text[start:end], start, end, warmth))
    return tuple(found)


def _preference(atom: _Atom) -> int:
    """Order the scales of one temperature by how well they say the conventional setting in °C."""
    return ("c", "f", "gas", "word").index(atom.scale) + (2 if atom.fan else 0)


def _whole(celsius: Fraction) -> int | None:
    try:
        return whole_degrees("", celsius)
    except Refusal:
        return None


def _atoms(plain: str) -> list[_Atom]:
    atoms = [atom for met in _ATOM.finditer(plain) if (atom := _atom(plain, met))]
    taken = {at for atom in atoms for at in range(atom.start, atom.end)}
    for pattern in (_OVEN_OF, _SET_TO):
        for met in pattern.finditer(plain):
            start, end = met.span("n")
            if start not in taken:
                taken.add(start)
                atoms += _degrees(start, end, met["n"], "", False)
    atoms.sort(key=lambda atom: atom.start)
    return list(_with_bare(plain, atoms))


def _atom(plain: str, met: re.Match[str]) -> _Atom | None:
    start, end = met.span()
    end -= len(met[0]) - len(met[0].rstrip(" ."))
    if met["mark"]:
        return _gas(plain, start, end, met)
    if met["word"]:
        likely, low, high = OVEN_WORDS[met["word"].replace("-", " ")]
        if re.search(r"\b(?:the|that|your|still|this) $", plain[max(start - 9, 0) : start]):
            return None  # an oven that is hot already, not one to be set
        return _Atom(start, end, "word", Fraction(likely), Fraction(low), Fraction(high))
    fan = bool(met["fan"] or met["after"])
    scale = (met["scale"] or "").strip(" -.").replace("℃", "c").replace("℉", "f")[:1]
    if met["bare"] is not None and not (fan and len(met["number"]) == 3):
        return None
    if scale and not met["degree"] and "℃" not in met[0] and not _is_degree(met, plain):
        return None
    return next(iter(_degrees(start, end, met["number"], scale, fan)), None)


def _is_degree(met: re.Match[str], plain: str) -> bool:
    """Tell 4C and 63 c from "2 c. flour": a small number without a degree sign stands against its letter."""
    number = abs(float(met["number"].replace("minus ", "-")))
    closed = met["scale"][0] not in " -" or len(met["scale"].strip(" -.")) > 1
    follows = plain[met.end() : met.end() + 8]
    return number >= 30 or (closed and not re.match(r"\.? (?:of|flour|sugar|milk|water)", follows))


def _gas(plain: str, start: int, end: int, met: re.Match[str]) -> _Atom | None:
    if plain.startswith("mark", start) and not re.search(
        r"(?:oven|to|at|[/(,;]) ?$", plain[max(start - 9, 0) : start]
    ):
        return None
    marks = [_mark(met[name]) for name in ("mark", "mark_to") if met[name]]
    if not all(is_mark(mark) for mark in marks):
        return None
    ends = [celsius_of_gas(mark) for mark in marks]
    return _Atom(start, end, "gas", (min(ends) + max(ends)) / 2, min(ends), max(ends))


def _mark(token: str) -> Fraction:
    sign = {"¼": "1/4", "½": "1/2", "¾": "3/4"}.get(token[-1])
    return number_value(f"{token[:-1]} {sign}".strip() if sign else token)


def _degrees(start: int, end: int, token: str, scale: str, fan: bool) -> list[_Atom]:
    token = token.replace("minus ", "-")
    number = -number_value(token[1:]) if token.startswith("-") else number_value(token)
    scale = scale or ("f" if number > _HOTTEST_BARE_C else "c")
    celsius = settle(token, Reading(number, scale, fan), "celsius")
    return [_Atom(start, end, scale, celsius, celsius, celsius, fan)]


def _with_bare(plain: str, atoms: list[_Atom]) -> Iterator[_Atom]:
    """Yield the atoms and, beside them, numbers that a slash makes part of the group: "200/180C fan"."""
    for at, atom in enumerate(atoms):
        left = _LEFT.search(plain, max(atom.start - 12, 0), atom.start)
        free = at == 0 or (left is not None and atoms[at - 1].end <= left.start("n"))
        if left and free and _is_bare_mate(left, atom):
            yield from _degrees(left.start("n"), left.end("n"), left["n"], "", False)
        yield atom
        right = _RIGHT.match(plain, atom.end)
        if right and (at + 1 == len(atoms) or atoms[at + 1].start >= right.end()):
            yield from _degrees(right.start("n"), right.end("n"), right["n"], "", False)


def _is_bare_mate(left: re.Match[str], atom: _Atom) -> bool:
    """Tell "200" of "200/180C fan" from the lower end of a range."""
    other = atom.fan or atom.scale != "c" or int(left["n"]) > _HOTTEST_BARE_C
    return left["by"] == "/" and len(left["n"]) == 3 and other


def _ranges(plain: str, atoms: list[_Atom]) -> list[_Atom]:
    """Join the ends of a range: "180-200C", "between 70 and 75C", "180C to 190C"."""
    joined: list[_Atom] = []
    for atom in atoms:
        last = joined[-1] if joined else None
        gap = plain[last.end : atom.start] if last else ""
        ends = last is not None and _same(last, atom) and last.celsius < atom.celsius
        if last and ends and _TO.fullmatch(gap) and not _is_change(plain, last.start):
            joined[-1] = _between(last.start, last.low, atom)
            continue
        left = _LEFT.search(plain, max(atom.start - 12, 0), atom.start)
        if (
            left
            and left["by"] != "/"
            and atom.scale in ("c", "f")
            and not (last and last.end > left.start("n"))
        ):
            low = _degrees(0, 0, left["n"], atom.scale, atom.fan)[0].celsius
            if low < atom.celsius and atom.celsius - low <= 60 and not _is_change(plain, left.start("n")):
                joined.append(_between(left.start("n"), low, atom))
                continue
        joined.append(atom)
    return joined


def _is_change(plain: str, start: int) -> bool:
    return _FROM.search(plain[max(start - 60, 0) : start]) is not None


def _same(one: _Atom, other: _Atom) -> bool:
    return (one.scale, one.fan) == (other.scale, other.fan)


def _between(start: int, low: Fraction, high: _Atom) -> _Atom:
    middle = round_half_up((low + high.celsius) / 2)
    return replace(high, start=start, celsius=middle, low=low)


def _groups(plain: str, atoms: list[_Atom]) -> list[list[_Atom]]:
    """Gather the atoms that say one temperature in several scales."""
    groups: list[list[_Atom]] = []
    for atom in atoms:
        group = groups[-1] if groups else []
        near = bool(group) and _JOIN.fullmatch(plain, group[-1].end, atom.start) is not None
        if (
            near
            and not any(_same(each, atom) for each in group)
            and abs(group[0].celsius - atom.celsius) <= 30
        ):
            group.append(atom)
        else:
            groups.append([atom])
    return groups
