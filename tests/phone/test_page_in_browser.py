"""The phone page in a real browser, by touch and by key, without a network: now and next, ticks, looks, words."""

from __future__ import annotations

import json

import pytest

from core.hatch.marks import marked
from core.sheets.lines import Act
from core.sheets.run_sheet import run_sheet
from core.timetable.on_paper import on_paper
from tests.core.hatch.handed import WORDS, of_change
from tests.core.sheets.reading import on_the_wall
from tests.phone.supper import PHONE, TABLET, at_harvest, first_after, lines, reload, row, tick_all_before
from tests.support.hostile import hostile_plan


@pytest.mark.parametrize("size", [PHONE, TABLET])
def test_now_is_the_first_line_that_is_not_done_and_next_are_those_after_it(opened, size):
    page = at_harvest(opened, -62, size=size)
    tick_all_before(page, -62)
    rest = [each for each in lines() if each.line.at >= -62]
    assert rest[0].line.at == -62
    assert page.run("document.querySelector('#now-head').textContent") == "Now"
    assert rest[0].line.does in page.run("document.querySelector('#now-line').textContent")
    assert page.run("document.querySelector('#clock').textContent") == "18:28"
    assert page.run("document.querySelector('#left').textContent") == "serve 19:30, in 1 h 02 min"
    shown = page.run("[...document.querySelectorAll('#next [data-next]')].map((box) => box.dataset.next)")
    assert shown == [each.mark.hex for each in rest[1 : len(shown) + 1]]
    assert len(shown) == 3  # two more that are due now, and the one after them


def test_what_is_served_next_is_told_dish_by_dish(opened):
    serve = next(each for each in lines() if each.line.act is Act.SERVE and len(each.line.served) == 7)
    page = at_harvest(opened, serve.line.at - 1)
    tick_all_before(page, serve.line.at - 15)
    page.run(f"while (ticks.open()[1].mark !== '{serve.mark.hex}') tick(ticks.open()[0].mark, clock.now())")
    told = page.run("document.querySelector('#next .line').innerText")
    assert all(each.dish in told for each in serve.line.served)
    assert "allergens" not in told


def test_a_touch_on_done_ticks_the_line_and_undo_takes_it_back(opened):
    page = at_harvest(opened, -62)
    tick_all_before(page, -62)
    first, second = [each for each in lines() if each.line.at >= -62][:2]
    page.tap("#done")
    assert page.run(f"document.querySelector(\"{row(first)}\").checked") is True
    assert second.line.does in page.run("document.querySelector('#now-line').textContent")
    assert "done 18:28" in page.run(f"document.querySelector('#l-{first.mark.hex}').textContent")
    page.tap("#undo")
    assert page.run(f"document.querySelector(\"{row(first)}\").checked") is False
    assert first.line.does in page.run("document.querySelector('#now-line').textContent")


def test_a_line_in_the_list_is_ticked_by_a_touch_anywhere_on_it(opened):
    page = at_harvest(opened, -62)
    each = first_after(-30)
    page.tap(f"#l-{each.mark.hex} .what")
    assert page.run(f"document.querySelector(\"{row(each)}\").checked") is True
    page.tap(f"#l-{each.mark.hex} .when")
    assert page.run(f"document.querySelector(\"{row(each)}\").checked") is False


def test_ticks_timers_and_the_look_are_there_after_a_reload(opened):
    page = at_harvest(opened, -62)
    tick_all_before(page, -62)
    page.tap("#done")
    page.tap("[data-start='5']")
    page.run("document.querySelector('#look').value = 'dark'")
    page.run("document.querySelector('#look').dispatchEvent(new Event('change', {bubbles: true}))")
    before = page.run("document.querySelectorAll('input[data-mark]:checked').length")
    reload(page)
    assert page.run("document.querySelectorAll('input[data-mark]:checked').length") == before
    assert before == sum(each.line.at < -62 for each in lines()) + 1
    assert page.run("document.querySelectorAll('#timers li').length") == 1
    assert page.run("document.documentElement.dataset.look") == "dark"
    assert page.run("document.querySelector('#forgets').hidden") is True


