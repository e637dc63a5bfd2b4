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
_HANDS = pattern(rf"(?:with |by )?(?P<n>{COUNT}|both) (?:cooks?|people|persons?|of (?:us|you)(?! \w))\b")
_SKILL = pattern(
    r"(?:by (?:an? )?|needs (?:an? )?|skill )?(?P<skill>[^\W\d_][\w -]*?)(?: cook)?(?= *(?:$|[,\d\"]))"
)
_SKILL_NAMED = pattern(rf"skill (?P<skill>{QUOTED}|[^\W\d_][\w-]*)")
_NO_TIME = r"(?!(?:m|mins?|minutes?|h|hrs?|hours?|s|secs?|seconds?|d|days?)\b)"
_LOADS = pattern(
    rf"(?P<pieces>\d{{1,6}})(?: (?P<noun>{_NO_TIME}[a-z]+(?:[ -][a-z]+){{0,2}}?))?,? (?:in )?"
    r"(?:(?P<per>\d{1,6}) (?:at a time|(?:a|per|to a|to the|each|in a) (?:load|batch))|loads of (?P<of>\d{1,6})"
    r"|(?P<batches>\d{1,3}) (?:batches|lots|loads)(?! of))\b"
)
_BATCHES = pattern(
    rf"(?:in )?(?P<many>{COUNT}) (?:batches|lots|loads)(?: of (?P<each>{COUNT}))?\b"
    rf"(?: ?,)?(?: each\b)?"
)
_AT_A_TIME = pattern(rf"{COUNT} at a time\b")
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
_OFTEN = r"(?:every )?(?:now and (?:then|again)|so often)|occasionally|from time to time|at times"
_HOUR = r"hourly|every hour|every half[- ](?:an )?hour|every quarter of an hour"
_HANDLES = r"(?:turn|shake|stir|flip|toss|swap|rotate|baste|move|check)"
_TOUCHES: Sequence[re.Pattern[str]] = (
    pattern(rf"{_DOES} (?:at |@ ?)(?:{_WHEN}){_FOR}{_BY}{_STOP}"),
    pattern(rf"{_DOES} (?P<half>half ?way)(?: through)?{_FOR}{_BY}{_STOP}"),
    pattern(rf"{_DOES} (?:(?P<often>{_OFTEN})|(?P<hour>{_HOUR})){_STOP}"),
    pattern(rf"(?P<does>{_HANDLES}(?: [^\W\d_]+){{0,3}}?) (?P<half>once)(?: or twice)?{_STOP}"),
    pattern(rf"{_DOES} every (?P<every>{_SOME}){_FOR}{_BY}{_STOP}"),
    pattern(rf"{_DOES} {_LEFT}{_FOR}{_BY}{_STOP}"),
    pattern(rf"{_DOES} (?:for |in )?(?:the )?(?:last|final) (?P<left>{_SOME}){_STOP}"),
    pattern(rf"(?:at (?:{_WHEN})|every (?P<every>{_SOME})|{_LEFT}){_FOR}{_BY}:? {_DOES}{_STOP}"),
)
_ONE_TIME = pattern(TIME)
_AND_AT = pattern(r" and (?:at )?")
_MAY_TOUCH = pattern(
    r"[^,]*?(?:\bat |@|\bevery |\bend\b|half ?way|now and|so often|occasionally|"
    r"from time|hourly|\bonce\b|\b(?:last|final) )|\""
)
_UNTIL = pattern(r"(?:until|till|done when) ")
_CUE_WORD = re.compile(r"[^\s,]+")


@dataclass(frozen=True, slots=True)
class TouchSaid:
    """Touches of one phrase. `every`: again and again after so many minutes; `half`: half way through.

    `often`: now and then, as often as the length asks.
    """

    touches: tuple[Touch, ...]
    every: bool = False
    half: bool = False
    often: bool = False


TURN = TouchSaid((Touch(0, 1, "turn"),), half=True)
"""What a step of two sides is turned by."""


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
        hands = 2 if met["n"].casefold() == "both" else count_in(met["n"])
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
        return _batches(here)
    batches = int(met["batches"] or 0)
    per = int(met["per"] or met["of"] or 0) or -(-int(met["pieces"]) // max(1, batches))
    if not per or (batches and int(met["pieces"]) < batches):
        return None
    noun = met["noun"] or "pieces"
    said = LoadsSaid(int(met["pieces"]), per)
    found = Chip(Says.LOADS, f"{met['pieces']} {noun}, {per} a load", *met.span(), said)
    kept = not here.fresh and met["noun"] and noun.casefold() not in _PLAIN_NOUN
    return Met(met.end(), (found,), said=(met.span("noun"),) if kept else ())


def _batches(here: Scan) -> Met | None:
    """Take "in 4 batches of 6", and "4 batches", which are pieces of their own; how many "6 at a time" are is asked."""
    if here.begins:
        return None
    if met := here.match(_AT_A_TIME):
        if here.has(Says.LOADS):
            return None
        return faulty(
            *met.span(), f"Of how many in all? Write 18 pieces {met[0]}, or put the words in quotes."
        )
    met = here.match(_BATCHES)
    if met is None:
        return None
    per = count_in(met["each"]) if met["each"] else 1
    many = count_in(met["many"])
    if not per or not many:
        return None
    words = f"{plural(many, 'load')} of {per}" if met["each"] else plural(many, "load")
    return chip(Says.LOADS, words, met.span(), LoadsSaid(many * per, per))


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
    minutes = parse_minutes(parts["for"] or "") if parts.get("for") else 1
    skill = here.raw[met.start("who") : met.end("who")] if parts.get("who") else ""
    skill = unquoted(skill) if skill.startswith('"') else here.names.skill_of.get(skill.casefold(), skill)
    if parts.get("every"):
        return TouchSaid(
            (Touch(parse_minutes(parts["every"] or ""), minutes, does, False, skill),), every=True
        )
    if parts.get("often"):
        return TouchSaid((Touch(0, minutes, does, False, skill),), often=True)
    if hour := parts.get("hour"):
        every = 30 if "half" in hour.casefold() else 15 if "quarter" in hour.casefold() else 60
        return TouchSaid((Touch(every, minutes, does, False, skill),), every=True)
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
    elif said.often:
        when = "now and then"
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
        if "," in gap or (at and word[0].casefold() == "then"):
            break
        here.pos, here.fresh, here.last = word.start(), False, None
        if at and any(rule(here) for rule in inline):
            break
        end = word.end()
        if here.text[end : end + 1] == ",":
            break
    here.pos, here.fresh, here.last = was
    return end
