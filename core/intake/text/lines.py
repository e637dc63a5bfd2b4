"""Which line of a text each value stands in, so that a fault can name it. The text has been read before."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator

from core.intake.text.faults import Place

# ---------------------------------------------------------------- TOML

_TOKEN = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}|' + r"'''.*?'{3,5}|" + r'"(?:[^"\\\n]|\\.)*"|' + r"'[^'\n]*'|"
    r"#[^\n]*|\n|\[\[|\]\]|[\[\]{},=]|[^\s\[\]{},=#\"']+",
    re.DOTALL,
)


def toml_lines(text: str) -> dict[Place, int]:
    """Return the line of each key and of each item of a list in a TOML text that tomllib has read."""
    found: dict[Place, int] = {}
    counts: dict[Place, int] = {}
    table: Place = ()
    for number, pieces in _statements(text):
        if pieces[0][0] in ("[", "[["):
            table = _header(pieces, counts)
            for length in range(1, len(table) + 1):
                found.setdefault(table[:length], number)
            continue
        at = next((at for at, (piece, _line) in enumerate(pieces) if piece == "="), len(pieces))
        place = (*table, *_keys("".join(piece for piece, _line in pieces[:at])))
        found.setdefault(place, number)
        _value(pieces[at + 1 :], 0, place, found)
    return found


def _statements(text: str) -> Iterator[tuple[int, list[tuple[str, int]]]]:
    """Yield each header and each assignment as its line and its pieces with their lines."""
    line, depth = 1, 0
    pieces: list[tuple[str, int]] = []
    for met in _TOKEN.finditer(text):
        piece = met[0]
        if piece == "\n":
            if pieces and depth == 0:
                yield pieces[0][1], pieces
                pieces = []
            line += 1
            continue
        if not piece.startswith("#"):
            header = not pieces and piece in ("[", "[[")
            header = header or (bool(pieces) and pieces[0][0] in ("[", "[[") and depth == 0)
            depth += 0 if header else _DEPTH.get(piece, 0)
            pieces.append((piece, line))
        line += piece.count("\n")
    if pieces:
        yield pieces[0][1], pieces


_DEPTH = {"[": 1, "{": 1, "[[": 2, "]": -1, "}": -1, "]]": -2}


def _header(pieces: list[tuple[str, int]], counts: dict[Place, int]) -> Place:
    keys = _keys("".join(piece for piece, _line in pieces[1:-1]))
    if pieces[0][0] == "[":
        return _resolved(keys, counts)
    place = _resolved(keys, counts, last=False)
    counts[place] = counts.get(place, -1) + 1
    return (*place, counts[place])


def _resolved(keys: Place, counts: dict[Place, int], last: bool = True) -> Place:
    """Return keys with the number of the newest table of each list of tables on the way."""
    place: Place = ()
    for at, key in enumerate(keys):
        place = (*place, key)
        if place in counts and (last or at < len(keys) - 1):
            place = (*place, counts[place])
    return place


def _keys(dotted: str) -> Place:
    """Return the parts of a dotted key."""
    found: list[str | int] = []
    value: object = tomllib.loads(f"{dotted} = 0")
    while isinstance(value, dict):
        key, value = next(iter(value.items()))
        found.append(key)
    return tuple(found)


def _value(pieces: list[tuple[str, int]], at: int, place: Place, found: dict[Place, int]) -> int:
    """Note the lines inside a value that begins at a piece; return the piece after it."""
    pieces[:] = _single(pieces)
    if at >= len(pieces) or pieces[at][0] not in ("[", "{"):
        return at + 1
    table = pieces[at][0] == "{"
    number, at = 0, at + 1
    while at < len(pieces) and pieces[at][0] not in ("]", "}"):
        if pieces[at][0] == ",":
            number, at = number + 1, at + 1
            continue
        key: Place = (number,)
        line = pieces[at][1]
        if table:
            equals = next(where for where in range(at, len(pieces)) if pieces[where][0] == "=")
            key, at = _keys("".join(piece for piece, _line in pieces[at:equals])), equals + 1
        found.setdefault((*place, *key), line)
        at = _value(pieces, at, (*place, *key), found)
    return at + 1


def _single(pieces: list[tuple[str, int]]) -> list[tuple[str, int]]:
    """Return pieces with doubled brackets taken apart, as they are in a list of lists."""
    return [(part, line) for piece, line in pieces for part in (piece if piece in ("[[", "]]") else (piece,))]


# ---------------------------------------------------------------- JSON

_JSON_PIECE = re.compile(r'[\[\]{},:]|"(?:[^"\\]|\\.)*"|[^\s\[\]{},:"]+')


def json_lines(text: str) -> dict[Place, int]:
    """Return the line of each key and of each item of a list in a JSON text that json has read."""
    found: dict[Place, int] = {}
    _json_value(_json_pieces(text), (), found)
    return found


def _json_pieces(text: str) -> Iterator[tuple[str, int]]:
    """Yield brackets, commas, colons and values, each with its line."""
    at, line = 0, 1
    for met in _JSON_PIECE.finditer(text):
        line += text.count("\n", at, met.start())
        at = met.start()
        yield met[0], line


def _json_value(pieces: Iterator[tuple[str, int]], place: Place, found: dict[Place, int]) -> str:
    """Note the lines of the value that comes next; return the bracket found in its stead, if any."""
    piece, line = next(pieces)
    if piece in ("]", "}"):
        return piece
    found.setdefault(place, line)
    if piece == "{":
        _json_table(pieces, place, found)
    elif piece == "[":
        number = 0
        while _json_value(pieces, (*place, number), found) != "]" and next(pieces)[0] != "]":
            number += 1
    return ""


def _json_table(pieces: Iterator[tuple[str, int]], place: Place, found: dict[Place, int]) -> None:
    while (piece := next(pieces))[0] != "}":
        if piece[0] == ",":
            continue
        key = json.loads(piece[0])
        found.setdefault((*place, key), piece[1])
        next(pieces)
        _json_value(pieces, (*place, key), found)
