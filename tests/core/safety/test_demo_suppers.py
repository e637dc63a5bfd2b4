"""The shipped suppers: the harvest supper as made by hand breaks no limit of home cooks that can be judged."""

from __future__ import annotations

from itertools import pairwise

import pytest

import demo_data
from core.intake.text_plan import read_text
from core.plan.food import FoodKind
from core.plan.plan import Plan
from core.safety.checking import food_report
from core.safety.finding import Level
from core.safety.proposals import proposed_kind
from core.safety.rules_there import shipped_rules
from core.safety.story import Warmth, stories
from tests.support.hand_made import hand_made


@pytest.fixture(scope="module")
def supper() -> Plan:
    return read_text(demo_data.text_of("harvest_supper.toml"))


def test_the_harvest_supper_is_over_no_limit_of_home_cooks(supper: Plan) -> None:
    report = food_report(supper, hand_made(supper))
    assert [each.sentence for each in report.findings] == []
    assert report.rules.id == "us-home"
    assert len(report.stories) > 100
    assert any("trout" in each for each in report.cautions)  # cured, never cooked
    assert any("Chill in three tubs: say how deep" in each for each in report.untold)


def test_the_uk_asks_a_degree_more_of_what_is_warmed_again(supper: Plan) -> None:
    _home, code, uk = (food_report(supper, hand_made(supper), rules) for rules in shipped_rules())
    assert code.over == ()
    assert [(each.rule.id, each.dish, each.over) for each in uk.over] == [("reheat", "cheeks", 1)]
    cautions = {(each.rule.id, each.dish) for each in uk.findings if each.level is Level.CAUTION}
    assert cautions == {("core-cuts", "pork")}  # 63 °C for 30 min, where 60 to 65 °C asks for 45


def test_the_pork_as_it_was_first_written_is_below_the_published_core(supper: Plan) -> None:
    text = demo_data.text_of("harvest_supper.toml").replace('core = "63 C" ', 'core = "60 C" ')
    plan = read_text(text)
    assert plan != supper
    (found,) = food_report(plan, hand_made(plan)).findings
    assert (found.rule.id, found.level, found.unit) == ("core-cuts", Level.CAUTION, "°C")
    assert float(found.over) == 2.8


def test_the_stock_goes_into_two_dishes_and_its_story_with_it(supper: Plan) -> None:
    told = [
        each for each in stories(supper, hand_made(supper)) if each.food.item == "chicken wings and backs"
    ]
    assert {each.path[-1] for each in told} == {"cheeks.finish", "pork.gravy"}
    warm = [each.warmth for each in told[0].stretches]
    assert warm[:4] == [Warmth.COOKING, Warmth.BETWEEN, Warmth.COOKING, Warmth.COOKING]
    for story in told:
        for one, other in pairwise(story.stretches):
            assert one.end == other.start


@pytest.mark.parametrize(("item", "kind"), [
    ("chicken wings and backs", FoodKind.POULTRY), ("brown chicken stock", FoodKind.READY),
    ("minced beef", FoodKind.GROUND_MEAT), ("ground turkey", FoodKind.GROUND_POULTRY),
    ("ground coffee", FoodKind.KEEPS), ("lemon juice", FoodKind.KEEPS), ("green beans", FoodKind.PRODUCE),
    ("dried white beans", FoodKind.GRAIN), ("goat's curd", FoodKind.DAIRY), ("egg noodles", FoodKind.GRAIN),
    ("pasteurised egg yolks", FoodKind.READY), ("stewing lamb", FoodKind.CUBED_MEAT),
    ("smoked paprika", FoodKind.KEEPS), ("black pepper", FoodKind.KEEPS), ("red pepper", FoodKind.PRODUCE),
    ("pork sausages", FoodKind.GROUND_MEAT), ("brumble", None), ("", None),
])  # fmt: skip
def test_kinds_are_proposed_from_names(item: str, kind: FoodKind | None) -> None:
    assert proposed_kind(item) is kind
