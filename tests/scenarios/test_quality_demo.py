"""The harvest supper as it is arranged is no worse than as it was made by hand, wish by wish."""

from __future__ import annotations

import pytest

import demo_data
from core.arrange import Effort, Fit, arrange
from core.arrange.outcome import WishKind
from core.arrange.quality import reached_of
from core.arrange.quality_again import again, weighed
from core.arrange.quality_counted import counted
from core.arrange.quality_measure import measure
from core.arrange.reading import read
from core.arrange.watch import Watch
from core.intake.text_plan import read_text
from core.timetable.clashes import clashes
from tests.support.hand_made import hand_made

ENOUGH = 8.0


@pytest.fixture(scope="module")
def supper():
    """Twelve dishes by three cooks, who want a calm end as much as freshness, as whoever wrote it by hand did."""
    return read_text(demo_data.text_of("harvest_supper.toml"))


def test_no_wish_is_worse_than_by_hand(supper):
    outcome = arrange(supper, Effort(work=ENOUGH))
    assert outcome.fit is Fit.MEETS
    by_hand, own = reached_of(supper, hand_made(supper)), reached_of(supper, outcome.timetable)
    worse = [(each.wish, each.reached, by_hand.of(each.wish).reached) for each in own.wishes]
    assert [each for each in worse if each[1] > each[2]] == []
    assert own.of(WishKind.FRESH).reached < by_hand.of(WishKind.FRESH).reached
    assert own.of(WishKind.SLEEP).reached < by_hand.of(WishKind.SLEEP).reached


def test_begun_from_the_hand_made_one_it_only_gets_better(supper):
    start = hand_made(supper)
    found = again(supper, start, Watch(Effort(work=2.0), None))
    assert clashes(supper, found) == ()
    assert weighed(supper, measure(supper, found)) < weighed(supper, measure(supper, start))


def test_neither_beats_what_counting_proves(supper):
    least = counted(read(supper))
    for wish, amount in {each.wish: each.reached for each in reached_of(supper, hand_made(supper)).wishes}.items():
        assert least[wish] <= amount
    # the plating alone takes three people three minutes, and most of the rest cannot be sooner
    assert least[WishKind.CALM] == 51
