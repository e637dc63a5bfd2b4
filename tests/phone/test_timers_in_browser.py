"""Timers of the phone page in a real browser, in true seconds around their end: they count, ring, and are silenced."""

from __future__ import annotations

import pytest

from core.hatch.marks import Marked
from core.sheets.lines import Act
from tests.core.hatch.handed import of_harvest
from tests.core.sheets.reading import on_the_wall
from tests.phone.supper import at_harvest, lines, reload, tick_all_before


def passive() -> tuple[Marked, Marked, int]:
    """Return a line that puts in what cooks alone, the line that takes it out, and its minutes."""
    _plan, timetable, _sheet = of_harvest()
    for each in lines():
        if each.line.act is Act.IN and each.line.at > -600:
            out = [
                one for one in lines()
                if one.line.act is Act.OUT and (one.line.step, one.line.load) == (each.line.step, each.line.load)
            ]  # fmt: skip
            if out and each.line.step:
                return each, out[0], timetable.at[each.line.step, each.line.load].length
    raise AssertionError("nothing goes in")


def test_ticking_what_goes_in_starts_its_timer_and_taking_out_ends_it(opened):
    into, out, length = passive()
    page = at_harvest(opened, into.line.at + 4)
    tick_all_before(page, into.line.at)
    page.tap(f"#l-{into.mark.hex} .what")
    [timer] = page.run("keep.held.timers.map((each) => [each.mark, (each.end - Date.now()) / 60000])")
    assert timer[0] == into.mark.hex
    assert timer[1] == pytest.approx(length, abs=0.2)  # from when it went in, not from when it was planned
    assert into.line.dish in page.run("document.querySelector('#timers').textContent")
    page.tap(f"#l-{out.mark.hex} .what")
    assert page.run("document.querySelectorAll('#timers li').length") == 0


def test_what_went_in_late_says_what_was_planned_and_can_be_put_sooner(opened):
    into, _out, length = passive()
    page = at_harvest(opened, into.line.at + 12)
    tick_all_before(page, into.line.at)
    page.tap(f"#l-{into.mark.hex} .what")
    plan = of_harvest()[0]
    ends = [f"{on_the_wall(plan, into.line.at + late + length):%H:%M}" for late in (12, 0, 7)]
    words = "document.querySelector('#timers .name').textContent"
    assert page.run(words).endswith(f"out at {ends[0]}, planned {ends[1]}")
    page.tap("#timers [data-less]")
    assert page.run(words).endswith(f"out at {ends[2]}, planned {ends[1]}")
    page.tap("#timers [data-more]")
    assert page.run(words).endswith(f"out at {ends[0]}, planned {ends[1]}")


def test_what_is_ticked_off_after_its_planned_end_starts_no_timer(opened):
    into, _out, length = passive()
    page = at_harvest(opened, into.line.at + length + 1)
    page.tap(f"#l-{into.mark.hex} .what")
    assert page.run(f"'{into.mark.hex}' in keep.held.ticks")
    assert page.run("document.querySelectorAll('#timers li').length") == 0


def test_a_timer_counts_down_rings_at_zero_counts_up_and_is_silenced(opened):
    page = at_harvest(opened, -62)
    tick_all_before(page, -62)
    page.tap("[data-start='1']")
    shown = "document.querySelector('#timers .left').textContent"
    assert page.run(shown) in {"1:00", "0:59"}
    page.run("pass(57)")
    page.until(f"['0:03', '0:02'].includes({shown})", 3)
    assert page.run("document.querySelector('#ringing').hidden") is True
    before = page.run("tones.length")
    page.until("!document.querySelector('#ringing').hidden", 6)  # through zero in true seconds
    page.until(f"tones.length > {before}", 3)
    assert {state for _pitch, state in page.run("tones")} == {"running"}
    assert page.run("document.querySelector('#rings').textContent") == "Timer of 1 min: time is over"
    page.until(f"{shown}.startsWith('+0:0')", 3)
    page.tap("#silence")
    assert page.run("document.querySelector('#ringing').hidden") is True
    quiet = page.run("tones.length")
    page.run("pass(30)")
    page.browser.listen(1.3)
    assert page.run("tones.length") == quiet
    assert page.run(shown).startswith("+0:3")  # how long ago it rang is still to be seen
    page.tap("#timers [data-end]")
    assert page.run("document.querySelectorAll('#timers li').length") == 0


def test_it_rings_again_until_somebody_comes_and_can_be_put_off(opened):
    page = at_harvest(opened, -62)
    tick_all_before(page, -62)
    page.tap("[data-start='1']")
    page.run("pass(61)")
    page.until("tones.length > 0", 3)
    once = page.run("tones.length")
    page.run("pass(7)")
    page.until(f"tones.length > {once}", 3)
    page.tap("#longer")
    assert page.run("document.querySelector('#ringing').hidden") is True
    assert page.run("document.querySelector('#timers .left').textContent") in {"2:00", "1:59"}


def test_a_timer_that_ran_out_while_the_page_was_shut_says_so_when_it_is_opened(opened):
    page = at_harvest(opened, -62)
    page.tap("[data-start='1']")
    page.until("document.querySelectorAll('#timers li').length === 1", 3)
    page.run("pass(600)")
    reload(page)
    page.until("!document.querySelector('#ringing').hidden", 5)
    assert page.run("document.querySelector('#mute').hidden") is False  # nobody has touched it, so it may not sound
    assert page.run("tones.length") == 0
    page.tap("#now-head")
    page.until("tones.length > 0", 3)
    assert page.run("document.querySelector('#mute').hidden") is True


def test_dishes_sound_apart(opened):
    page = at_harvest(opened, -62)
    page.tap("#now-head")
    page.until("sound.ready()", 3)
    heard = []
    for tone in (1, 2, 3):
        page.run(f"tones.length = 0; sound.ring({tone})")
        heard.append([pitch for pitch, _state in page.run("tones")])
    assert len({str(each) for each in heard}) == 3
    assert all(len(each) >= 2 for each in heard)


def test_the_next_line_chimes_when_its_time_comes(opened):
    first = next(each for each in lines() if each.line.at >= -62)
    page = at_harvest(opened, first.line.at - 0.5)
    tick_all_before(page, first.line.at)
    page.tap("#now-head")
    page.until("sound.ready()", 3)
    assert page.run("document.querySelector('#now-head').textContent") == "In 1 min"
    assert page.run("tones.length") == 0
    page.run("pass(31)")
    page.until("tones.length === 1", 3)
    assert page.run("document.querySelector('#now-head').textContent") == "Now"
    assert page.run("document.querySelector('#said').textContent").startswith("Now: ")
