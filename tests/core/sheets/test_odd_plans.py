"""Sheets of plans that are odd and allowed: names alike, names with commas, other ways, courses late in the night."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.hatch.table_times import places_table
from core.plan.decisions import Choice
from core.plan.ids import CookId, StepId
from core.plan.kitchen import Cook, StationKind
from core.plan.menu import Ingredient
from core.plan.step import Alternative, Attention, Holding, Keep, Span, Use, Wait
from core.sheets import run_sheet
from core.sheets.fridge_plan import fridge_plans
from core.sheets.kinds import SheetKind
from core.sheets.labels import labels
from core.sheets.plating_sheet import plating_sheet
from core.sheets.prep_list import prep_list, prep_table
from core.sheets.printing import sheet_pdf
from core.sheets.whose import whose
from core.sheets.words import mark_at
from core.timetable.timetable import Spot, Stay
from tests.core.timetable.laid import laid
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, hands_off

FRIDGE = Use(StationKind.FRIDGE, area=400, height=5)
COLD = Wait(Holding.FRIDGE, FRIDGE)


def test_two_dishes_of_one_name_are_plated_each_with_its_own() -> None:
    """A salad for eight from the fridge and one for two that waits on the counter."""
    one = a_dish("one", a_step("one.toss"), name="Salad", wanted=8, plating="Bowls", keep=Keep(60, COLD))
    other = a_dish("other", a_step("other.toss"), name="Salad", wanted=2, plating="Plates", keep=Keep(60))
    plan = a_plan(one, other)
    (course,) = plating_sheet(plan, laid(plan, {"one.toss": -40, "other.toss": -30}))
    assert [(each.how, each.portions, each.from_where) for each in course.dishes] == [
        ("Bowls", 8, ("in Fridge, lowest shelf",)),
        ("Plates", 2, ("on the counter",)),
    ]


def test_a_cook_whose_name_holds_anothers_has_lines_of_their_own() -> None:
    cooks = (Cook(CookId("kim"), "Kim"), Cook(CookId("baker"), "Kim, the baker"), Cook(CookId("jo"), "Jo, Kim"))
    steps = [a_step(f"soup.{each.id}", f"Work of {each.id}") for each in cooks]
    plan = a_plan(a_dish("soup", *steps), kitchen=a_kitchen(cooks=cooks))
    timetable = laid(plan, {step.id: -60 + 10 * number for number, step in enumerate(steps)})
    hands = {each.step: replace(each.hands[0], cook=CookId(each.step.partition(".")[2])) for each in timetable.placed}
    timetable = replace(timetable, placed=tuple(replace(each, hands=(hands[each.step],)) for each in timetable.placed))
    for cook in cooks:
        copy = run_sheet(plan, timetable, (), of=whose(plan, cook.id))
        steps_of = [line.step for day in copy.days for line in day.lines if line.step]
        assert steps_of == [f"soup.{cook.id}"]


def test_what_is_done_another_way_is_told_so_on_every_sheet() -> None:
    """Thawed in cold water, not as it is written: run sheet, fridge plan, label and table of places say the same."""
    thaw = replace(
        a_step("bird.thaw", "Thaw the bird", attention=Attention.HANDS_OFF, put_in=0, take_out=0),
        alternatives=(Alternative("in cold water", Span.of(30)),),
    )
    roast = replace(
        hands_off("bird.roast", 60), does="Roast", alternatives=(Alternative("over the coals", Span.of(60)),)
    )
    plan = a_plan(
        a_dish("bird", thaw, roast),
        links=(a_link("bird.thaw", "bird.roast", wait=COLD),),
        choices=(Choice(StepId("bird.thaw"), 1), Choice(StepId("bird.roast"), 1)),
    )
    timetable = laid(plan, {"bird.thaw": -400, "bird.roast": -100})
    what, then = "Thaw the bird: in cold water", "Roast: over the coals"
    assert what in {line.does for day in run_sheet(plan, timetable, ()).days for line in day.lines}
    (label,) = labels(plan, timetable)
    assert (label.what, label.wanted.rpartition(", ")[2]) == (what, then)
    ((day,),) = [place.days for place in fridge_plans(plan, timetable)]
    assert [each.what for each in day.goes_in] == [f"{what}, for: {then}"]
    (row,) = places_table(plan, timetable).rows
    assert what in row


def test_prep_for_a_course_after_serving_stands_on_the_prep_list() -> None:
    """Dessert 75 minutes after serving: what is cut between is in no last half hour."""
    cut, whip = a_step("fool.cut"), a_step("fool.whip")
    main = a_dish("stew", a_step("stew.stir"))
    plan = a_plan(main, a_dish("fool", cut, whip, course=75), links=(a_link("fool.cut", "fool.whip"),))
    for start, prep in ((-20, False), (0, False), (1, True), (44, True), (45, False)):
        timetable = laid(plan, {"stew.stir": -20, "fool.cut": start, "fool.whip": 60})
        listed = [line.step for day in prep_list(plan, timetable) for dish in day.dishes for line in dish.lines]
        last = [line.step for course in plating_sheet(plan, timetable) for line in course.lines]
        assert (listed == ["fool.cut"]) is prep
        assert ("fool.cut" in last) is not prep


def test_prep_that_waits_for_two_things_says_which_waits_for_which() -> None:
    chop, soup, salad = a_step("veg.chop"), a_step("veg.soup"), a_step("veg.salad")
    links = (a_link("veg.chop", "veg.soup", most=300, wait=COLD), a_link("veg.chop", "veg.salad", wait=COLD))
    items = (Ingredient("leeks", step=StepId("veg.chop")),)
    plan = a_plan(a_dish("veg", chop, soup, salad, ingredients=items), links=links)
    timetable = laid(plan, {"veg.chop": -240, "veg.soup": -60, "veg.salad": -25})
    (group,) = prep_table(prep_list(plan, timetable)).groups
    (row,) = [each for each in group.rows if "Chop" in " ".join(each.cells)]
    told = row.cells[2].split("\n")[1]
    assert told == (
        "10 min, then waits in Fridge, lowest shelf until 18:30, for: Soup; "
        "then waits in Fridge, lowest shelf until 19:05, for: Salad"
    )


def test_a_place_that_is_gone_from_the_kitchen_is_passed_over() -> None:
    """Of two places in which food waits one is no longer there."""
    mix, bake = a_step("cake.mix"), a_step("cake.bake")
    plan = a_plan(a_dish("cake", mix, bake), links=(a_link("cake.mix", "cake.bake", wait=COLD),))
    timetable = laid(plan, {"cake.mix": -100, "cake.bake": -30})
    spots = (Spot("kiln"), Spot("fridge", 1, 0))  # type: ignore[arg-type]
    stays = tuple(replace(each, spots=spots) for each in timetable.stays)
    assert all(isinstance(each, Stay) for each in stays)
    sheet = run_sheet(plan, replace(timetable, stays=stays), ())
    details = [each for day in sheet.days for line in day.lines for each in line.details]
    assert "then waits in Fridge, lowest shelf until 19:00" in details


def test_a_ruler_does_not_call_half_past_a_full_hour() -> None:
    """Lord Howe, 5 April 2026: at 02:00 of summer the clock goes back to 01:30, an hour after 01:00."""
    plan = a_plan(plating="2026-04-05 04:00", zone="Australia/Lord_Howe")
    shown = [mark_at(plan, at) for at in range(-330, 1, 60)]
    assert shown == ["23:00", "00:00", "01:00", "01:30", "02:30", "03:30"]


@pytest.mark.parametrize("kind", SheetKind)
def test_an_older_timetable_may_hold_steps_that_the_plan_has_no_more(kind: SheetKind) -> None:
    """Given to the command beside a text plan that was edited since: they are passed over, as on the run sheet."""
    mix, chill = a_step("cake.mix"), hands_off("cake.chill", 200, uses=(FRIDGE,))
    before = a_plan(a_dish("cake", mix, chill), links=(a_link("cake.mix", "cake.chill", wait=COLD),))
    timetable = laid(before, {"cake.mix": -400, "cake.chill": -300})
    plan = a_plan(a_dish("cake", mix))
    fewer = replace(timetable, placed=timetable.placed[:1], stays=())
    assert sheet_pdf(kind, plan, timetable, (), found=()) == sheet_pdf(kind, plan, fewer, (), found=())
