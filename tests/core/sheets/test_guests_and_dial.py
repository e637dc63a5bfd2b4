"""What sheets say of guests and of ovens whose dial does not tell the truth."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from core.food.allergens import REMARK
from core.plan.kitchen import Heater
from core.plan.menu import Guest
from core.sheets import as_pdf, run_sheet
from core.sheets.cautions import cautions
from core.sheets.serving_lines import serving_lines
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step, an_oven, at_oven, hands_off


def test_guests_are_named_beside_dishes_they_cannot_eat_and_among_the_cautions() -> None:
    dish = a_dish("soup", a_step("soup.boil"), allergens=("milk",))
    plan = a_plan(dish, a_dish("rice", a_step("rice.boil")))
    guests = (Guest("Orla", allergies=("milk",), aversions=("rice",)), Guest("Tom"))
    plan = replace(plan, menu=replace(plan.menu, guests=guests))
    (line,) = serving_lines(plan)
    assert [each.not_for for each in line.served] == [("Orla",), ()]
    said = [each for each in cautions(plan) if each.startswith("Guests: ")]
    assert said == ["Guests: Soup is not for Orla: milk noted. " + REMARK]
    alone = replace(plan, menu=replace(plan.menu, guests=()))
    assert not any(each.startswith("Guests: ") for each in cautions(alone))
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(as_pdf(run_sheet(plan, on_paper(plan))))).pages]
    assert "not for Orla: see the cautions" in " ".join(" ".join(pages).split())


@pytest.mark.parametrize(
    ("offset", "place", "detail"),
    [
        (10, "Oven, 190 °C (dial 180 °C)", "set 180 °C on the dial, it runs 10 °C hot"),
        (-15, "Oven, 190 °C (dial 205 °C)", "set 205 °C on the dial, it runs 15 °C cold"),
        (0, "Oven, 190 °C", ""),
    ],
)
def test_an_oven_that_runs_hot_says_what_to_set_on_its_dial(offset: int, place: str, detail: str) -> None:
    step = hands_off("pie.bake", 30, uses=(at_oven(190),))
    plan = a_plan(a_dish("pie", step), kitchen=a_kitchen(oven=an_oven(heater=Heater(offset=offset))))
    lines = [line for day in run_sheet(plan, on_paper(plan)).days for line in day.lines]
    (on,) = [line for line in lines if line.does == "Oven to 190 °C"]
    assert (detail in on.details) == bool(detail)
    assert len(on.details) == (2 if detail else 1)
    assert any(place in line.details for line in lines)
    assert detail or not any("dial" in each for line in lines for each in line.details)
