"""What long sentences come to: a head to scan, the rest to unfold, no word lost."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.places.folding import Folding
from app.places.gist import SHORT, Gist, gist_of, titled
from app.places.one_line import OneLine

CHAIN = (
    "These cannot all hold: Beans: Soak ends at least 8 h before Beans: Simmer begins; Beans: Simmer takes 60 min; "
    "Beans: Simmer begins at 10:00. That is 15 min too much; give one of them 15 min more room."
)
CROWD = (
    "Gratin: Bake on the upper rack and Pork: Roast stand in the oven together from 17:00 to 18:20 and take 3 racks; "
    "the oven has 2: 1 rack too many for 1 h 20 min."
)


def test_what_is_short_is_its_own_head() -> None:
    assert gist_of("Serve everything 10 min later, at 19:40.") == Gist("Serve everything 10 min later, at 19:40.")
    assert gist_of("  ") == Gist("")


def test_a_list_of_what_cannot_hold_has_what_is_said_of_it_as_its_head() -> None:
    found = gist_of(CHAIN, lists=True)
    assert found.head == "These cannot all hold. That is 15 min too much; give one of them 15 min more room."
    assert found.rest == (
        "Beans: Soak ends at least 8 h before Beans: Simmer begins",
        "Beans: Simmer takes 60 min",
        "Beans: Simmer begins at 10:00",
    )


def test_a_name_cut_short_ends_no_sentence() -> None:
    cut = CHAIN.replace("Beans: Soak ends", "Beans: Soak overnight in a great deal of cold w… ends")
    found = gist_of(cut, lists=True)
    assert found.head == "These cannot all hold. That is 15 min too much; give one of them 15 min more room."
    assert found.rest[0].endswith("cold w… ends at least 8 h before Beans: Simmer begins")


def test_a_long_sentence_is_cut_at_its_last_semicolon_and_not_inside_a_name() -> None:
    found = gist_of(CROWD)
    assert found.head.endswith("and take 3 racks.")
    assert found.rest == ("The oven has 2: 1 rack too many for 1 h 20 min.",)


def test_the_first_of_several_sentences_is_the_head() -> None:
    more = "No timetable can have it wait less than 20 min. "
    found = gist_of(f"The gratin waits 55 min until it is served. {more}{more}")
    assert found.head == "The gratin waits 55 min until it is served."
    assert len(found.rest) == 2


def test_a_title_is_what_stands_before_the_colon() -> None:
    assert titled("Calm at the end: " + "2 min of hands in the last hour, " * 4).head == "Calm at the end"
    assert titled("Calm: short.") == Gist("Calm: short.")


@given(st.lists(st.text("abc :;.", min_size=1, max_size=60), min_size=1, max_size=6).map(" ".join), st.booleans())
def test_no_word_is_lost_and_none_comes(text: str, lists: bool) -> None:
    def words(said: str) -> list[str]:
        return sorted(re.findall(r"[a-z]+", said.lower()))

    assert words(gist_of(text, lists).whole) == words(text)
    assert words(titled(text).whole) == words(text)


@pytest.fixture
def folding(qtbot) -> Folding:
    made = Folding()
    qtbot.addWidget(made)
    made.resize(420, 200)
    made.show()
    return made


def test_the_rest_is_unfolded_by_mouse_and_by_key(folding: Folding) -> None:
    folding.show_gist(gist_of(CHAIN, lists=True))
    assert len(folding.head.text()) <= SHORT
    assert not folding.rest.isVisible()
    QTest.mouseClick(folding.more, Qt.MouseButton.LeftButton)
    assert folding.rest.text().splitlines()[1] == "–  Beans: Simmer takes 60 min"
    assert folding.rest.isVisible()
    assert folding.more.text() == "less"
    folding.more.setFocus()
    QTest.keyClick(folding.more, Qt.Key.Key_Space)
    assert not folding.rest.isVisible()
    folding.show_gist(Gist("Short."))
    assert not folding.more.isVisible()


def test_the_same_words_shown_again_stay_unfolded(folding: Folding) -> None:
    folding.show_gist(gist_of(CHAIN, lists=True))
    folding.more.click()
    folding.show_gist(gist_of(CHAIN, lists=True))
    assert folding.rest.isVisible()


def test_one_line_is_cut_in_the_middle_and_whole_in_the_tip(qtbot) -> None:
    line = OneLine()
    qtbot.addWidget(line)
    line.setText(CROWD)
    line.resize(300, 24)
    line.show()
    assert line.fontMetrics().horizontalAdvance(line.shown) <= 300
    assert line.shown.startswith("Gratin: Bake")
    assert line.shown.endswith("20 min.")
    assert line.toolTip() == CROWD
