"""Content lines by the words of RFC 5545 (the cases are those of its sections 3.1, 3.3.5, 3.3.11 and 3.3.14)."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from core.hatch.calendar_text import escaped, folded, joined, local_form, offset_of_seconds, utc_form


def test_escaped_as_in_the_design_table() -> None:
    # 3.3.11: backslash, semicolon, comma and the new line; a colon stays
    assert escaped("Rest; slice, plate\\serve\nnow: 1") == "Rest\\; slice\\, plate\\\\serve\\nnow: 1"


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_every_kind_of_new_line_is_one(end: str) -> None:
    assert escaped(f"one{end}two") == "one\\ntwo"


@pytest.mark.parametrize("sign", ["\x00", "\x07", "\x0b", "\x7f", "\ud800"])
def test_control_characters_do_not_stand(sign: str) -> None:
    assert escaped(f"a{sign}b") == "a\N{REPLACEMENT CHARACTER}b"


def test_a_tab_may_stand() -> None:
    assert escaped("a\tb") == "a\tb"


@pytest.mark.parametrize("sign", ["a", "é", "鍋", "\N{POT OF FOOD}"])
@pytest.mark.parametrize("length", [1, 74, 75, 76, 149, 150, 400])
def test_no_line_is_longer_than_75_octets_and_none_cuts_a_character(sign: str, length: int) -> None:
    line = sign * length
    out = folded(line)
    assert out.endswith(b"\r\n")
    pieces = out.removesuffix(b"\r\n").split(b"\r\n")
    assert all(len(piece) <= 75 for piece in pieces)
    assert all(piece.startswith(b" ") for piece in pieces[1:])
    for piece in pieces:
        piece.decode()  # a cut character would not decode
    assert unfolded(out) == line
    # no piece is folded sooner than it must be: the next character would not have fitted
    assert all(len(piece) + len(sign.encode()) > 75 for piece in pieces[:-1])


def test_a_line_of_75_octets_is_not_folded_and_one_of_76_is() -> None:
    assert folded("x" * 75).count(b"\r\n") == 1
    assert folded("x" * 76).count(b"\r\n") == 2


def test_unfolding_gives_the_example_of_the_standard() -> None:
    # 3.1
    text = b"DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n"
    assert unfolded(text) == "DESCRIPTION:This is a long description that exists on a long line."


def test_lines_are_joined_by_cr_lf_alone() -> None:
    out = joined(["A:1", "B:2"])
    assert out == b"A:1\r\nB:2\r\n"


def test_forms_of_time() -> None:
    # 3.3.5: New York is 5 h behind in November, 4 h in July
    eastern = ZoneInfo("America/New_York")
    assert utc_form(datetime(2007, 11, 4, 1, 30, tzinfo=eastern)) == "20071104T053000Z"
    assert utc_form(datetime(2007, 11, 4, 1, 30, tzinfo=eastern, fold=1)) == "20071104T063000Z"
    assert local_form(datetime(1998, 1, 18, 23, 0, tzinfo=UTC)) == "19980118T230000"


@pytest.mark.parametrize(
    ("seconds", "form"),
    [(0, "+0000"), (3600, "+0100"), (-18_000, "-0500"), (20_700, "+0545"), (-1, "-000001"), (37_800, "+1030")],
)
def test_offsets(seconds: int, form: str) -> None:
    # 3.3.14: the sign always stands, and -0000 is not allowed
    assert offset_of_seconds(seconds) == form
    assert re.fullmatch(r"[+-]\d{4}(\d{2})?", form)


def unfolded(out: bytes) -> str:
    """Return a line put together again, by the rule alone: CR LF and one space or tab go (3.1)."""
    return re.sub(r"\r\n[ \t]", "", out.decode()).removesuffix("\r\n")