def test_what_is_kept_stands_under_the_plan_and_another_plan_does_not_find_it(opened):
    page = at_harvest(opened, -62)
    page.tap("#done")
    plan, timetable, _sheet = of_change("back in London")
    other = opened(plan, timetable, -100)
    assert other.run("document.querySelectorAll('input[data-mark]:checked').length") == 0
    assert len(other.run("Object.keys(localStorage)")) == 2


def test_what_was_kept_in_a_broken_way_is_left_aside(opened):
    page = at_harvest(opened, -62)
    mark, plating = lines()[0].mark.hex, page.run("sheet.plating")
    of_another_kind = {
        "plating": plating, "ticks": {"no-such-line": 1, mark: "soon"}, "order": [7, [mark], None],
        "ended": {mark: [7]}, "timers": [{"end": "soon"}, None, {"mark": mark, "end": 1}], "who": 7, "look": "striped",
    }  # fmt: skip
    for kept in ("{", "7", "null", "[]", json.dumps(of_another_kind), json.dumps({"plating": "x", "ticks": {mark: 1}})):
        page.run(f"localStorage.setItem(sheet.key, {json.dumps(kept)})")
        reload(page)
        assert page.run("document.querySelectorAll('input[data-mark]:checked').length") == 0
        assert page.run("document.querySelectorAll('#timers li').length") == 0
        page.tap("#done")
        assert page.run("document.querySelectorAll('input[data-mark]:checked').length") == 1


def test_a_late_line_says_by_how_much(opened):
    page = at_harvest(opened, -62)
    tick_all_before(page, -62)
    page.run("pass(5 * 60)")
    page.until("document.querySelector('#now-head').textContent === 'Now, 5 min late'", 3)
    assert page.run("document.querySelector('#late').textContent") == "5 min late"
    assert page.run("document.querySelector('.now').dataset.due") == "late"


def test_the_keys(opened):
    page = at_harvest(opened, -62)
    ticked = "document.querySelectorAll('input[data-mark]:checked').length"
    page.press("Enter", ctrl=True)
    assert page.run(ticked) == 1
    page.press("z", ctrl=True)
    assert page.run(ticked) == 0
    # by Tab alone: the first thing that takes the focus is Done, then a box
    page.press("Tab")
    assert page.run("document.activeElement.id") == "done"
    page.press("Enter")
    assert page.run(ticked) == 1
    for place in ("undo", "catch-up"):
        page.press("Tab")
        assert page.run("document.activeElement.id") == place
    page.press("Tab")
    assert page.run("document.activeElement.type") == "checkbox"
    page.press(" ")
    assert page.run(ticked) == 2
    page.run("document.querySelector(\"[data-start='1']\").focus()")
    page.press("Enter")
    page.run("pass(61)")
    page.until("!document.querySelector('#ringing').hidden", 3)
    page.press("Escape")
    assert page.run("document.querySelector('#ringing').hidden") is True


def test_lines_of_one_cook(opened):
    page = at_harvest(opened, -62)
    names = page.run("[...document.querySelector('#who').options].map((each) => each.value)")
    assert len(names) == 4
    page.run(f"document.querySelector('#who').value = {json.dumps(names[2])}")
    page.run("document.querySelector('#who').dispatchEvent(new Event('change', {bubbles: true}))")
    seen = page.run("[...document.querySelectorAll('.all .line:not([hidden])')].map((each) => each.id)")
    wanted = [f"l-{each.mark.hex}" for each in lines() if not each.line.who or names[2] in each.line.who.split(", ")]
    assert seen == wanted
    assert 0 < len(wanted) < len(lines())
    reload(page)
    assert page.run("document.querySelector('#who').value") == names[2]


def test_forgetting_asks_once_more(opened):
    page = at_harvest(opened, -62)
    page.tap("#done")
    page.tap("#forget")
    assert page.run("document.querySelectorAll('input[data-mark]:checked').length") == 1
    page.tap("#forget")
    assert page.run("document.querySelectorAll('input[data-mark]:checked').length") == 0


