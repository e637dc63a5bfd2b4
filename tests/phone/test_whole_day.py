"""A cook's day with the phone page in a real browser: come late to it, undo, share it, lose the storage, print it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from core.hatch.marks import marked
from core.hatch.phone import as_page
from core.measures.clock import Moment
from core.plan.edits import RenamePlan
from core.sheets.lines import Act
from core.sheets.run_sheet import run_sheet
from tests.core.hatch.handed import of_harvest
from tests.phone.supper import at_harvest, first_after, lines, reload, row, tick_all_before

TICKED = "document.querySelectorAll('input[data-mark]:checked').length"
TIMERS = "keep.held.timers.map((each) => each.mark)"
NOW = "document.querySelector('#now-line').textContent"


def shown(page, selector):
    return page.run(f"document.querySelector({selector!r}).offsetParent !== null")


# ---- coming late, taking back


def test_who_has_cooked_on_without_the_page_ticks_all_that_is_late_at_once_and_takes_it_back_at_once(opened):
    page = at_harvest(opened, -62)
    late = [each for each in lines() if each.line.at <= -64]
    assert page.run("document.querySelector('#behind-said').textContent") == (
        f"{len(late)} lines up to 18:28 are not ticked off."
    )
    page.tap("#catch-up")
    assert page.run(TICKED) == len(late)
    assert not shown(page, "#behind")
    assert first_after(-62).line.does in page.run(NOW)
    # when they were done nobody knows; what still cooks ends as planned
    assert page.run(f"document.querySelector('#l-{late[0].mark.hex} .done-at').textContent") == "done"
    data = {each["mark"]: each for each in page.run("sheet.lines")}
    ends = {mark: page.run(f"keep.held.timers.find((each) => each.mark === '{mark}').end") for mark in page.run(TIMERS)}
    assert len(ends) >= 3
    assert all(end == data[mark]["at"] + data[mark]["runs"] * 60_000 for mark, end in ends.items())
    assert page.run("document.querySelector('#undo').getAttribute('aria-label')") == f"Undo: {len(late)} lines"
    page.tap("#undo")
    assert page.run(TICKED) == 0
    assert page.run(TIMERS) == []


def test_two_late_lines_are_no_reason_to_tick_all(opened):
    page = at_harvest(opened, -62)
    tick_all_before(page, -62)
    assert not shown(page, "#behind")
    page.run("pass(20 * 60)")
    page.run("draw(clock.now())")
    assert not shown(page, "#behind")  # 20 minutes late is late, not away


def test_undo_of_taking_out_brings_its_timer_back(opened):
    into = next(each for each in lines() if each.line.act is Act.IN and each.line.at == -50)
    out = next(each for each in lines() if each.line.act is Act.OUT and each.line.step == into.line.step)
    page = at_harvest(opened, -45)
    tick_all_before(page, -50)
    page.tap(f"#l-{into.mark.hex} .what")
    before = page.run("keep.held.timers")
    page.tap(f"#l-{out.mark.hex} .what")
    assert page.run(TIMERS) == []
    page.tap("#undo")
    assert page.run("keep.held.timers") == before
    page.tap("#undo")
    assert page.run(TIMERS) == []
    # by the box itself too, and across a reload
    page.tap(f"#l-{into.mark.hex} .what")
    page.tap(f"#l-{out.mark.hex} .what")
    reload(page)
    page.tap(f"#l-{out.mark.hex} .what")
    assert page.run(TIMERS) == [into.mark.hex]


def test_what_has_no_line_for_its_end_is_over_when_the_next_step_begins(opened):
    culture, chill = lines()[1], lines()[3]
    assert (culture.line.act, chill.line.act, chill.line.at) == (Act.START, Act.IN, culture.line.at + 1200)
    page = at_harvest(opened, culture.line.at)
    page.tap(f"#l-{culture.mark.hex} .what")
    assert page.run(TIMERS) == [culture.mark.hex]
    page.tap(f"#l-{chill.mark.hex} .what")
    assert page.run(TIMERS) == [chill.mark.hex]


def test_the_oven_is_hot_when_the_first_food_goes_in(opened):
    on = next(each for each in lines() if each.line.act is Act.ON and each.line.station and each.line.at == -288)
    bread = next(each for each in lines() if each.line.act is Act.IN and each.line.at == -263)
    page = at_harvest(opened, -288)
    tick_all_before(page, -288)
    page.tap(f"#l-{on.mark.hex} .what")
    assert page.run("document.querySelector('#timers .until').textContent") == "hot at 15:07"
    page.run("pass(25 * 60)")
    page.until("!document.querySelector('#ringing').hidden", 3)
    page.tap("#silence")
    page.tap(f"#l-{bread.mark.hex} .what")
    assert page.run(TIMERS) == [bread.mark.hex]
    told = page.run("document.querySelector('#timers .name').textContent")
    assert "Oven, 230 °C, 2 racks" in told
    assert told.endswith("out at 15:32")


def test_a_day_that_is_done_folds_up_and_opens_at_a_touch(opened):
    page = at_harvest(opened, -62)
    days = "[...document.querySelectorAll('.day details')].map((each) => each.open)"
    assert page.run(days) == [True] * 6
    tick_all_before(page, -62)
    assert page.run(days) == [False] * 5 + [True]
    page.tap(".day summary")
    page.tap("#done")
    assert page.run(days) == [True] + [False] * 4 + [True]
    page.tap(f"#l-{lines()[0].mark.hex} .what")
    assert page.run("document.querySelector('.day .count').textContent") == "2 of 3 done"


# ---- timers


def test_a_timer_goes_on_through_a_reload_and_two_of_them_say_which(opened):
    page = at_harvest(opened, -62)
    tick_all_before(page, -62)
    page.tap("[data-start='1']")
    page.tap("[data-start='3']")
    page.run("pass(30)")
    reload(page)
    left = "[...document.querySelectorAll('#timers .left')].map((each) => each.textContent)"
    first, second = page.run(left)
    assert first in {"0:30", "0:29", "0:28"}
    assert second in {"2:30", "2:29", "2:28"}
    page.tap("#now-head")
    page.until("sound.ready()", 3)
    page.run("pass(160)")
    page.until("!document.querySelector('#ringing').hidden", 3)
    said = page.run("document.querySelector('#rings').textContent")
    assert said == "Timer of 1 min: time is over; Timer of 3 min: time is over"
    page.until("new Set(tones.map(([pitch]) => pitch)).size === 2", 4)
    page.until("document.querySelector('#rings-up').textContent.startsWith('+2:1')", 3)


def test_many_that_ring_at_once_leave_room_for_the_button(opened):
    page = at_harvest(opened, -62)
    for minutes in (1, 3, 5, 10):
        page.tap(f"[data-start='{minutes}']")
    page.run("pass(700)")
    page.until("!document.querySelector('#ringing').hidden", 3)
    assert page.run("document.querySelector('#rings').textContent").endswith("; and 2 more")
    box = page.run("document.querySelector('#silence').getBoundingClientRect().toJSON()")
    assert box["top"] > 0
    assert box["bottom"] <= 844


def test_every_dish_of_the_menu_sounds_otherwise_and_the_cooks_own_timers_too(opened):
    page = at_harvest(opened, -62)
    page.tap("#now-head")
    page.until("sound.ready()", 3)
    tones = sorted(set(page.run("sheet.lines.map((line) => line.tone)")) | {15, 17, 19, 20})
    assert len(tones) == len(of_harvest()[0].menu.dishes) + 1 + 4
    heard = [page.run(f"(tones.length = 0, sound.ring({tone}), tones.map(([pitch]) => pitch))") for tone in tones]
    assert len({str(each) for each in heard}) == len(tones)


# ---- one cook's page


def test_a_page_made_for_one_cook_opens_with_that_cooks_lines_and_all_are_a_touch_away(opened):
    page = at_harvest(opened, -62, cook="Able helper")
    own = [f"l-{each.mark.hex}" for each in lines() if not each.line.who or "Able helper" in each.line.who.split(", ")]
    seen = "[...document.querySelectorAll('.all .line:not([hidden])')].map((each) => each.id)"
    assert page.run(seen) == own
    assert page.run("document.querySelector('#whose-said').textContent") == "Lines of Able helper"
    page.tap("#whose-other")
    assert len(page.run(seen)) == len(lines())
    assert page.run("document.querySelector('#whose-other').textContent") == "Only Able helper's"
    reload(page)
    assert len(page.run(seen)) == len(lines())
    page.tap("#whose-other")
    assert page.run(seen) == own
    # another's page of the same plan begins with the other's lines, and knows the ticks
    page.tap("#done")
    other = at_harvest(opened, -62, cook="Novice")
    assert other.run("document.querySelector('#who').value") == "Novice"
    assert other.run(TICKED) == 1


def test_everybodys_page_says_nothing_of_whose(opened):
    page = at_harvest(opened, -62)
    assert not shown(page, "#whose")


# ---- the same lines again


def test_a_corrected_sheet_made_anew_keeps_the_ticks_of_the_lines_that_it_still_has(opened):
    plan, timetable, _sheet = of_harvest()
    plan = replace(plan, mark="0f6ae3b2-6a0e-4f0c-9a55-2f1d5c3b7e10")
    page = opened(plan, timetable, -62)
    page.tap("#catch-up")
    page.tap("#done")
    ticked = set(page.run("Object.keys(keep.held.ticks)"))
    # renamed, ten minutes later, other words, and one dish less
    gone = plan.menu.dishes[-1]
    dishes = tuple(replace(dish, name=f"{dish.name}!") for dish in plan.menu.dishes[:-1])
    later = Moment(plan.plating.local + timedelta(minutes=10), plan.plating.zone)
    steps = {step.id for step in gone.steps}
    links = tuple(each for each in plan.menu.links if not {each.before, each.after} & steps)
    other = RenamePlan("Supper, corrected")(replace(plan, plating=later))
    other = replace(other, menu=replace(other.menu, dishes=dishes, links=links), decisions=type(plan.decisions)())
    placed = replace(timetable, placed=tuple(each for each in timetable.placed if each.step not in steps))
    again = opened(other, placed, -62)
    known = {each.mark.hex for each in marked(other, run_sheet(other, placed))}
    assert set(again.run("Object.keys(keep.held.ticks)")) == ticked & known
    assert again.run(TICKED) == len(ticked & known) > 100
    assert again.run("document.querySelector('h1').textContent") == "Supper, corrected"


@pytest.mark.parametrize(("days", "kept"), [(1, True), (-3, True), (364, False)])
def test_a_supper_put_off_keeps_its_ticks_and_next_years_begins_without(opened, days, kept):
    plan, timetable, _sheet = of_harvest()
    page = opened(plan, timetable, -62)
    page.run("keep.held.look = 'dark'")
    page.tap("#done")
    other = replace(plan, plating=Moment(plan.plating.local + timedelta(days=days), plan.plating.zone))
    again = opened(other, timetable, -62)
    assert again.run(TICKED) == kept
    assert again.run("document.documentElement.dataset.look") == "dark"


# ---- what a phone may lack


BLOCKED = (
    "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });"
)


def test_where_nothing_may_be_stored_the_page_works_and_says_that_it_forgets(opened):
    page = at_harvest(opened, -62, before=BLOCKED)
    assert shown(page, "#forgets")
    assert "ticks are gone when it is closed" in page.run("document.querySelector('#forgets').textContent")
    page.tap("#done")
    page.tap("[data-start='1']")
    page.run("pass(61)")
    page.until("!document.querySelector('#ringing').hidden", 3)
    assert page.run(TICKED) == 1
    reload(page)
    assert page.run(TICKED) == 0


def test_a_storage_that_is_full_is_said_when_it_happens(opened):
    full = "Storage.prototype.setItem = function () { throw new DOMException('full', 'QuotaExceededError'); };"
    page = at_harvest(opened, -62)
    assert not shown(page, "#forgets")
    page.run(full)
    page.tap("#done")
    page.until("document.querySelector('#forgets').offsetParent", 2)
    assert page.run(TICKED) == 1


NO_LOCK = "Object.defineProperty(navigator, 'wakeLock', { value: undefined });"
A_LOCK = """Object.defineProperty(navigator, 'wakeLock', { value: { asked: 0, request(kind) {
  this.asked += 1; this.kind = kind; const lock = new EventTarget(); this.lock = lock; return Promise.resolve(lock);
} } });"""
REFUSED = (
    "Object.defineProperty(navigator, 'wakeLock', { value: { request: () => Promise.reject(new Error('low')) } });"
)


def test_the_screen_is_kept_on_where_that_can_be_asked_for(opened):
    page = at_harvest(opened, -62, before=A_LOCK)
    note = "document.querySelector('#awake').textContent"
    assert page.run(note) == "Touch the page once, then the screen is kept on."
    page.tap("#now-head")
    page.until(f"{note} === 'The screen is kept on while this page is open.'", 2)
    page.tap("#now-head")
    assert page.run("[navigator.wakeLock.asked, navigator.wakeLock.kind]") == [1, "screen"]
    # another page was looked at meanwhile: the system lets go, and coming back asks again
    page.run("navigator.wakeLock.lock.dispatchEvent(new Event('release'))")
    page.run("document.dispatchEvent(new Event('visibilitychange'))")
    page.until("navigator.wakeLock.asked === 2", 2)


@pytest.mark.parametrize("lacking", [NO_LOCK, REFUSED])
def test_where_it_cannot_the_page_says_so(opened, lacking):
    page = at_harvest(opened, -62, before=lacking)
    page.tap("#now-head")
    page.until("document.querySelector('#awake').textContent.startsWith('This browser cannot keep the screen on')", 2)


def test_without_scripts_it_is_a_list_that_can_be_read_and_ticked(browser, tmp_path):
    from tests.support.chromium import Page

    file = tmp_path / "page.html"
    file.write_bytes(as_page(*of_harvest()))
    page = Page(browser)
    page.ask("Emulation.setScriptExecutionDisabled", value=True)
    page.open(file.as_uri())
    assert page.run("document.documentElement.dataset.alive") is None
    assert page.run("[...document.querySelectorAll('.alive')].every((each) => each.offsetParent === null)")
    seen = page.run("[...document.querySelectorAll('.line')].filter((each) => each.offsetParent).length")
    assert seen == len(lines())
    each = first_after(-62)
    page.tap(f"#l-{each.mark.hex} .what")
    assert page.run(f"document.querySelector(\"{row(each)}\").checked") is True
    assert page.run("document.documentElement.scrollWidth") <= 390
    page.close()
