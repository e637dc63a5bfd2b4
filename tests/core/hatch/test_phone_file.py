"""The phone page as a file: what it may do, what stands in it; how it works is tried in a browser (tests/phone)."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from hashlib import sha256
from html.parser import HTMLParser

import pytest

from core.hatch.marks import marked
from core.hatch.phone import as_page
from core.hatch.phone_data import as_json
from core.sheets.run_sheet import run_sheet
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.hatch.handed import ALL, of
from tests.core.sheets.reading import on_the_wall
from tests.support.builders import a_bench, a_step
from tests.support.hostile import HOSTILE, hostile_plan


class Reader(HTMLParser):
    """Gathers what a browser would: elements, attributes, the text of each, scripts and styles apart."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.inside: dict[str, list[str]] = {"script": [], "style": [], "title": []}
        self.rows: dict[str, str] = {}
        self._open = ""
        self._row = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        about = dict(attrs)
        self.found.append((tag, about))
        if tag in self.inside:
            self._open = tag
            self.inside[tag].append("")
        if tag == "li" and (about.get("id") or "").startswith("l-"):
            self._row = about["id"] or ""
            self.rows[self._row] = ""

    def handle_endtag(self, tag: str) -> None:
        if tag == self._open:
            self._open = ""
        if tag == "li":
            self._row = ""

    def handle_data(self, data: str) -> None:
        if self._open:
            self.inside[self._open][-1] += data
        elif self._row:
            self.rows[self._row] += data


def page_of(name: str) -> Reader:
    return Reader(as_page(*of(name)).decode())


@pytest.mark.parametrize("name", ["harvest", "hall"])
def test_nothing_outside_is_asked_for(name: str) -> None:
    page = page_of(name)
    for tag, about in page.found:
        assert tag not in {"iframe", "object", "embed", "base", "form", "img", "audio", "video", "a"}
        assert not any(each.startswith("on") for each in about), about
        assert "src" not in about
        assert "style" not in about
    assert [about["href"] for tag, about in page.found if tag == "link"] == ["data:,"]
    texts = [*page.inside["style"], page.inside["script"][1]]
    reaching = re.compile(r"https?:|url\(|@import|fetch\(|XMLHttp|sendBeacon|innerHTML|eval\(|WebSocket")
    assert not any(reaching.search(text) for text in texts)


def test_the_policy_lets_this_script_and_this_style_run_and_nothing_else() -> None:
    page = page_of("harvest")
    [policy] = [
        about["content"] for tag, about in page.found if about.get("http-equiv") == "Content-Security-Policy"
    ]
    assert policy is not None
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    hashes = {
        kind: f"'sha256-{b64encode(sha256(page.inside[kind][-1].encode()).digest()).decode()}'"
        for kind in ("script", "style")
    }
    assert rules == {
        "default-src": "'none'", "script-src": hashes["script"], "style-src": hashes["style"], "img-src": "data:",
        "base-uri": "'none'", "form-action": "'none'",
    }  # fmt: skip


@pytest.mark.parametrize("name", ALL)
def test_every_line_stands_in_it_once_at_its_time(name: str) -> None:
    plan, _timetable, sheet = of(name)
    page = page_of(name)
    data = json.loads(page.inside["script"][0])
    lines = marked(plan, sheet)
    assert [each["mark"] for each in data["lines"]] == [each.mark.hex for each in lines]
    assert len(page.rows) == len(lines)
    for each, told in zip(lines, data["lines"], strict=True):
        at = on_the_wall(plan, each.line.at)
        assert told["at"] == int(at.timestamp() * 1000)
        row = page.rows[f"l-{each.mark.hex}"]
        assert row.startswith(f"{at:%H:%M}")
        for words in (each.line.does, each.line.tminus, each.line.who, *each.line.details):
            assert words in row
        for served in each.line.served:
            assert served.dish in row


def test_what_cooks_alone_runs_as_long_as_it_is_placed_and_its_end_is_known() -> None:
    plan, timetable, sheet = of("harvest")
    data = json.loads(page_of("harvest").inside["script"][0])
    told = {each["mark"]: each for each in data["lines"]}
    ends = {told[each["ends"]]["mark"] for each in data["lines"] if each["ends"]}
    alone = 0
    for each in marked(plan, sheet):
        runs = told[each.mark.hex]["runs"]
        if each.line.begins and each.line.step and each.line.act.value != "DO":
            assert runs == timetable.at[each.line.step, each.line.load].length
            alone += 1
        elif runs is not None:
            assert each.line.station
            assert runs in {heating.end - heating.start for heating in timetable.heatings}
    assert alone > 20
    assert ends <= {mark for mark, each in told.items() if each["runs"]}
    assert len(ends) > 10


def test_ticks_are_kept_under_the_plan_and_its_day() -> None:
    plan, timetable, sheet = of("harvest")
    key = json.loads(page_of("harvest").inside["script"][0])["key"]
    assert key.endswith("/2026-09-26")
    assert json.loads(Reader(as_page(plan, timetable, sheet).decode()).inside["script"][0])["key"] == key
    assert json.loads(page_of("hall").inside["script"][0])["key"].split("/")[1] != key.split("/")[1]


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_words_stand_in_it_as_words(kind: str) -> None:
    plan = hostile_plan(HOSTILE[kind])
    timetable = on_paper(plan)
    sheet = run_sheet(plan, timetable)
    calm = hostile_plan("Stew")
    calm_page = Reader(as_page(calm, on_paper(calm), run_sheet(calm, on_paper(calm))).decode())
    page = Reader(as_page(plan, timetable, sheet).decode())
    # the same elements, whatever the words (a word may be told twice or once, so options and items may differ)
    frame = {"script", "style", "meta", "img", "section", "h1", "h2", "h3", "button", "label", "input"}
    tags, calm_tags = ([tag for tag, _ in each.found if tag in frame] for each in (page, calm_page))
    assert tags == calm_tags
    data = json.loads(page.inside["script"][0])
    assert data["name"] == sheet.name == page.inside["title"][0]
    for each in marked(plan, sheet):
        assert each.line.does in page.rows[f"l-{each.mark.hex}"]
    assert page.inside["script"][1] == calm_page.inside["script"][1]
    assert page.inside["style"] == calm_page.inside["style"]


@pytest.mark.parametrize("words", ["</script>", "<!--", "]]>", "&lt;", "\u2028\u2029"])
def test_no_data_can_end_its_element(words: str) -> None:
    text = as_json({"a": words})
    assert not set("<>&\u2028\u2029") & set(text)
    assert json.loads(text) == {"a": words}


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert as_page(*of("harvest")) == as_page(*of("harvest"))


def test_a_plan_without_a_timetable_says_so() -> None:
    plan = a_bench(a_step("soup.boil"))
    text = as_page(plan, Timetable(), run_sheet(plan, Timetable())).decode()
    assert "Nothing is placed yet" in text