@pytest.mark.parametrize(
    ("minute", "system", "look"),
    [(-120, "light", "light"), (-120, "dark", "dark"), (100, "light", "dark"), (-840, "light", "dark")],
)
def test_dark_at_night_and_where_the_phone_wants_it(opened, minute, system, look):
    # plating is at 19:30: 17:30, 21:10 and 5:30
    page = at_harvest(opened, minute, look=system)
    assert page.run("document.documentElement.dataset.look") == look


def test_times_are_the_kitchens_also_where_the_clock_is_put_back(opened):
    plan, timetable, sheet = of_change("back in New York")  # the browser's own zone is London
    each = next(one for one in marked(plan, sheet) if on_the_wall(plan, one.line.at).fold)
    page = opened(plan, timetable, each.line.at)
    assert page.run("document.querySelector('#clock').textContent") == f"{on_the_wall(plan, each.line.at):%H:%M}"
    note = page.run("document.querySelector('#zone').textContent")
    assert page.run("document.querySelector('#zone').hidden") is False
    assert "America/New_York" in note
    assert "05:00" in note  # serving there
    assert "10:00" in note  # and in London
    tick_all_before(page, each.line.at)
    assert each.line.does in page.run("document.querySelector('#now-line').textContent")


@pytest.mark.parametrize("size", [PHONE, TABLET])
def test_targets_are_large_and_nothing_is_wider_than_the_screen(opened, size):
    page = at_harvest(opened, -62, size=size)
    tick_all_before(page, -62)
    page.tap("[data-start='1']")
    page.run("pass(61)")
    page.until("!document.querySelector('#ringing').hidden", 3)
    small = page.run(
        "[...document.querySelectorAll('button, select, .line label, summary')].filter((each) => each.offsetParent)"
        ".map((each) => [each.id || each.className || each.textContent, each.getBoundingClientRect()])"
        ".filter(([, box]) => box.width < 44 || box.height < 44).map(([name]) => name)"
    )
    assert small == []
    assert page.run("document.documentElement.scrollWidth") <= size[0]
    assert page.run("parseFloat(getComputedStyle(document.querySelector('.line .what')).fontSize)") >= 18
    assert page.run("parseFloat(getComputedStyle(document.querySelector('.now .what')).fontSize)") >= 28


IN_A_BROWSER = (
    "quotes", "markup", "template", "long", "arabic", "newline", "escapes", "turning", "surrogate", "control",
    "overrides", "hash template", "style", "emoji",
)  # fmt: skip
"""What a browser could take for more than words; the file holds all of them as words (test_phone_file)."""


@pytest.mark.parametrize("kind", IN_A_BROWSER)
def test_hostile_words_are_shown_as_words_and_do_nothing(opened, kind):
    plan = hostile_plan(WORDS[kind])
    timetable = on_paper(plan)
    page = opened(plan, timetable, -40)
    page.tap("#done")
    page.tap("#done")
    page.run("sheet.lines.filter((line) => line.runs).forEach((line) => tick(line.mark, clock.now()))")
    page.run("pass(2 * 60 * 60)")
    page.until("!document.querySelector('#ringing').hidden", 3)  # the timer of what bakes names it
    assert page.run("window.hurt === undefined && document.querySelectorAll('img').length === 0")
    assert page.run("document.querySelectorAll('script').length") == 2
    assert page.run("document.documentElement.scrollWidth") <= 390
    name = page.run("sheet.name")
    assert page.run("document.querySelector('h1').textContent") == name
    assert page.run("document.title") == " ".join(name.split())
    shown = page.run("sheet.lines.map((line) => document.getElementById(`l-${line.mark}`).textContent)")
    wanted = marked(plan, run_sheet(plan, timetable))
    assert len(shown) == len(wanted)
    assert all(each.line.does in text for each, text in zip(wanted, shown, strict=True))
    assert any(" ".join(name.split()) in each.line.does for each in wanted)
