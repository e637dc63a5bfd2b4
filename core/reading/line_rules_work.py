"""Rules for work: attention, cooks, skill, touches, loads, putting in and taking out, the cue."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from core.measures.minutes import parse_minutes, show_minutes
from core.measures.refusal import Refusal
from core.measures.words import join_words, plural
from core.plan.step import Attention, Touch
from core.reading.line_patterns import COUNT, QUOTED, TIME, count_in, pattern, unquoted
from core.reading.line_scan import Met, Rule, Scan, chip, faulty
from core.reading.line_value import Chip, LoadsSaid, Says

_ATTENTION = pattern(
    r"(?P<off>hands[- ]off\b|by (?:itself|themselves)\b|unattended\b)|(?P<on>hands[- ]on\b)|(?P<tended>tended\b)"
)
_HANDS = pattern(rf"(?:with |by )?(?P<n>{COUNT}) (?:cooks?|people|persons?)\b")
_SKILL = pattern(
    r"(?:by (?:an? )?|needs (?:an? )?|skill )?(?P<skill>[^\W\d_][\w -]*?)(?: cook)?(?= *(?:$|[,\d\"]))"
)
_SKILL_NAMED = pattern(rf"skill (?P<skill>{QUOTED}|[^\W\d_][\w-]*)")
_LOADS = pattern(
    r"(?P<pieces>\d{1,6})(?: (?P<noun>[a-z]+(?:[ -][a-z]+){0,2}?))?,? (?:in )?"
    r"(?:(?P<per>\d{1,6}) (?:at a time|(?:a|per|to a|to the|each|in a) load)|loads of (?P<of>\d{1,6}))\b"
)
_PLAIN_NOUN = frozenset(["piece", "pieces", "portion", "portions"])
_BETWEEN = pattern(rf"(?P<time>{TIME}) between(?: (?:the )?loads)?\b")
_TRANSFER = pattern(rf"(?:(?P<put>put(?:ting)? in)|tak(?:e|ing) out)(?: takes)? (?P<time>{TIME})")
_NO_TRANSFER = pattern(r"no (?:(?P<put>putting in)|taking out)\b")

_DOES = rf"(?P<does>{QUOTED}|[^,\"]*?[^,\"\s])"
# here a time is only delimited, and held against TIME afterwards: the pattern stays small
_SOME = r"(?:[\d½⅓⅔¼¾][^,\"]*?|half an hour|an hour)"
_WHEN = (
    rf"(?P<edge>(?:the )?(?:start|beginning|end)\b)|(?P<half>half ?way\b)"
    rf"|(?P<times>{_SOME}(?: and (?:at )?{_SOME})*)"
)
_LEFT = rf"(?P<left>{_SOME}) before (?:the |its )?end\b"
_FOR = rf"(?: for (?P<for>{_SOME}))?"
_BY = rf"(?: by (?P<who>{QUOTED}|[^\W\d_][\w-]*))?"
_STOP = r"(?= *(?:,|$))"
_TOUCHES: Sequence[re.Pattern[str]] = (
    pattern(rf"{_DOES} (?:at |@ ?)(?:{_WHEN}){_FOR}{_BY}{_STOP}"),
    pattern(rf"{_DOES} (?P<half>half ?way)(?: through)?{_FOR}{_BY}{_STOP}"),
    pattern(rf"{_DOES} every (?P<every>{_SOME}){_FOR}{_BY}{_STOP}"),
    pattern(rf"{_DOES} {_LEFT}{_FOR}{_BY}{_STOP}"),
    pattern(rf"(?:at (?:{_WHEN})|every (?P<every>{_SOME})|{_LEFT}){_FOR}{_BY}:? {_DOES}{_STOP}"),
)
_ONE_TIME = pattern(TIME)
_AND_AT = pattern(r" and (?:at )?")
_MAY_TOUCH = pattern(r"[^,]*?(?:\bat |@|\bevery |\bend\b|half ?way)|\"")
_UNTIL = pattern(r"(?:until|till|done when) ")
_CUE_WORD = re.compile(r"[^\s,]+")


@dataclass(frozen=True, slots=True)
class TouchSaid:
    """Touches of one phrase. `every`: again and again after so many minutes; `half`: half way through."""

    touches: tuple[Touch, ...]
    every: bool = False
    half: bool = False


def attention(here: Scan) -> Met | None:
    """Take hands-on, hands-off or tended."""
    met = here.match(_ATTENTION)
    if met is None:
        return None
    found = Attention.HANDS_OFF if met["off"] else Attention.HANDS_ON if met["on"] else Attention.TENDED
    return chip(Says.ATTENTION, found.value, met.span(), found)


def people(here: Scan) -> Met | None:
    """Take how many cooks, and the skill asked."""
    if met := here.match(_HANDS):
        hands = count_in(met["n"])
        return chip(Says.HANDS, plural(hands, "cook"), met.span(), hands)
    if not here.fresh or here.begins:
        return None
    if met := here.match(_SKILL_NAMED):
        return chip(Says.SKILL, f"skill: {unquoted(met['skill'])}", met.span(), unquoted(met["skill"]))
    met = here.match(_SKILL)
    known = here.names.skill_of.get(met["skill"].casefold()) if met else None
    return chip(Says.SKILL, f"skill: {known}", met.span(), known) if met and known else _skill_first(here)


def _skill_first(here: Scan) -> Met | None:
    """Take a skill that other phrases follow: "able in the pan"."""
    for name, skill in here.names.skill_of.items():
        end = here.pos + len(name)
        if here.text[here.pos : end].casefold() == name and re.match(
            r" (?:in|on|until|at|no)\b", here.text[end:]
        ):
            return chip(Says.SKILL, f"skill: {skill}", (here.pos, end), skill)
    return None


def loads(here: Scan) -> Met | None:
    """Take "18 skewers 6 at a time" and "2 min between loads"."""
    if met := here.match(_BETWEEN):
        try:
            minutes = parse_minutes(met["time"])
        except Refusal as refusal:
            return faulty(*met.span("time"), refusal.text)
        return chip(Says.BETWEEN, f"{show_minutes(minutes)} between loads", met.span(), minutes)
    met = here.match(_LOADS)
    if met is None:
        return None
    per = int(met["per"] or met["of"])
    noun = met["noun"] or "pieces"
    said = LoadsSaid(int(met["pieces"]), per)
    found = Chip(Says.LOADS, f"{met['pieces']} {noun}, {per} a load", *met.span(), said)
    kept = not here.fresh and met["noun"] and noun.casefold() not in _PLAIN_NOUN
    return Met(met.end(), (found,), said=(met.span("noun"),) if kept else ())


def transfer(here: Scan) -> Met | None:
    """Take "put in 2 min" and "take out 0"."""
    if not here.fresh or here.begins:
        return None
    minutes = 0
    met = here.match(_NO_TRANSFER)
    if met is None:
        met = here.match(_TRANSFER)
        if met is None or not here.ends_at(met.end()):
            return None
        minutes = parse_minutes(met["time"])
    kind = Says.PUT_IN if met["put"] else Says.TAKE_OUT
    return chip(kind, f"{kind.value} takes {show_minutes(minutes)}", met.span(), minutes)


def touch(here: Scan) -> Met | None:
    """Take visits of a cook: "turn at 25", "baste every 20", "stir at the end", "at 45 foil off"."""
    if not here.fresh or here.begins or not here.match(_MAY_TOUCH):
        return None
    met = next((met for form in _TOUCHES if (met := here.match(form)) and _times_fit(met)), None)
    if met is None:
        return None
    parts = met.groupdict()
    try:
        said = _touches(here, met, parts)
    except Refusal as refusal:
        return faulty(*met.span(), refusal.text)
    return chip(Says.TOUCH, _touch_words(said), met.span(), said)


def _times_in(times: str | None) -> list[str]:
    return _AND_AT.split(times) if times else []


def _times_fit(met: re.Match[str]) -> bool:
    """Tell whether what stands where times belong are times."""
    parts = met.groupdict()
    single = [parts[name] for name in ("every", "left", "for") if parts.get(name)]
    return all(_ONE_TIME.fullmatch(time) for time in (*single, *_times_in(parts.get("times"))))


def _touches(here: Scan, met: re.Match[str], parts: dict[str, str | None]) -> TouchSaid:
    does = here.raw[met.start("does") : met.end("does")]
    does = "" if does.casefold() == "touch" else unquoted(does)
    minutes = parse_minutes(parts["for"]) if parts["for"] else 1
    skill = here.raw[met.start("who") : met.end("who")] if parts["who"] else ""
    skill = unquoted(skill) if skill.startswith('"') else here.names.skill_of.get(skill.casefold(), skill)
    if parts.get("every"):
        return TouchSaid(
            (Touch(parse_minutes(parts["every"] or ""), minutes, does, False, skill),), every=True
        )
    if parts.get("left"):
        return TouchSaid((Touch(parse_minutes(parts["left"] or ""), minutes, does, True, skill),))
    if parts.get("half"):
        return TouchSaid((Touch(0, minutes, does, False, skill),), half=True)
    if edge := parts.get("edge"):
        return TouchSaid((Touch(0, minutes, does, edge.casefold().endswith("end"), skill),))
    times = _times_in(parts["times"])
    return TouchSaid(tuple(Touch(parse_minutes(time), minutes, does, False, skill) for time in times))


def _touch_words(said: TouchSaid) -> str:
    first = said.touches[0]
    if said.every:
        when = f"every {show_minutes(first.at)}"
    elif said.half:
        when = "half way"
    elif first.from_end:
        when = f"{show_minutes(first.at)} before the end" if first.at else "at the end"
    else:
        when = "at " + join_words(
            [show_minutes(each.at) if each.at else "the start" for each in said.touches]
        )
    who = f", {first.skill}" if first.skill else ""
    return f"{first.does or 'a visit'} {when}, {show_minutes(first.minutes)}{who}"


def cue(inline: Sequence[Rule]) -> Rule:
    """Return the rule that takes "until golden": up to a comma or to a phrase that one of the rules takes."""

    def take(here: Scan) -> Met | None:
        met = here.match(_UNTIL)
        if met is None:
            return None
        if quote := re.compile(QUOTED).match(here.text, met.end()):
            end, words = quote.end(), unquoted(here.raw[quote.start() : quote.end()])
        else:
            end = _cue_end(here, met.end(), inline)
            words = here.raw[met.end() : end].strip()
            if not words:
                return faulty(*met.span(), f"Say until when: {met[0].strip()} golden, for example.")
            end = met.end() + len(here.raw[met.end() : end].rstrip())
        return chip(Says.CUE, f"done when: {words}", (here.pos, end), words)

    return take


def _cue_end(here: Scan, start: int, inline: Sequence[Rule]) -> int:
    """Return where a cue ends; a phrase at its very beginning is part of it ("until 21 C on the probe")."""
    end = start
    was = here.pos, here.fresh, here.last
    words = list(_CUE_WORD.finditer(here.text, start))
    for at, word in enumerate(words):
        gap = here.text[end : word.start()]
        if "," in gap:
            break
        here.pos, here.fresh, here.last = word.start(), False, None
        if at and any(rule(here) for rule in inline):
            break
        end = word.end()
        if here.text[end : end + 1] == ",":
            break
    here.pos, here.fresh, here.last = was
    return end
