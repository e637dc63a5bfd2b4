from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.timeline.rows import Claim, packed, racked

claims = st.lists(
    st.builds(
        lambda start, length, units: Claim(start, start + length, units),
        st.integers(0, 60),
        st.integers(1, 30),
        st.integers(1, 3),
    ),
    max_size=14,
)


def peak(given_claims: list[Claim]) -> int:
    return max((sum(c.units for c in given_claims if c.start <= at < c.end) for at in range(95)), default=0)


@given(claims, st.integers(1, 5))
def test_racks_are_given_once_and_no_more_than_needed(asked: list[Claim], room: int) -> None:
    given_rows, count = racked(asked, room)
    assert count == max(room, peak(asked))
    taken: set[tuple[int, int]] = set()
    for claim, runs in zip(asked, given_rows, strict=True):
        rows = [row + more for row, span in runs for more in range(span)]
        assert len(rows) == len(set(rows)) == claim.units
        cells = {(row, at) for row in rows for at in range(claim.start, claim.end)}
        assert not cells & taken
        taken |= cells


@given(claims)
def test_packed_bars_never_overlap_and_take_the_fewest_rows(asked: list[Claim]) -> None:
    single = [Claim(each.start, each.end) for each in asked]
    rows, count = packed(single)
    assert count == max(1, peak(single))
    cells = [(row, at) for row, c in zip(rows, single, strict=True) for at in range(c.start, c.end)]
    assert len(cells) == len(set(cells))


def test_neighbouring_rows_are_taken_where_there_are_any() -> None:
    given_rows, _count = racked([Claim(0, 30), Claim(0, 10), Claim(5, 30), Claim(12, 20, 2)], 5)
    assert given_rows[3] == [(3, 2)], "row 1 is free too, but stands alone"


def test_a_chain_keeps_its_row() -> None:
    rows, _count = packed([Claim(0, 10), Claim(0, 10), Claim(10, 20)], [None, None, 1])
    assert rows[2] == rows[1] == 1
