"""Rules for places: oven, racks, "on B2", "fridge 40x30 cm, 12 cm high", temperatures, vessels."""

from __future__ import annotations

import re

from core.measures.heat import parse_heat, parse_heat_range, show_heat_range
from core.measures.refusal import Refusal, quoted
from core.measures.words import plural
from core.plan.kitchen import HEATED, StationKind
from core.plan.step import Heat, VesselUse
from core.reading.line_names import KIND_WORDS, near
from core.reading.line_patterns import COUNT, HEAT, ONE_HEAT, count_in, pattern, word_set
from core.reading.line_scan import Met, Scan, chip, faulty, first_words
from core.reading.line_value import Chip, PlaceSaid, Says
from core.reading.line_verbs import place_of

_WORDS = "|".join(sorted(KIND_WORDS, key=lambda each: -len(each)))
_IN = r"(?P<lead>(?:in|on|onto|into|at|under|over) (?:the |an? )?)?"
_KIND = pattern(rf"{_IN}(?:(?P<n>{COUNT}) )?(?P<kind>{_WORDS})(?:e?s)?\b(?!-)")
_STATION_LEAD = pattern(r"(?P<lead>(?:in|on|onto|into|at|under) (?P<the>the )?)?")
_UNITS = pattern(
    rf"(?:(?:on|in) )?(?P<n>{COUNT}) (?P<unit>rack|shelf|shelve|ring|burner|hob|place|slot|zone)s?\b"
)
_UNIT_KIND = {
    **dict.fromkeys(("rack", "shelf", "shelve"), StationKind.OVEN),
    **dict.fromkeys(("ring", "burner", "hob"), StationKind.BURNER),
}
_UNIT_NEXT = pattern(r" (?:rack|shel|ring|burner|hob|place|slot|zone)")
_LEAVES = pattern(r"\b(?:out of|from|off)(?: the| an?)? $")
_ROOM_NEXT = pattern(r" *(?:$|[,\d]|raw\b)")
_NO_PLACE = pattern(r"no place\b")
_AREA = pattern(r"(?:(?P<area>\d[\d,]*) ?(?:cm2|cm²)|(?P<wide>\d+) ?x ?(?P<deep>\d+) ?cm)(?![\w²])")
_HEIGHT = pattern(r"(?P<height>\d+) ?cm(?: (?:high|tall))?(?!\w)")
_RAW = pattern(r"raw\b")
_STEADY = pattern(r"(?:need not be|not) steady\b|while it changes\b")
_CHAIN = frozenset(
    {
        Says.PLACE,
        Says.UNITS,
        Says.AREA,
        Says.HEIGHT,
        Says.RAW,
        Says.HEAT,
        Says.STEADY,
        Says.WAIT,
        Says.KEEP,
        Says.FOLLOWS,
    }
)
_HEAT = pattern(rf"(?:at )?(?P<heat>{HEAT})")
_WITH_FAN = pattern(
    r"(?:at )?(?P<number>\d{3}) ?(?:°? ?(?P<scale>[CF]))? ?[/,(]? ?(?:(?:fan|convection) ?\d{3}(?: ?°? ?[CF]\b)?"
    r"|\d{3}(?: ?°? ?[CF])? ?(?:fan|convection)\b)\)?(?: ?[/,] ?gas ?(?:mark ?)?\d\b)?(?![\w°])"
)
_CORE = pattern(
    rf"(?:until )?core(?: temperature)?(?: of| at| to| reaches)? (?P<one>{ONE_HEAT})"
    rf"|(?:until |to )?(?P<two>{ONE_HEAT}) (?:core(?! ?-?\d)|inside|at the (?:core|centre)|in the (?:middle|centre))\b"
)
_CORE_BARE = pattern(r"core (?P<number>\d{2,3})(?![\w:./-])")
_HEATED_LATER = pattern(r"\b(?:ovens?|grill|barbecue|smoker|warm drawer|hot box|fridge|freezer|\d racks?)\b")
_NO_DIAL_LATER = pattern(r"\b(?:burners?|rings?|hob|machine)\b|\bon [a-z]\d\b")
_CUPS = re.compile(r"\d(?:[.,]\d+)? [cf]")  # five c of flour are cups
_TARGET = word_set("to below under above over until till from reaches reach least most than about")
_ARTICLES = word_set("the a an both their its each all that this upper lower top bottom middle")
_NEXT = pattern(
    r" *(?:$|[,\d\"]|(?:at|gas|fan|hands|until|till|raw|able|tended|for|about|overnight|no|half|two|three|in|on"
    r"|with|by|core)\b)"
)
_AMBIENT = 50  # °C: up to here a temperature without a heated place is a room's or a liquid's
_VESSEL_LEAD = pattern(
    rf"(?P<and>and )?(?P<lead>(?:in|into|on|onto|using|with) (?:the |an? |its |one )?|the (?=\S))?"
    rf"(?:(?P<n>{COUNT}) ?(?:x )?)?"
)


