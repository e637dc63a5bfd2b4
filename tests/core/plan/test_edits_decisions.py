"""Edits of what the cook decided, and the words of all edits."""

from __future__ import annotations

from fractions import Fraction

import pytest

from core.measures.refusal import Refusal
from core.plan import edits
from core.plan.blocks import BlockKind
from core.plan.decisions import Choice, LengthOf, Order, Pin, Wishes
from core.plan.edits import (
    AddOrder,
    Choose,
    Edit,
    LiftAllPins,
    LiftPin,
    PinStep,
    RemoveOrder,
    SetLength,
    SetManner,
    SetWishes,
)
from core.plan.food import Effect, FoodCare, FoodKind
from core.plan.ids import CookId, DishId, StationId, StepId, VesselId
from core.plan.menu import Guest, LinkKind, Stock
from core.plan.plan import Plan
from core.plan.step import Alternative, Loads, Manner, Span
from tests.support.builders import (
    ANN,
    GRILL,
    OVEN,
    a_bench,
    a_cook,
    a_dish,
    a_kitchen,
    a_link,
    a_moment,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
)

CHOP, ROAST, FRY, GONE = (StepId(each) for each in ("soup.chop", "soup.roast", "soup.fry", "soup.gone"))


@pytest.fixture
def plan() -> Plan:
    roast = a_step(
        ROAST, uses=(a_use("oven"),), alternatives=(Alternative("over coals", Span.of(8), (a_use("grill"),)),)
    )
    return a_bench(a_step(CHOP), roast, a_step(FRY, loads=Loads(8, 4)))


def test_a_step_is_pinned(plan: Plan) -> None:
    assert PinStep(CHOP, start=-45)(plan).decisions.pins == (Pin(CHOP, 0, -45),)
    assert PinStep(ROAST, station=OVEN, cook=ANN)(plan).decisions.pins == (Pin(ROAST, 0, None, OVEN, ANN),)
    assert PinStep(FRY, 1, -9)(plan).decisions.pins == (Pin(FRY, 1, -9),)


def test_a_pin_keeps_what_is_not_given_again(plan: Plan) -> None:
    pinned = PinStep(ROAST, start=-60, cook=ANN)(PinStep(CHOP, start=-90)(plan))
    after = PinStep(ROAST, start=-55, station=OVEN)(pinned)
    assert after.decisions.pins == (Pin(CHOP, 0, -90), Pin(ROAST, 0, -55, OVEN, ANN))
    assert PinStep(ROAST)(after) is after


def test_pins_are_lifted(plan: Plan) -> None:
    pinned = a_bench(
        *plan.steps.values(), pins=(Pin(CHOP, 0, -90), Pin(FRY, 0, -20), Pin(FRY, 1, -10), Pin(ROAST, 0, -60))
    )
    assert [pin.step for pin in LiftPin(CHOP)(pinned).decisions.pins] == [FRY, FRY, ROAST]
    assert [pin.step for pin in LiftPin(FRY)(pinned).decisions.pins] == [CHOP, ROAST]
    assert Pin(FRY, 0, -20) in LiftPin(FRY, 1)(pinned).decisions.pins
    assert Pin(FRY, 1, -10) not in LiftPin(FRY, 1)(pinned).decisions.pins
    assert LiftAllPins()(pinned) == plan


def test_a_pin_at_a_step_that_is_gone_can_be_lifted() -> None:
    stray = a_plan(pins=(Pin(GONE, 0, 0),))
    assert LiftPin(GONE)(stray) == a_plan()


def test_a_way_is_chosen_and_left_open_again(plan: Plan) -> None:
    chosen = Choose(ROAST, 1)(plan)
    assert chosen.decisions.choices == (Choice(ROAST, 1),)
    assert Choose(ROAST, 0)(chosen).decisions.choices == (Choice(ROAST, 0),)
    assert Choose(ROAST, None)(chosen) == plan


