"""The phone page on every screen and at every size of text, on the night of a change of the clock, and on paper."""

from __future__ import annotations

import base64
import io
from unicodedata import normalize

import pytest
from pypdf import PdfReader

from core.hatch.marks import marked
from core.sheets.lines import Act
from tests.core.hatch.handed import of_change
from tests.core.sheets.reading import on_the_wall
from tests.phone.supper import at_harvest, lines, tick_all_before


def squeezed(text):
    """Return text without its spaces, ligatures (ff) as letters."""
    return "".join(normalize("NFKC", text).split())


SIZES = [(390, 844), (320, 568), (820, 1180), (1180, 820), (844, 390)]


@pytest.mark.parametrize("text", [100, 200])
@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_off_or_small_on_any_screen_at_any_size_of_text(opened, size, text):
    page = at_harvest(opened, -62, size=size, text=text, cook="Head cook")
    page.tap("#catch-up")
    page.tap("[data-start='1']")
    page.run("pass(61)")
    page.until("!document.querySelector('#ringing').hidden", 3)
    assert page.run("document.documentElement.scrollWidth") <= size[0]
    out = page.run(
        "[...document.querySelectorAll('body *')].filter((each) => each.offsetParent && !each.closest('.unseen'))"
        ".map((each) => [each.outerHTML.slice(0, 80), each.getBoundingClientRect()])"
        ".filter(([, box]) => box.left < -1 || box.right > innerWidth + 1).map(([words]) => words)"
    )
    assert out == []
    small = page.run(
        "[...document.querySelectorAll('button, select, .line label, summary')].filter((each) => each.offsetParent)"
        ".map((each) => [each.id || each.className || each.textContent, each.getBoundingClientRect()])"
        ".filter(([, box]) => box.width < 44 || box.height < 44).map(([name]) => name)"
    )
    assert small == []
    # words are not broken inside a button
    for name in ("done", "undo", "silence"):
        rows = page.run(
            "(() => { const range = document.createRange();"
            f"range.selectNodeContents(document.querySelector('#{name}'));"
            "return new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size; })()"
        )
        assert rows == 1, name
    assert page.run("parseFloat(getComputedStyle(document.querySelector('.line .what')).fontSize)") >= 18 * text / 100


def test_done_is_in_reach_however_long_the_card(opened):
    serve = next(each for each in lines() if each.line.act is Act.SERVE and len(each.line.served) == 7)
    page = at_harvest(opened, serve.line.at)
    tick_all_before(page, serve.line.at)
    assert page.run("document.querySelector('.now').dataset.serves") == "yes"
    box = page.run("document.querySelector('#done').getBoundingClientRect().toJSON()")
    card = page.run("document.querySelector('.now').getBoundingClientRect().toJSON()")
    assert card["bottom"] > 844  # the card itself goes on below the screen
    assert box["bottom"] <= 844
    assert box["height"] >= 76


def test_the_night_of_the_change_counts_true_minutes(opened):
    plan, timetable, sheet = of_change("back in London")
    each = next(one for one in marked(plan, sheet) if one.line.at == -300)
    page = opened(plan, timetable, -300)
    # 04:00 GMT is five hours after 00:00 BST, which the clock calls four hours
    assert page.run("document.querySelector('#clock').textContent") == f"{on_the_wall(plan, -300):%H:%M}" == "00:00"
    assert page.run("document.querySelector('#left').textContent") == "serve 04:00, in 5 h 00 min"
    assert each.line.clock == "00:00"


def test_on_paper_it_is_black_on_white_and_every_line_is_there(opened):
    page = at_harvest(opened, -62, look="dark")
    tick_all_before(page, -62)
    page.ask("Emulation.setEmulatedMedia", media="print", features=[{"name": "prefers-color-scheme", "value": "dark"}])
    colours = "(() => { const its = getComputedStyle(document.body); return [its.color, its.backgroundColor]; })()"
    assert page.run(colours) == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]
    page.ask("Emulation.setEmulatedMedia", media="", features=[{"name": "prefers-color-scheme", "value": "dark"}])
    found = page.ask("Page.printToPDF", paperWidth=8.27, paperHeight=11.69)
    text = " ".join(
        " ".join(each.extract_text().split()) for each in PdfReader(io.BytesIO(base64.b64decode(found["data"]))).pages
    )
    text = squeezed(text)
    lost = [each.line.does for each in lines() if squeezed(each.line.does) not in text]
    assert lost == []
    assert "Cookingnow" not in text
