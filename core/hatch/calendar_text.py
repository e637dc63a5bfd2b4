"""Content lines of an iCalendar file (RFC 5545, section 3.1): escaped, folded, ended by CR LF.

Written here and not by a library, so that the tests can read the file back with a library that had no part in it.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime

_MOST_OCTETS = 75
_MOST_LATER = _MOST_OCTETS - 1
"""A line that goes on begins with one space, which counts."""
_ESCAPED = {"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"}


def escaped(text: str) -> str:
    """Return TEXT (3.3.11): backslash, semicolon and comma escaped, a new line as backslash n.

    Other control characters, which no value may hold (3.1), become the replacement character.
    """
    one_kind = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(_ESCAPED.get(sign, sign if _may_stand(sign) else "\N{REPLACEMENT CHARACTER}") for sign in one_kind)


def folded(line: str) -> bytes:
    """Return a line as UTF-8 of at most 75 octets a piece; no character is cut in two (3.1)."""
    pieces: list[bytes] = []
    now, room = b"", _MOST_OCTETS
    for sign in line:
        octets = sign.encode()
        if len(now) + len(octets) > room:
            pieces.append(now)
            now, room = b"", _MOST_LATER
        now += octets
    return b"\r\n ".join([*pieces, now]) + b"\r\n"


def joined(lines: Iterable[str]) -> bytes:
    """Return content lines as the octets of a file."""
    return b"".join(folded(line) for line in lines)


def utc_form(at: datetime) -> str:
    """Return an aware time in UTC: 20260926T183000Z (3.3.5, form 2)."""
    return f"{at.astimezone(UTC):%Y%m%dT%H%M%SZ}"


def local_form(at: datetime) -> str:
    """Return a time as its own clock shows it: 20260926T193000 (3.3.5, form 3, whose zone stands beside it)."""
    return f"{at:%Y%m%dT%H%M%S}"


def offset_of_seconds(seconds: int) -> str:
    """Return +0100 for 3600 s; -0000 does not exist, and seconds are told only where there are some (3.3.14)."""
    sign, left = ("-", -seconds) if seconds < 0 else ("+", seconds)
    hours, left = divmod(left, 3600)
    minutes, rest = divmod(left, 60)
    return f"{sign}{hours:02}{minutes:02}" + (f"{rest:02}" if rest else "")


def _may_stand(sign: str) -> bool:
    return sign == "\t" or not (ord(sign) < 32 or ord(sign) == 127 or 0xD800 <= ord(sign) <= 0xDFFF)