def place(here: Scan) -> Met | None:
    """Take a kind of place or a station by its name."""
    if met := here.match(_NO_PLACE):
        return chip(Says.NO_PLACE, "no place is taken", met.span(), None) if here.fresh else None
    if _LEAVES.search(here.text, max(here.pos - 12, 0), here.pos):
        return None  # "out of the fridge" is not in it
    return _station(here) or _units(here) or _kind(here)


def _station(here: Scan) -> Met | None:
    lead = here.match(_STATION_LEAD)
    if here.names.stations_met is None or lead is None:
        return None
    met = here.names.stations_met.match(here.text, lead.end())
    if met is None:
        return None
    name = met[0].casefold()
    if name[-1].isdigit() and _UNIT_NEXT.match(here.text, met.end()):
        return None  # "burner 2 rings" counts rings, it does not name burner 2
    if name in KIND_WORDS and (
        not lead["lead"] or lead["the"] or not lead["lead"].casefold().startswith("at ")
    ):
        return None
    told = " " in name or any(sign.isdigit() for sign in name) or "-" in name
    if not lead["lead"] and (here.begins or not told or not _bare_fits(here, met.end())):
        return None
    station = here.names.station_of[name]
    kind = here.names.station_kind[station]
    said = PlaceSaid(kind, None, station)
    shown = next(each.name for each in here.names.stations if each.id == station)
    return chip(Says.PLACE, f"at {shown}", (here.pos, met.end()), said)


def _bare_fits(here: Scan, end: int) -> bool:
    if here.word_before() in _ARTICLES:
        return False
    return here.fresh or _NEXT.match(here.text, end) is not None


def _kind(here: Scan) -> Met | None:
    met = here.match(_KIND)
    if met is None or _NEXT.match(here.text, met.end()) is None:
        return None
    kind = KIND_WORDS[met["kind"].casefold()]
    if not met["lead"] and (here.begins or not _bare_fits(here, met.end())):
        return None
    if kind is StationKind.ROOM and not _ROOM_NEXT.match(here.text, met.end()):
        return None
    units = count_in(met["n"]) if met["n"] else None
    words = kind.value if units is None else f"{kind.value}, {plural(units, _unit_word(kind))}"
    return chip(Says.PLACE, words, met.span(), PlaceSaid(kind, units))


def _unit_word(kind: StationKind) -> str:
    return {StationKind.OVEN: "rack", StationKind.BURNER: "ring"}.get(kind, "place")


def _units(here: Scan) -> Met | None:
    met = here.match(_UNITS)
    if met is None or here.word_before() in _ARTICLES:
        return None
    units = count_in(met["n"])
    kind = _UNIT_KIND.get(met["unit"].casefold()) or _kind_so_far(here)
    if kind is None or (kind is StationKind.OVEN and not here.fresh and not _bakes(here)):
        return None
    return chip(Says.UNITS, plural(units, _unit_word(kind)), met.span(), PlaceSaid(kind, units))


def _kind_so_far(here: Scan) -> StationKind | None:
    said = [each.value.kind for each in here.chips if each.kind is Says.PLACE]
    return said[-1] if said else place_of(first_words(here))


def _bakes(here: Scan) -> bool:
    return _kind_so_far(here) is StationKind.OVEN or here.has(Says.HEAT)


def size(here: Scan) -> Met | None:
    """Take what a shelf must give, right after its place: "40x30 cm, 12 cm high, raw"."""
    if here.last is None or here.last.kind not in _CHAIN:
        return None
    if met := here.match(_AREA):
        area = int(met["area"].replace(",", "")) if met["area"] else int(met["wide"]) * int(met["deep"])
        return chip(Says.AREA, f"{area} cm2 of a shelf", met.span(), area)
    if met := here.match(_HEIGHT):
        return chip(Says.HEIGHT, f"{met['height']} cm high", met.span(), int(met["height"]))
    if met := here.match(_RAW):
        return chip(Says.RAW, "raw, lowest shelf", met.span(), True)
    if met := here.match(_STEADY):
        return chip(Says.STEADY, "may be inside while the heat changes", met.span(), False)
    return None


