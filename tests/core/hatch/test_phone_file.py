"""The phone page as a file: what it may do, what stands in it; how it works is tried in a browser (tests/phone)."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from dataclasses import replace
from datetime import timedelta
from hashlib import sha256
from html.parser import HTMLParser

import pytest

from core.hatch.marks import marked
from core.hatch.phone import as_page
from core.hatch.phone_data import as_json
from core.measures.clock import Moment
from core.plan.plan import Plan
from core.sheets.lines import Act
from core.sheets.run_sheet import run_sheet
from core.sheets.whose import who_of
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.hatch.handed import ALL, WORDS, of
from tests.core.sheets.reading import on_the_wall
from tests.support.builders import a_bench, a_step
from tests.support.hostile import hostile_plan


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


@pytest.mark.parametrize("name", ["harvest", "hall"])
def test_what_cooks_alone_runs_until_it_is_taken_out_and_its_end_is_known(name: str) -> None:
    plan, timetable, sheet = of(name)
    data = json.loads(page_of(name).inside["script"][0])
    outs = {
        (each.line.step, each.line.load): each.line.at
        for each in marked(plan, sheet)
        if each.line.act in {Act.OUT, Act.OFF, Act.READY}
    }
    told = {each["mark"]: each for each in data["lines"]}
    ends = {mark for each in data["lines"] for mark in each["ends"]}
    alone = 0
    for each in marked(plan, sheet):
        runs = told[each.mark.hex]["runs"]
        if each.line.begins and each.line.step and each.line.act.value != "DO":
            placed = timetable.at[each.line.step, each.line.load]
            assert runs == outs.get(placed.key, placed.end) - placed.start
            assert placed.length - 5 < runs <= placed.length  # taking out takes minutes of its own
            alone += 1
        elif runs is not None:
            assert each.line.station
            assert runs in {heating.end - heating.start for heating in timetable.heatings}
    assert alone > 20
    assert ends <= {mark for mark, each in told.items() if each["runs"]}
    assert len(ends) > 10


@pytest.mark.parametrize("name", ALL)
def test_a_timer_is_ended_by_what_comes_after_it(name: str) -> None:
    plan, timetable, sheet = of(name)
    data = json.loads(page_of(name).inside["script"][0])["lines"]
    told, by_mark = {each["mark"]: each for each in data}, {each.mark.hex: each for each in marked(plan, sheet)}
    for each in data:
        for mark in each["ends"]:
            begun = told[mark]
            # the line that ends it comes at its end or later, and is of the same load, of what follows it, or of
            # the station that was heated
            assert each["at"] >= begun["at"] + begun["runs"] * 60_000
            ender, ended = by_mark[each["mark"]].line, by_mark[mark].line
            if ended.step is None:
                spots = timetable.at[ender.step, ender.load].spots
                assert ended.station in {spot.station for spot in spots}
            elif ended.step != ender.step:
                assert ended.step in {link.before for link in plan.links_to[ender.step]}
    # all that runs is ended by some line, but what waits until it is served
    ended = {mark for each in data for mark in each["ends"]}
    left = [told[mark] for mark in told if told[mark]["runs"] and mark not in ended]
    last = {step for step in plan.steps if not any(link.before == step for link in plan.menu.links)}
    assert all(by_mark[each["mark"]].line.step in last for each in left)
    # and says where it cooks, as the sheet does
    for each in data:
        line = by_mark[each["mark"]].line
        if each["runs"] and line.step is not None and line.details and each["place"]:
            assert each["place"] in line.details


def test_whose_lines_are_told_name_by_name_though_a_name_holds_a_comma() -> None:
    names = ["Ann, Ben and Co", "Ann", "Ben"]
    assert who_of("Ann, Ben", names) == ["Ann", "Ben"]
    assert who_of("Ann, Ben and Co, Ben", names) == ["Ann, Ben and Co", "Ben"]
    assert who_of("nobody free, Ann", names) == ["nobody free", "Ann"]
    assert who_of("a stranger, Ben", names) == ["a stranger", "Ben"]
    assert who_of("", names) == []


def test_every_name_that_may_be_chosen_has_lines_and_every_line_a_name_that_may_be_chosen() -> None:
    plan, timetable, _sheet = of("harvest")
    cooks = tuple(replace(cook, name=f"{cook.name}, the {cook.id}") for cook in plan.kitchen.cooks)
    plan = replace(plan, kitchen=replace(plan.kitchen, cooks=cooks))
    page = Reader(as_page(plan, timetable, run_sheet(plan, timetable)).decode())
    data = json.loads(page.inside["script"][0])["lines"]
    assert {name for each in data for name in each["who"]} == {cook.name for cook in cooks}


def test_a_page_for_one_cook_is_everybodys_with_that_cook_chosen() -> None:
    plan, timetable, sheet = of("harvest")
    whole, one = (json.loads(Reader(as_page(plan, timetable, sheet, cook=cook).decode()).inside["script"][0])
                  for cook in ("", "Novice"))  # fmt: skip
    assert (whole.pop("cook"), one.pop("cook")) == ("", "Novice")
    assert whole == one


NEWER = re.compile(
    r"\.at\(|\.findLast|\.toSorted|\.toReversed|\.toSpliced|structuredClone|Object\.groupBy|Object\.hasOwn|\?\?=|\|\|="
    r"|replaceAll\(|\.showModal|popover|@container|@layer|@scope|:has\(|color-mix|\d[dsl]vh|aspect-ratio|text-wrap"
    r"|static \{|#[a-z]+ =|inert"
)
"""What Safari 15.0 does not bear, or not surely (from memory of its release notes)."""


def test_nothing_newer_than_safari_15_is_used() -> None:
    page = page_of("harvest")
    for text in (*page.inside["style"], page.inside["script"][1]):
        assert not NEWER.search(text), NEWER.search(text)
    style = page.inside["style"][0]
    assert "-webkit-appearance: none" in style  # the bare name came with 15.4


def test_ticks_are_kept_under_the_plan_whatever_its_name_and_hour() -> None:
    plan, timetable, _sheet = of("harvest")

    def key(plan: Plan) -> str:
        page = Reader(as_page(plan, timetable, run_sheet(plan, timetable)).decode())
        return str(json.loads(page.inside["script"][0])["key"])

    marked_one = replace(plan, mark="0f6ae3b2-6a0e-4f0c-9a55-2f1d5c3b7e10")
    later = Moment(plan.plating.local + timedelta(days=1), plan.plating.zone)
    assert key(marked_one) == key(replace(marked_one, name="Other")) == key(replace(marked_one, plating=later))
    assert len({key(plan), key(marked_one), key(replace(plan, name="Other"))}) == 3
    assert key(plan) == key(replace(plan, name=plan.name.upper()))


@pytest.mark.parametrize("kind", WORDS)
def test_hostile_words_stand_in_it_as_words(kind: str) -> None:
    plan = hostile_plan(WORDS[kind])
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
