"""Rules for waiting: until the step below, until it is served, and after which step."""

from __future__ import annotations

import re
from dataclasses import dataclass

from core.measures.minutes import parse_minutes, parse_span, show_minutes
from core.measures.refusal import Refusal, quoted
from core.plan.ids import StepId
from core.plan.menu import LinkKind
from core.plan.step import Holding
from core.reading.line_names import near
from core.reading.line_patterns import TIME, TIMES, pattern
from core.reading.line_scan import Met, Scan, chip, faulty
from core.reading.line_value import Says

_HOW = (
    r"(?:(?P<counter>on (?:the )?(?:counter|worktop))|(?P<fridge>in (?:the |a )?fridge)"
    r"|(?P<freezer>in (?:the |a )?freezer)|(?P<hot>(?:held|kept) hot)|(?P<vessel>in (?:its|the) vessel))\b"
)
_BOUNDS = (
    rf"(?:at least (?P<least>{TIME})(?:,? (?:and )?(?:up to|at most) (?P<most>{TIME}))?"
    rf"|(?:up to|at most|within|no(?:t)? more than|no(?:t)? longer than) (?P<upto>{TIME})|exactly (?P<exactly>{TIME})"
    rf"|(?P<once>at once)\b|(?P<free>any time)\b|(?P<span>{TIMES}))"
)
_TAIL = pattern(rf"(?P<bounds> *{_BOUNDS})?(?P<how>(?:,? *){_HOW})?")
_WAIT = pattern(
    r"(?P<lead>(?:and )?then(?: (?:rest|wait|stand|hold|leave))?|rest|wait|stand|hold|leave"
    r"|let (?:it |them )?rest)(?: for)?(?= )"
    r"|(?=up to|at most|at least|at once|exactly)"
)
_KEEP = pattern(r"(?:serve|served|keeps|keep)(?: it| them)?(?: for)?(?= )")
_AFTER = pattern(
    r"(?P<also>also )?(?:(?P<after>after)|(?P<start>with the|starts with)|(?P<end>ends with))(?: the)? "
)
_NOTHING = pattern(r"after nothing\b")
_RESTS = pattern(r"\b(?:rest|stand|leave)$")
_PART = re.compile(r"[^,]*")
_HOLDINGS = {
    "counter": Holding.COUNTER,
    "fridge": Holding.FRIDGE,
    "freezer": Holding.FREEZER,
    "hot": Holding.HOT,
    "vessel": Holding.VESSEL,
}


@dataclass(frozen=True, slots=True)
class WaitSaid:
    """Bounds of a wait in minutes and how the food waits; its place follows in other chips."""

    least: int
    most: int | None
    how: Holding


@dataclass(frozen=True, slots=True)
class FollowSaid:
    """What a step follows (None: nothing), and the wait if it is told here."""

    step: StepId | None
    kind: LinkKind = LinkKind.END_TO_START
    also: bool = False
    wait: WaitSaid | None = None


def wait(here: Scan) -> Met | None:
    """Take how long the food waits for the step below, and where: "then up to 2 days in the fridge"."""
    met = here.match(_WAIT) if here.fresh and not here.begins else None
    if met is None:
        return None
    tail = _TAIL.match(here.text, met.end())
    if tail is None or not (tail["bounds"] or tail["how"]):
        return None
    try:
        said = _said(tail, rests=_RESTS.search(met["lead"] or "") is not None)
    except Refusal as refusal:
        return _unclear(tail, refusal)
    return chip(Says.WAIT, _words(said, "then "), (here.pos, tail.end()), said)


def keep(here: Scan) -> Met | None:
    """Take how long the finished thing keeps: "serve within 15", "keeps up to 3 days in the fridge"."""
    met = here.match(_KEEP) if here.fresh and not here.begins else None
    if met is None:
        return None
    tail = _TAIL.match(here.text, met.end())
    if tail is None or not (tail["bounds"] or tail["how"]):
        return None
    try:
        said = _said(tail, keeps=True)
    except Refusal as refusal:
        return _unclear(tail, refusal)
    return chip(
        Says.KEEP, _words(said, "keeps " if said.most != 0 else "serve "), (here.pos, tail.end()), said
    )