def core(here: Scan) -> Met | None:
    """Take a core temperature: "core 63C", "until 63C inside"."""
    met = here.match(_CORE)
    if met is None:
        bare = here.match(_CORE_BARE)
        if bare is None:
            return None
        mend = f"{bare['number']}C"
        return faulty(*bare.span("number"), f'"{bare["number"]}" has no scale; write {mend}.', mend)
    text = met["one"] or met["two"]
    try:
        degrees = parse_heat(text)
    except Refusal as refusal:
        return faulty(*met.span("one" if met["one"] else "two"), refusal.text)
    return chip(Says.CORE, f"core at {degrees} °C", met.span(), degrees)


def heat(here: Scan) -> Met | None:
    """Take the temperature of a place: "190C", "375F", "gas 5", "170-190C", "190C ±10"."""
    met = here.match(_WITH_FAN) or here.match(_HEAT)
    if met is None or here.word_before() in _TARGET:
        return None
    parts = met.groupdict()
    text = (
        parts.get("heat") or f"{met['number']}{met['scale'] or 'C'}"
    )  # of two dials for one setting the plain one
    span = met.span("heat") if "heat" in parts else met.span()
    if _CUPS.fullmatch(text):
        return None
    try:
        low, setting, high = parse_heat_range(text)
    except Refusal as refusal:
        return faulty(*span, refusal.text)
    if not _has_heat(here, met.end()):
        if setting <= _AMBIENT or _has_no_dial(here, met.end()):
            return None
        sentence = f"{quoted(text)}: say what is that hot, such as oven {text}, or put the words in quotes."
        return faulty(*span, sentence, "" if here.begins else f"oven {text}")
    return chip(Says.HEAT, show_heat_range(low, setting, high), met.span(), Heat(setting, low, high))


def _has_heat(here: Scan, end: int) -> bool:
    """Tell whether the line has, or will have, a place that can be that hot."""
    if here.last is not None and here.last.kind in _CHAIN:
        return True
    if any(_heated(each) for each in here.chips) or place_of(first_words(here)) in HEATED:
        return True
    return _HEATED_LATER.search(here.text, end) is not None


def _has_no_dial(here: Scan, end: int) -> bool:
    """Tell whether the place, said or named by the verb, has no temperature of its own: "poach at 70C"."""
    kind = place_of(first_words(here))
    said = any(each.kind in (Says.PLACE, Says.UNITS) for each in here.chips)
    return (
        said or (kind is not None and kind not in HEATED) or _NO_DIAL_LATER.search(here.text, end) is not None
    )


def _heated(each: Chip) -> bool:
    return each.kind in (Says.PLACE, Says.UNITS) and each.value.kind in HEATED


def vessel(here: Scan) -> Met | None:
    """Take a vessel: "in the casserole", "2 tins", "in 2 tins"."""
    lead = here.match(_VESSEL_LEAD)
    if here.names.vessels_met is None or lead is None:
        return None
    met = here.names.vessels_met.match(here.text, lead.end())
    if met is None:
        return _misspelt(here, lead)
    alone = here.fresh and here.ends_at(met.end())
    chained = bool(lead["and"]) and here.last is not None and here.last.kind is Says.VESSEL
    word = (lead["lead"] or "").casefold()
    inside = word.startswith(("in", "on", "using"))
    if (lead["and"] and not chained) or (word.startswith(("with", "the")) and not alone and not chained):
        return None
    if not (alone or chained or inside) and (not lead["n"] or here.word_before() in _ARTICLES):
        return None
    which = here.names.vessel_of[met[0].casefold()]
    count = count_in(lead["n"]) if lead["n"] else 1
    shown = next(each.name for each in here.names.vessels if each.id == which)
    words = shown if count == 1 else f"{count} x {shown}"
    return chip(Says.VESSEL, words, (here.pos, met.end()), VesselUse(which, count))


_LAST_WORD = re.compile(r"[^\W\d_]{4,}(?= *(?:,|$))")


def _misspelt(here: Scan, lead: re.Match[str]) -> Met | None:
    """Find a vessel's name with a slip in it, at the end of a part of the line."""
    word = _LAST_WORD.match(here.text, lead.end())
    if word is None or not (lead["lead"] or "").casefold().startswith(("in", "on", "using")):
        return None
    if word[0].casefold() in KIND_WORDS:
        return None
    meant = near(word[0], here.names.vessel_of, 0.8)
    if not meant:
        return None
    sentence = (
        f"No vessel is called {quoted(word[0])}; did you mean {meant}? If not, put the words in quotes."
    )
    return faulty(*word.span(), sentence, meant)