def test_another_way_lifts_the_pin_to_a_station_where_it_does_not_happen(plan: Plan) -> None:
    pinned = PinStep(ROAST, start=-60, station=OVEN)(plan)
    grilled = Choose(ROAST, 1)(pinned)
    assert grilled.decisions.pins == (Pin(ROAST, 0, -60),)
    at_grill = PinStep(ROAST, station=GRILL)(grilled)
    assert Choose(ROAST, None)(at_grill).decisions.pins == (Pin(ROAST, 0, -60),)


def test_a_length_is_chosen_and_left_to_the_plan_again(plan: Plan) -> None:
    high = SetLength(CHOP, Manner.HIGH)(plan)
    assert high.decisions.lengths == (LengthOf(CHOP, Manner.HIGH),)
    assert SetLength(CHOP, Manner.LIKELY)(high).decisions.lengths == (LengthOf(CHOP, Manner.LIKELY),)
    assert SetLength(CHOP, None)(high) == plan


def test_an_order_is_added_once_and_removed(plan: Plan) -> None:
    ordered = AddOrder(CHOP, FRY)(plan)
    assert ordered.decisions.orders == (Order(CHOP, FRY),)
    assert AddOrder(CHOP, FRY)(ordered) is ordered
    assert RemoveOrder(CHOP, FRY)(ordered) == plan


def test_wishes_and_manner(plan: Plan) -> None:
    assert SetWishes(Wishes(calm=9))(plan).decisions.wishes == Wishes(calm=9)
    assert SetManner(Manner.HIGH)(plan).decisions.manner is Manner.HIGH


@pytest.mark.parametrize(
    ("edit", "sentence"),
    [
        (
            PinStep(GONE, start=0),
            'There is no step "soup.gone" in the menu any more; choose one that is there.',
        ),
        (PinStep(CHOP, station=StationId("gone")), 'There is no station "gone"'),
        (PinStep(CHOP, cook=CookId("gone")), 'There is no cook "gone"'),
        (
            PinStep(CHOP, station=OVEN),
            "Soup: Chop is pinned to Oven, but does not happen there; lift the pin.",
        ),
        (PinStep(FRY, 2, -9), "A pin holds load 3 of Soup: Fry, which comes to 2 loads; lift the pin."),
        (LiftPin(CHOP), "Soup: Chop is not pinned; there is nothing to lift."),
        (LiftPin(GONE), 'There is no step "soup.gone"'),
        (Choose(GONE, 1), 'There is no step "soup.gone"'),
        (Choose(ROAST, 2), "Soup: Roast has no way number 3; choose one of its 2."),
        (Choose(ROAST, -1), "Soup: Roast has no way number 0; choose one of its 2."),
        (SetLength(GONE, None), 'There is no step "soup.gone"'),
        (AddOrder(GONE, CHOP), 'There is no step "soup.gone"'),
        (AddOrder(CHOP, GONE), 'There is no step "soup.gone"'),
        (AddOrder(CHOP, CHOP), "Soup: Chop is ordered before itself; take the order out."),
        (
            RemoveOrder(CHOP, FRY),
            "There is no order between Soup: Chop and Soup: Fry; there is nothing to take out.",
        ),
        (SetWishes(Wishes(sleep=-1)), "A wish weighs less than 0 or more than 10; give 0 to 10."),
    ],
)
def test_what_is_refused(plan: Plan, edit: Edit, sentence: str) -> None:
    with pytest.raises(Refusal) as refused:
        edit(plan)
    assert sentence in refused.value.text


def test_nudges_of_one_pin_and_slides_of_wishes_merge() -> None:
    assert PinStep(CHOP, start=-9).merge_key == PinStep(CHOP, start=-8).merge_key
    assert PinStep(CHOP, start=-9).merge_key != PinStep(FRY, start=-9).merge_key
    assert PinStep(FRY, 0, -9).merge_key != PinStep(FRY, 1, -9).merge_key
    assert SetWishes(Wishes(1)).merge_key == SetWishes(Wishes(2)).merge_key
    assert LiftAllPins().merge_key is None