def _said(tail: re.Match[str], *, keeps: bool = False, rests: bool = False) -> WaitSaid:
    """Return the wait of a tail; raise Refusal where a single length does not say which bound it is."""
    how = next((_HOLDINGS[name] for name in _HOLDINGS if tail[name]), Holding.COUNTER)
    least, most = _bounds(tail, keeps, rests)
    if keeps and least:
        raise Refusal(
            f"{quoted(tail['bounds'])}: say how long it keeps at most, such as within {show_minutes(least)}."
        )
    return WaitSaid(least, most, how)


def _bounds(tail: re.Match[str], keeps: bool, rests: bool) -> tuple[int, int | None]:
    if tail["least"]:
        return parse_minutes(tail["least"]), parse_minutes(tail["most"]) if tail["most"] else None
    if tail["upto"]:
        return 0, parse_minutes(tail["upto"])
    if tail["exactly"]:
        minutes = parse_minutes(tail["exactly"])
        return minutes, minutes
    if tail["once"]:
        return 0, 0
    if not tail["span"]:
        return 0, None
    low, _likely, high = parse_span(tail["span"])
    if low == high and keeps:
        return 0, high
    if low == high and rests:
        return low, None  # meat that rests 10 minutes rests no less
    if low == high:
        shown = show_minutes(low)
        text = quoted(tail["span"])
        raise Refusal(
            f"{text} could be the least or the most; write up to {shown}, at least {shown} or exactly {shown}."
        )
    return low, high


def _unclear(tail: re.Match[str], refusal: Refusal) -> Met:
    """Return the fault of bounds that do not say what they bound, or cannot be read."""
    end = tail.end("bounds")
    bounds = tail["bounds"].strip()
    mend = f"up to {bounds}" if tail["span"] else ""
    return faulty(end - len(bounds), end, refusal.text, mend)


def _words(said: WaitSaid, lead: str) -> str:
    if said.most is None:
        bounds = f"at least {show_minutes(said.least)}" if said.least else "any time"
    elif said.least == said.most:
        bounds = f"exactly {show_minutes(said.least)}" if said.least else "at once"
    else:
        least = f"{show_minutes(said.least)} to " if said.least else "up to "
        bounds = least + show_minutes(said.most)
    return f"{lead}{bounds}" + (f", {said.how.value}" if said.how is not Holding.COUNTER else "")


def follows(here: Scan) -> Met | None:
    """Take what it follows instead of the line above: "after slice", "with the roast", "after nothing"."""
    if not here.fresh:
        return None
    if met := here.match(_NOTHING):
        return chip(Says.FOLLOWS, "follows nothing", met.span(), FollowSaid(None))
    met = here.match(_AFTER)
    if met is None:
        return None
    step = here.names.steps_met.match(here.text, met.end()) if here.names.steps_met else None
    if step is None:
        return _unknown(here, met)
    end = step.end() + (here.text[step.end() : step.end() + 1] == ":")
    tail = _TAIL.match(here.text, end)
    said = None
    if tail is not None and (tail["bounds"] or tail["how"]):
        try:
            said = _said(tail)
        except Refusal as refusal:
            return _unclear(tail, refusal)
        end = tail.end()
    elif not here.ends_at(end):
        return None
    which = here.names.step_of[step[0].casefold()]
    kind = (
        LinkKind.START_TO_START
        if met["start"]
        else LinkKind.END_TO_END
        if met["end"]
        else LinkKind.END_TO_START
    )
    lead = {LinkKind.START_TO_START: "starts with", LinkKind.END_TO_END: "ends with"}.get(kind, "after")
    words = f"{'also ' if met['also'] else ''}{lead} {which}" + (f", {_words(said, '')}" if said else "")
    return chip(Says.FOLLOWS, words, (here.pos, end), FollowSaid(which, kind, bool(met["also"]), said))


def _unknown(here: Scan, met: re.Match[str]) -> Met | None:
    """Say that no step is called so, where the line clearly names one."""
    part = _PART.match(here.text, met.end())
    name = part[0].strip() if part else ""
    if not met["after"] or here.begins or not name or name[0].isdigit() or name.count(" ") > 2:
        return None
    meant = near(name.partition(":")[0], here.names.step_of)
    mend = f"did you mean {meant}?" if meant else "write one of the dish's steps, or put the words in quotes."
    start = met.end()
    return faulty(start, start + len(name), f"No step is called {quoted(name)}; {mend}", meant)
