"""The parts of the advice by themselves: a sentence that wraps, marks of reasons, what contradicts itself."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.bridge import OpenPlan
from app.places.advice.marking import mark_of, steps_of
from app.places.advice.said import Said
from app.places.strip import Strip
from core.arrange.demand import Demand, DemandKind
from core.arrange.why.reason import Reason, ReasonKind, Share
from core.desk import Desk
from core.plan.edits import AddLink
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.support.builders import a_dish, a_link, a_plan, a_step

LONG_NAME = "Potatoes baked slowly in cream with celeriac, thyme and an unreasonable amount of garlic " * 4


def supper():
    soup = a_dish("soup", a_step("soup.cut", minutes=10), a_step("soup.boil", minutes=30))
    return a_plan(soup, links=(a_link("soup.cut", "soup.boil"),))


def test_a_long_sentence_wraps_and_asks_for_the_height_of_its_lines(qtbot) -> None:
    said = Said(LONG_NAME, "All meets by 19:30.")
    qtbot.addWidget(said)
    line = said.fontMetrics().lineSpacing()
    wide, narrow = said.heightForWidth(800), said.heightForWidth(240)
    assert wide < narrow
    lines = said._lines(240)[0]
    assert narrow >= (len(lines) + 1) * line
    assert " ".join(lines) == LONG_NAME.strip()
    assert all(said.fontMetrics().horizontalAdvance(each) <= 240 for each in lines)


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter])
def test_enter_chooses_and_means_it(qtbot, key: Qt.Key) -> None:
    said = Said("Serve later.")
    qtbot.addWidget(said)
    said.show()
    heard = []
    said.toggled.connect(heard.append)
    said.entered.connect(lambda: heard.append("entered"))
    QTest.keyClick(said, key)
    assert heard == [True, "entered"]
    QTest.keyClick(said, key)
    assert heard == [True, "entered", "entered"], "it is chosen already"


def test_a_reason_marks_every_step_it_names_from_first_to_last() -> None:
    plan = supper()
    timetable = on_paper(plan)
    share = Share("soup.boil", 0, -30, 0, 1)
    wish = Demand(DemandKind.MOST_WAIT, "soup.cut", "soup.boil")
    reason = Reason(ReasonKind.CROWD, (wish,), shares=(share,))
    assert steps_of(reason) == ("soup.boil", "soup.cut")
    mark = mark_of(plan, timetable, reason, "Too much.")
    assert mark.steps == ("soup.boil", "soup.cut")
    assert mark.start == timetable.at["soup.cut", 0].start
    assert mark.end == timetable.at["soup.boil", 0].end


def test_a_reason_about_nothing_on_the_timetable_marks_nothing() -> None:
    reason = Reason(ReasonKind.WISHES, (Demand(DemandKind.OPENS),))
    assert mark_of(supper(), on_paper(supper()), reason, "") is None
    named = Reason(ReasonKind.WISHES, (Demand(DemandKind.SERVED, "soup.boil"),))
    assert mark_of(supper(), Timetable(), named, "") is None


def test_waits_that_contradict_each_other_are_said_at_once_wherever_the_cook_is(qtbot) -> None:
    steps = (a_step("soup.cut", minutes=10), a_step("soup.boil", minutes=30), a_step("soup.salt", minutes=5))
    soup = a_dish("soup", *steps)
    links = (a_link("soup.cut", "soup.boil"), a_link("soup.boil", "soup.salt"))
    plan = a_plan(soup, links=links)
    opened = OpenPlan(Desk(plan, timetable=on_paper(plan)))
    strip = Strip()
    qtbot.addWidget(strip)
    strip.show()
    strip.show_plan(opened)
    assert not strip.against.isVisible()
    assert opened.apply(AddLink(a_link("soup.cut", "soup.salt", most=20)))
    strip.show_plan(opened)
    assert strip.against.isVisible()
    head = strip.against.head.text()
    assert head.startswith("These cannot all hold. That is 10 min too much")
    assert len(head) < 120, "what is long is folded away"
    assert not strip.against.rest.isVisible()
    strip.against.more.click()
    assert strip.against.rest.isVisible()
    assert all(strip.against.rest.text().count(each) for each in strip.against.gist.rest)
    assert strip.state.text() == "waits and times contradict each other"
    QTest.mouseClick(strip.understood, Qt.MouseButton.LeftButton)
    assert not strip.against.isVisible(), "what has been read makes room"
    strip.show_plan(opened)
    assert not strip.against.isVisible()
    opened.undo()
    opened.apply(AddLink(a_link("soup.cut", "soup.salt", most=15)))
    strip.show_plan(opened)
    assert strip.against.isVisible(), "another contradiction is news"
    opened.undo()
    strip.show_plan(opened)
    assert not strip.against.isVisible()
    assert strip.state.text() != "waits and times contradict each other"


def test_what_is_only_not_placed_yet_is_no_clash_and_what_comes_next_is_seen_from_its_beginning(qtbot) -> None:
    soup = a_dish("soup", a_step("soup.cut", minutes=10), a_step("soup.boil", minutes=30))
    plan = a_plan(soup, links=(a_link("soup.cut", "soup.boil"),))
    strip = Strip()
    qtbot.addWidget(strip)
    strip.resize(900, 60)
    strip.show()

    def said(timetable: Timetable) -> tuple[str, str]:
        strip.show_plan(OpenPlan(Desk(plan, timetable=timetable)), datetime(2020, 1, 1, tzinfo=UTC))
        return strip.state.text(), strip.state.property("mood")

    assert said(Timetable()) == ("not arranged yet", "waiting")
    whole = on_paper(plan)
    assert said(whole) == ("everything meets", "meets")
    assert strip.next.text().startswith("next: ")
    strip.resize(560, 60)
    strip.layout().activate()
    assert strip.next.shown != strip.next.text()
    assert strip.next.shown.startswith("next: "), "the time is what is read first"
    first = tuple(each for each in whole.placed if each.step == "soup.cut")
    assert said(replace(whole, placed=first)) == ("1 step not placed yet", "waiting")
    wrong = tuple(replace(each, start=-5) if each.step == "soup.cut" else each for each in whole.placed)
    assert said(replace(whole, placed=wrong))[1] == "clash"
