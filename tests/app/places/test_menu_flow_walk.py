"""Walking and pointing in a flow's picture, without a window: what comes next, what is under a point."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QFont, QFontMetrics

from app.places.menu.flow_picture import FlowPicture
from app.places.menu.flow_walk import Way, from_link, from_step, next_step
from core.plan.ids import StepId
from core.plan.menu import LinkKind
from tests.support.builders import a_dish, a_link, a_plan, a_step

A, B, C, D, X = (StepId(each) for each in ("d.a", "d.b", "d.c", "d.d", "x.x"))


@pytest.fixture
def picture(qapp) -> FlowPicture:
    dish = a_dish("d", *(a_step(each) for each in (A, B, C, D)))
    other = a_dish("x", a_step(X))
    links = (a_link(A, B), a_link(A, C), a_link(B, D), a_link(C, D, 5, 10), a_link(X, D))
    return FlowPicture.of(a_plan(dish, other, links=links), dish, QFontMetrics(QFont("Noto Sans", 10)), 900)


def test_every_step_and_link_is_reached_by_arrows_alone(picture: FlowPicture) -> None:
    met, waiting = set(), [A]
    while waiting:
        here = waiting.pop()
        if here in met:
            continue
        met.add(here)
        link = picture.link(here) if isinstance(here, tuple) else None
        waiting += [from_link(picture, link, way) if link else from_step(picture, here, way) for way in Way]
    assert met == {A, B, C, D, X, *(link.key for link in picture.links)}


def test_down_and_up_follow_the_links(picture: FlowPicture) -> None:
    link = picture.link(from_step(picture, B, Way.DOWN))
    assert (link.before, link.after) == (B, D)
    assert (from_link(picture, link, Way.DOWN), from_link(picture, link, Way.UP)) == (D, B)
    assert from_step(picture, D, Way.DOWN) == D, "nothing follows"


def test_sideways_stays_among_what_stands_beside(picture: FlowPicture) -> None:
    assert {from_step(picture, B, way) for way in (Way.LEFT, Way.RIGHT)} <= {B, C, X}
    one = picture.link((A, B, LinkKind.END_TO_START))
    assert {from_link(picture, one, way) for way in (Way.LEFT, Way.RIGHT)} == {
        one.key,
        (A, C, LinkKind.END_TO_START),
    }


def test_while_drawing_the_next_step_needs_no_link(picture: FlowPicture) -> None:
    assert next_step(picture, A, Way.DOWN) in {B, C, X}
    assert next_step(picture, D, Way.UP) in {B, C, X}
    assert next_step(picture, A, Way.UP) in {A, X}


def test_what_is_under_a_point(picture: FlowPicture) -> None:
    box = picture.box(B)
    assert picture.step_at(box.center()) == B
    assert picture.draws_up(B, QPointF(box.center().x(), box.top() + 2))
    assert not picture.draws_up(B, box.center())
    link = picture.link((C, D, LinkKind.END_TO_START))
    assert picture.link_at(picture.label(link).center()) == link
    way = picture.way(link)
    assert picture.link_at(way[0] + (way[1] - way[0]) * 0.9) == link
    assert picture.link_at(QPointF(1, picture.size.height() - 1)) is None
    assert picture.words(link) == "5 min to 10 min"
    assert (picture.number(C), picture.number(X)) == (3, 0)