BEEF, POT = DishId("beef"), VesselId("pot")
ROAST_BEEF, CARVE = StepId("beef.roast"), StepId("beef.carve-thin")
ALL_LABELS = [
    (edits.SetDishScale(BEEF, Fraction(3, 2)), "Make 1.5 times Rib of beef", "Make 1.5 times Beef"),
    (edits.SetDishScale(BEEF, None), "Make Rib of beef for its servings", "Make Beef for its servings"),
    (edits.SetDishPans(BEEF, "round 26 cm", "GN 1/2"), "Make Rib of beef in GN 1/2", "Make Beef in GN 1/2"),
    (edits.SetDishPans(BEEF, "round 26 cm"), "Change the tin of Rib of beef", "Change the tin of Beef"),
    (
        edits.AddBlock(BEEF, BlockKind.REST_AND_CARVE),
        "Add “rest and carve” to Rib of beef",
        "Add “rest and carve” to Beef",
    ),
    (
        edits.TellFood(BEEF, 0, FoodKind.WHOLE_CUT),
        "Say what kind of food is in Rib of beef",
        "Say what kind of food is in Beef",
    ),
    (
        edits.TellCare(CARVE, FoodCare(Effect.PREPARE)),
        "Say what becomes of the food in Rib of beef: Carve",
        "Say what becomes of the food in Beef: Carve thin",
    ),
    *(
        (edit, label, label)
        for edit, label in (
            (edits.SetRoom(31), "Say how warm the kitchen is"),
            (edits.ChooseRules("uk"), "Choose the food rules"),
            (edits.SetStock(Stock("rye flour")), "Note what is in the house of rye flour"),
            (edits.RemoveStock("rye flour"), "Forget what is in the house of rye flour"),
            (edits.SetGuest(Guest("Orla")), "Note guest Orla"),
            (edits.RemoveGuest("Orla"), "Remove guest Orla"),
            (edits.SetCovers(1), "Lay for 1 guest"),
            (edits.SetCovers(12), "Lay for 12 guests"),
            (edits.SetCovers(None), "Leave open how many sit down"),
            (edits.UseKitchen(a_kitchen(name="Village hall")), "Cook at Village hall"),
        )
    ),
    (edits.AddDish(a_dish("tart", name="Tart")), "Add Tart", "Add Tart"),
    (edits.RenameDish(BEEF, "Ox"), "Rename Rib of beef to Ox", "Rename Beef to Ox"),
    (
        edits.ChangeDish.of(BEEF, wanted=9),
        "Change the servings of Rib of beef",
        "Change the servings of Beef",
    ),
    (edits.ChangeDish.of(BEEF, wanted=9, note=""), "Change Rib of beef", "Change Beef"),
    (edits.MoveDish(BEEF, 0), "Move Rib of beef in the menu", "Move Beef in the menu"),
    (edits.CopyDish(BEEF), "Copy Rib of beef", "Copy Beef"),
    (edits.RemoveDish(BEEF), "Remove Rib of beef", "Remove Beef"),
    (edits.AddStep(BEEF, a_step("beef.salt")), "Add Salt to Rib of beef", "Add Salt to Beef"),
    (edits.ChangeStep(CARVE, a_step()), "Change Rib of beef: Carve", "Change Beef: Carve thin"),
    (
        edits.MoveStepInDish(CARVE, 0),
        "Move Rib of beef: Carve in the dish",
        "Move Beef: Carve thin in the dish",
    ),
    (edits.CopyStep(CARVE), "Copy Rib of beef: Carve", "Copy Beef: Carve thin"),
    (edits.RemoveStep(CARVE), "Remove Rib of beef: Carve", "Remove Beef: Carve thin"),
    (
        edits.AddLink(a_link(ROAST_BEEF, CARVE)),
        "Link Rib of beef: Carve after Rib of beef: Roast",
        "Link Beef: Carve thin after Beef: Roast",
    ),
    (
        edits.ChangeLink((ROAST_BEEF, CARVE, LinkKind.START_TO_START), a_link(ROAST_BEEF, CARVE)),
        "Change the link Rib of beef: Carve beginning with Rib of beef: Roast",
        "Change the link Beef: Carve thin beginning with Beef: Roast",
    ),
    (
        edits.RemoveLink((ROAST_BEEF, CARVE, LinkKind.END_TO_END)),
        "Unlink Rib of beef: Carve ending with Rib of beef: Roast",
        "Unlink Beef: Carve thin ending with Beef: Roast",
    ),
    (edits.RenameKitchen("Hall"), "Rename the kitchen to Hall", "Rename the kitchen to Hall"),
    (edits.ChangeKitchen(a_kitchen(name="Hall")), "Cook in Hall", "Cook in Hall"),
    (edits.AddStation(an_oven("b", name="Big")), "Add Big", "Add Big"),
    (edits.ChangeStation(OVEN, an_oven()), "Change Old oven", "Change Oven"),
    (edits.RemoveStation(OVEN), "Remove Old oven", "Remove Oven"),
    (edits.AddVessel(a_vessel("pan")), "Add Pan", "Add Pan"),
    (edits.ChangeVessel(POT, a_vessel()), "Change Stock pot", "Change Pot"),
    (edits.RemoveVessel(POT), "Remove Stock pot", "Remove Pot"),
    (edits.AddCook(a_cook("cat")), "Add Cat", "Add Cat"),
    (edits.ChangeCook(ANN, a_cook()), "Change Anna", "Change Ann"),
    (edits.RemoveCook(ANN), "Remove Anna", "Remove Ann"),
    (PinStep(CARVE, start=-145), "Move Rib of beef: Carve to 17:05", "Move Beef: Carve thin to T-2:25"),
    (
        PinStep(CARVE, start=-1440),
        "Move Rib of beef: Carve to Fri 19:30",
        "Move Beef: Carve thin to T-1d 0:00",
    ),
    (
        PinStep(ROAST_BEEF, 1, -60, OVEN, ANN),
        "Move Rib of beef: Roast, load 2, to 18:30 on Old oven for Anna",
        "Move Beef: Roast, load 2, to T-1:00 on Oven for Ann",
    ),
    (PinStep(ROAST_BEEF, station=OVEN), "Put Rib of beef: Roast on Old oven", "Put Beef: Roast on Oven"),
    (PinStep(CARVE, cook=ANN), "Put Rib of beef: Carve for Anna", "Put Beef: Carve thin for Ann"),
    (PinStep(CARVE), "Pin Rib of beef: Carve", "Pin Beef: Carve thin"),
    (LiftPin(CARVE), "Lift the pin of Rib of beef: Carve", "Lift the pin of Beef: Carve thin"),
    (
        LiftPin(CARVE, 1),
        "Lift the pin of Rib of beef: Carve, load 2",
        "Lift the pin of Beef: Carve thin, load 2",
    ),
    (LiftAllPins(), "Lift all pins", "Lift all pins"),
    (Choose(CARVE, 1), "Choose a way to do Rib of beef: Carve", "Choose a way to do Beef: Carve thin"),
    (
        SetLength(CARVE, Manner.HIGH),
        "Give Rib of beef: Carve the length “high”",
        "Give Beef: Carve thin the length “high”",
    ),
    (
        SetLength(CARVE, None),
        "Give Rib of beef: Carve the plan's length",
        "Give Beef: Carve thin the plan's length",
    ),
    (
        AddOrder(ROAST_BEEF, CARVE),
        "Do Rib of beef: Roast before Rib of beef: Carve",
        "Do Beef: Roast before Beef: Carve thin",
    ),
    (
        RemoveOrder(ROAST_BEEF, CARVE),
        "Do Rib of beef: Roast before or after Rib of beef: Carve",
        "Do Beef: Roast before or after Beef: Carve thin",
    ),
    (SetWishes(Wishes()), "Change the wishes", "Change the wishes"),
    (SetManner(Manner.LIKELY), "Reserve the length “likely”", "Reserve the length “likely”"),
    (edits.RenamePlan("Supper"), "Rename the plan to Supper", "Rename the plan to Supper"),
    (
        edits.SetPlating(a_moment("2026-12-24 18:00")),
        "Plate on Thu 24 Dec 2026, 18:00",
        "Plate on Thu 24 Dec 2026, 18:00",
    ),
    (
        edits.SetPlating(a_moment("2026-12-24 18:00", "Europe/Paris")),
        "Plate on Thu 24 Dec 2026, 18:00 (Europe/Paris)",
        "Plate on Thu 24 Dec 2026, 18:00",
    ),
    (
        edits.SetTransfer(2),
        "Take 2 min for putting in and taking out",
        "Take 2 min for putting in and taking out",
    ),
    (
        edits.SetWalk(2),
        "Take 2 min to walk from one place to another",
        "Take 2 min to walk from one place to another",
    ),
    (edits.AllowFires(OVEN, 1), "Let Old oven be lit once", "Let Oven be lit once"),
    (edits.AllowFires(OVEN, 2), "Let Old oven be lit twice", "Let Oven be lit twice"),
    (edits.AllowFires(OVEN, 3), "Let Old oven be lit 3 times", "Let Oven be lit 3 times"),
    (edits.ServeLater(20), "Serve everything 20 min later", "Serve everything 20 min later"),
    (edits.ServeLater(-65), "Serve everything 1 h 5 min sooner", "Serve everything 1 h 5 min sooner"),
    (
        edits.ServeDishLater(DishId("beef"), 15),
        "Serve Rib of beef 15 min later",
        "Serve Beef 15 min later",
    ),
    (edits.SetOpens(None), "Begin whenever it takes", "Begin whenever it takes"),
    (edits.SetOpens(-2880), "Begin at Thu 19:30 at the soonest", "Begin at T-2d 0:00 at the soonest"),
    (edits.Together("Swap", ()), "Swap", "Swap"),
    (
        edits.StretchStep(CARVE, 65),
        "Let Rib of beef: Carve take 1 h 5 min",
        "Let Beef: Carve thin take 1 h 5 min",
    ),
    (
        edits.PinSteps((PinStep(CARVE, 0, -30), PinStep(CARVE, 1, -20), PinStep(ROAST_BEEF, 0, -90))),
        "Move 2 steps",
        "Move 2 steps",
    ),
    (
        edits.PinSteps((PinStep(CARVE, 0, -30),)),
        PinStep(CARVE, 0, -30).label_in(a_plan(a_dish("beef", a_step(CARVE, "Carve"), name="Rib of beef"))),
        PinStep(CARVE, 0, -30).label,
    ),
]


