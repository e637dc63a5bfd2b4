"""Where the boxes of a flow lie: order, room, arrows that go around boxes."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.places.menu.flow_layout import Sizes, laid_out

SIZES = Sizes(100, 40, 10, 30, 12)


def boxes_apart(layout) -> bool:
    def overlap(one, other) -> bool:
        return (
            abs(one[0] - other[0]) < SIZES.width + SIZES.beside - 0.01 and abs(one[1] - other[1]) < SIZES.height
        )

    return not any(overlap(one, other) for one, other in combinations(layout.boxes.values(), 2))


def test_a_chain_goes_straight_down():
    layout = laid_out("abc", [("a", "b"), ("b", "c")], SIZES)
    assert [layout.boxes[node] for node in "abc"] == [(0, 0), (0, 70), (0, 140)]
    assert (layout.width, layout.height) == (100, 180)
    assert layout.arrows["a", "b"] == ((50, 40), (50, 70))


def test_what_leads_into_the_middle_stands_right_above_it():
    layout = laid_out("abcx", [("a", "b"), ("b", "c"), ("x", "c")], SIZES)
    assert layout.boxes["x"][1] == layout.boxes["b"][1]


def test_a_long_arrow_goes_around_the_box_between():
    layout = laid_out("abc", [("a", "b"), ("b", "c"), ("a", "c")], SIZES)
    left, top = layout.boxes["b"]
    for (x1, y1), (x2, y2) in pairwise(layout.arrows["a", "c"]):
        for share in range(11):
            x, y = x1 + (x2 - x1) * share / 10, y1 + (y2 - y1) * share / 10
            assert not (left < x < left + SIZES.width and top < y < top + SIZES.height)


def test_nothing_is_laid_out_to_nothing():
    layout = laid_out("", [], SIZES)
    assert (layout.boxes, layout.arrows, layout.width, layout.height) == ({}, {}, 0, 0)


@pytest.mark.parametrize("arrows", [[("a", "b"), ("b", "a")], [("a", "a")], [("a", "b"), ("b", "c"), ("c", "a")]])
def test_circles_end(arrows):
    layout = laid_out("abc", arrows, SIZES)
    assert set(layout.boxes) == set("abc")
    assert boxes_apart(layout)


@given(st.lists(st.tuples(st.integers(0, 11), st.integers(0, 11)), max_size=24))
def test_boxes_never_overlap_and_arrows_go_down(pairs):
    nodes = [f"n{number:02}" for number in range(12)]
    arrows = [(nodes[min(pair)], nodes[max(pair)]) for pair in pairs if pair[0] != pair[1]]
    layout = laid_out(nodes, arrows, SIZES)
    assert boxes_apart(layout)
    for one, other in arrows:
        assert layout.boxes[one][1] < layout.boxes[other][1]
        assert layout.arrows[one, other][0][1] == layout.boxes[one][1] + SIZES.height
        assert layout.arrows[one, other][-1][1] == layout.boxes[other][1]
    assert all(0 <= x <= layout.width - SIZES.width + 0.01 for x, _y in layout.boxes.values())
    assert layout == laid_out(nodes, arrows, SIZES)
