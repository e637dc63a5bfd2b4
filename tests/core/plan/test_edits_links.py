"""Links made by hand: waits that contradict each other are refused with the chain named."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.measures.refusal import Refusal
from core.plan.edits import AddLink, ChangeLink, RemoveLink, require_possible
from core.plan.ids import StepId
from core.plan.menu import LinkKind
from tests.support.builders import a_dish, a_link, a_plan, a_step

CUT, BOIL, SERVE = StepId("soup.cut"), StepId("soup.boil"), StepId("soup.serve")


def a_soup(*links):
    dish = a_dish("soup", a_step(CUT, "Cut", 10), a_step(BOIL, "Boil", 30), a_step(SERVE, "Serve", 2), name="Soup")
    return a_plan(dish, links=links)


def test_a_chain_longer_than_the_longest_wait_around_it_is_refused_in_words():
    plan = a_soup(a_link(CUT, BOIL), a_link(BOIL, SERVE))
    with pytest.raises(Refusal) as refused:
        require_possible(plan, AddLink(a_link(CUT, SERVE, 0, 29)))
    told = str(refused.value)
    assert all(name in told for name in ("Soup: Cut", "Soup: Boil", "Soup: Serve"))
    assert "at most 29 min after Soup: Cut ends" in told
    assert "1 min too much" in told
    assert require_possible(plan, AddLink(a_link(CUT, SERVE, 0, 30))).menu.links[-1].most == 30


def test_a_wait_made_longer_than_another_link_bears_is_refused():
    plan = a_soup(a_link(CUT, BOIL), a_link(BOIL, SERVE), a_link(CUT, SERVE, 0, 40))
    link = plan.menu.links[0]
    assert require_possible(plan, ChangeLink(link.key, replace(link, least=10))).menu.links[0].least == 10
    with pytest.raises(Refusal, match="at least 11 min after Soup: Cut"):
        require_possible(plan, ChangeLink(link.key, replace(link, least=11)))


def test_beginnings_that_wait_for_each_other_are_refused():
    plan = a_soup(a_link(CUT, BOIL, 5, kind=LinkKind.START_TO_START))
    with pytest.raises(Refusal, match=r"cannot all hold: .*Soup: Boil begins at least 5 min after Soup: Cut begins"):
        require_possible(plan, AddLink(a_link(BOIL, CUT, 0, kind=LinkKind.START_TO_START)))


def test_what_contradicts_already_may_be_mended_bit_by_bit():
    plan = a_soup(a_link(CUT, BOIL, 60), a_link(BOIL, SERVE), a_link(CUT, SERVE, 0, 20))
    assert require_possible(plan, RemoveLink((BOIL, SERVE, LinkKind.END_TO_START))).menu.links[-1].most == 20
    link = plan.menu.links[0]
    assert require_possible(plan, ChangeLink(link.key, replace(link, least=40))).menu.links[0].least == 40


def test_a_circle_and_a_least_above_the_most_are_refused_as_by_any_edit():
    plan = a_soup(a_link(CUT, BOIL), a_link(BOIL, SERVE))
    with pytest.raises(Refusal, match="circle"):
        require_possible(plan, AddLink(a_link(SERVE, CUT)))
    with pytest.raises(Refusal, match="at least 30 min and at most 10 min"):
        require_possible(plan, ChangeLink(plan.menu.links[0].key, a_link(CUT, BOIL, 30, 10)))
