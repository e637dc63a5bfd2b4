"""Words that look like a value but are none: "190X", "bake 45", "on B9"; each with its mend."""

from __future__ import annotations

import re

from core.measures.refusal import quoted
from core.measures.words import join_words
from core.plan.kitchen import HEATED
from core.reading.line_names import near
from core.reading.line_patterns import pattern, word_set
from core.reading.line_scan import Scan, first_words
from core.reading.line_value import Fault, Says
from core.reading.line_verbs import place_of

_GLUED = re.compile(r"(?P<number>\d+(?:[.,]\d+)?(?:-\d+)?)(?P<unit>[^\W\d_]+)")
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?(?:-\d+)?")
_UNITS_OF_WORDS = word_set(
    "mm cm m km g kg mg ml cl dl l oz lb lbs st nd rd th kw w v x in min mins h hr hrs d s sec secs c f "
    "cup cups tsp tbsp er ish pm am k"
)
_TIME_WORDS = ("min", "mins", "minute", "minutes", "hour", "hours", "day", "days")
_NO_VALUE_AFTER = word_set("in into of no number nr step side part parts size shelf rack x with to")
_NEXT_WORD = re.compile(r" +(?P<word>[^\W\d_]+)")
_NEXT_PHRASE = pattern(
    r" *(?:$|[,\d]|(?:until|till|hands[- ]o|tended|oven|grill|fridge|gas|in the|on the|able)\b)"
)
_CODE = re.compile(r"[a-z]{1,2}\d{1,2}", re.IGNORECASE)
_HOTTEST = 300


def look_alike(here: Scan, end: int) -> Fault | None:
    """Return what is wrong with the word here that no rule took; None where it is a word like others."""
    word = here.text[here.pos : end].rstrip(";:.!?")
    stop = here.pos + len(word)
    if met := _GLUED.fullmatch(word):
        return _glued(here, met, stop)
    if _NUMBER.fullmatch(word.removeprefix("@")):
        return _bare(here, word.removeprefix("@"), stop)
    if _CODE.fullmatch(word) and here.word_before() in ("on", "at") and here.names.stations:
        known = [name for name in here.names.station_of if _CODE.fullmatch(name)]
        mend = f"write {_listed(known)}, or put the words in quotes."
        return Fault(here.pos, stop, f"No station is called {quoted(word)}; {mend}")
    return None


def _listed(known: list[str]) -> str:
    return join_words(sorted(known)).replace(" and ", " or ") or "the station's name"


def _glued(here: Scan, met: re.Match[str], stop: int) -> Fault | None:
    unit, number = met["unit"].casefold(), met["number"]
    if unit in _UNITS_OF_WORDS and not (unit == "x" and len(number) > 2):
        return None
    meant = _time_word(unit)
    if meant:
        mend = f"{number} {meant}"
    elif len(unit) > 2:
        return None
    else:
        mend = _guess(here, number)
    sentence = f"{quoted(met[0])} is no time and no temperature; did you mean {mend}? If not, put the words in quotes."
    return Fault(here.pos, stop, sentence, mend)


def _time_word(word: str) -> str:
    if len(word) < 3 or word in _TIME_WORDS:
        return ""
    return near(word, _TIME_WORDS, 0.66 if len(word) == 3 else 0.8)


def _bare(here: Scan, number: str, stop: int) -> Fault | None:
    after = _NEXT_WORD.match(here.text, stop)
    if after and (meant := _slip(after["word"].casefold())):
        mend = f"{number} {meant}"
        text = f"{number} {after['word']}"
        return Fault(
            here.pos, after.end(), f"{quoted(text)} is no length of time; did you mean {mend}?", mend
        )
    if here.word_before() in _NO_VALUE_AFTER or not _NEXT_PHRASE.match(here.text, stop):
        return None
    mend = _guess(here, number)
    sentence = (
        f"{quoted(number)} does not say of what; write {mend} if it is that, or put the words in quotes."
    )
    return Fault(here.pos, stop, sentence, mend)


def _slip(word: str) -> str:
    """Return the word for a time that was probably meant by one that is none."""
    if word in _TIME_WORDS or word in _UNITS_OF_WORDS or len(word) < 3:
        return ""
    if sorted(word) in (sorted("min"), sorted("mins")) and word[0] == "m":
        return "min"
    return near(word, _TIME_WORDS, 0.83)


def _guess(here: Scan, number: str) -> str:
    """Return what a number most likely is: a temperature in a hot place that has none yet, else minutes."""
    highest = float(number.rsplit("-", maxsplit=1)[-1].replace(",", "."))
    hot = place_of(first_words(here)) in HEATED or any(
        each.kind in (Says.PLACE, Says.UNITS) and each.value.kind in HEATED for each in here.chips
    )
    if hot and not here.has(Says.HEAT) and 100 <= highest <= _HOTTEST:
        return f"{number}C"
    return f"{number} min"
