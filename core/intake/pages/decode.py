"""From the bytes of a file to its text, whatever its encoding claims to be."""

from __future__ import annotations

import codecs
import re

from core.measures.refusal import Refusal

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_DECLARED = re.compile(rb"""(?:charset|encoding)\s*=\s*["']?\s*([a-zA-Z0-9_.:-]{2,40})""", re.IGNORECASE)
# hex, rot13, zip and their like turn bytes into other bytes and are no encodings of text
_TEXT_ENCODING = re.compile(r"ascii|utf|iso8859|cp[0-9]|koi8|mac|shift_jis|euc_|gb[k0-9]|big5|tis")
_HEAD = 4096
_NOT_TEXT = (
    b"%PDF",
    b"\x89PNG",
    b"\xff\xd8\xff",
    b"PK\x03\x04",
    b"GIF8",
    b"SQLite format 3\x00",
    b"\x1f\x8b",
)
_LOST = "Some signs of the page could not be read and are shown as \N{REPLACEMENT CHARACTER}."


def decoded(data: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    """Return the text of a file and remarks about it; raise Refusal for what is no text at all."""
    if data.startswith(_NOT_TEXT):
        raise Refusal(f"{name} is no page of text; save the recipe as a web page or as plain text.")
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return _remarked(data.decode(encoding, errors="replace"))
    if b"\x00" in data[:_HEAD]:
        for encoding in ("utf-16-le", "utf-16-be"):
            at = 1 if encoding == "utf-16-le" else 0
            if data[at:_HEAD:2].count(0) > 0.6 * len(data[at:_HEAD:2]):
                return _remarked(data.decode(encoding, errors="replace"))
        raise Refusal(f"{name} is no page of text; save the recipe as a web page or as plain text.")
    try:
        return data.decode("utf-8"), ()
    except UnicodeDecodeError:
        pass
    declared = _declared(data)
    # the web reads Latin-1 as Windows-1252 (WHATWG Encoding Standard)
    if declared in ("", "utf-8", "iso8859-1", "ascii"):
        mostly = data.decode("utf-8", errors="replace")
        if declared == "utf-8" and mostly.count("\N{REPLACEMENT CHARACTER}") < 1 + len(mostly) // 100:
            return _remarked(mostly)
        declared = "cp1252"
    return _remarked(data.decode(declared, errors="replace"))


def _declared(data: bytes) -> str:
    met = _DECLARED.search(data, 0, _HEAD)
    if met is None:
        return ""
    try:
        codec = codecs.lookup(met[1].decode("ascii"))
    except (LookupError, ValueError):
        return ""
    return codec.name if _TEXT_ENCODING.match(codec.name) else ""


def _remarked(text: str) -> tuple[str, tuple[str, ...]]:
    return text, (_LOST,) if "\N{REPLACEMENT CHARACTER}" in text else ()
