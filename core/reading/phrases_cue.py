"""What food looks like when it is done: "until golden", "when a skewer comes out clean"."""

from __future__ import annotations

import re

from core.reading.phrases_text import AMOUNT, Found, Kind, even

_OPENING = re.compile(
    r"\b(?:until|till|'til)\b|\b(?:done|ready|cooked) (?:when|once)\b|\bwhen (?=the |a |it )|"
    r"\bto a(?= \w+ (?:paste|consistency|golden))"
)
_CLOSING = re.compile(
    rf"[.;:!?](?![0-9])|,|\(|\)| then\b| (?:about|around|roughly|for)? ?{AMOUNT} ?(?:-|to |min|hour|hr|sec|"
    rf"h\b|day)| for (?:about |around |at least )?{AMOUNT}|"
    r" and (?=(?:\w+ly )?(?:add|bake|boil|chill|cool|cook|cover|drain|fold|leave|let|pour|put|place|remove|"
    r"roast|season|serve|set|simmer|slice|spoon|stir|take|tip|transfer|turn|whisk)\b)|"
    r" before (?=\w+ing\b)|, about| - | while\b"
)
_NOT_LOOKS = re.compile(
    r"(?:until|till) (?:needed|required|ready to|you|serving|the (?:guests|party|meal|next day|morning)|"
    r"tomorrow|dinner|supper|lunch|plating|just before)"
)


def cues(text: str) -> tuple[Found, ...]:
    """Return every cue of doneness of a text in its order; the value is its words."""
    plain = even(text)
    found: list[Found] = []
    for met in _OPENING.finditer(plain):
        start = met.start()
        if _NOT_LOOKS.match(plain, start) or (found and start < found[-1].end) or _leads(plain, met):
            continue
        stop = _CLOSING.search(plain, met.end())
        end = stop.start() if stop else len(plain)
        words = text[start:end].rstrip()
        if len(words) > len(met[0].rstrip()):
            found.append(Found(Kind.CUE, words, start, start + len(words), words))
    return tuple(found)


def _leads(plain: str, met: re.Match[str]) -> bool:
    """Tell a condition that opens the next work ("When the oil is hot, add ...") from a sign of doneness."""
    return met[0].startswith("when") and not plain[: met.start()].strip(" ,.;")