@pytest.mark.parametrize(("edit", "in_plan", "alone"), ALL_LABELS)
def test_words_for_undo(edit: Edit, in_plan: str, alone: str) -> None:
    plan = a_plan(
        a_dish("beef", a_step(ROAST_BEEF), a_step(CARVE, "Carve"), name="Rib of beef"),
        kitchen=a_kitchen(
            oven=an_oven(name="Old oven"),
            cooks=(a_cook("ann", name="Anna"),),
            vessels=(a_vessel("pot", name="Stock pot"),),
        ),
    )
    assert edit.label_in(plan) == in_plan
    assert edit.label == alone


def test_every_edit_has_its_words_tested() -> None:
    known = {each for each in vars(edits).values() if isinstance(each, type) and issubclass(each, Edit)}
    assert {type(edit) for edit, *_labels in ALL_LABELS} == known - {Edit}


def test_long_names_are_cut_short_in_labels() -> None:
    label = edits.RenamePlan("feast\n" * 50).label
    assert label == "Rename the plan to feast feast feast feast feast feast feast feast feast feast…"


@pytest.mark.parametrize(("zone", "opens"), [("Mars/Olympus", -60), ("UTC", -(10**12))])
def test_labels_count_from_plating_where_there_is_no_clock(zone: str, opens: int) -> None:
    edit = edits.SetOpens(opens)
    assert edit.label_in(a_plan(zone=zone)) == edit.label
