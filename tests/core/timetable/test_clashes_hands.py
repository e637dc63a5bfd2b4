"""Hands: one thing at a time, there, able, known, and just those that are asked for."""

from dataclasses import replace

from core.plan.ids import CookId
from core.plan.kitchen import Heater, Window
from core.plan.step import Attention, Touch
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Hand, Timetable
from tests.core.timetable.laid import at, heating, laid, the_clash, told
from tests.support.builders import (
    a_cook,
    a_dish,
    a_kitchen,
    a_plan,
    a_step,
    an_oven,
    at_oven,
    hands_off,
)

ANN, BEN, CAT = CookId("ann"), CookId("ben"), CookId("cat")


def two_jobs(**kitchen):
    pork = a_step("pork.carve", minutes=10, skill=kitchen.pop("skill", ""), hands=kitchen.pop("hands", 1))
    pot = a_step(
        "pot.boil",
        minutes=30,
        attention=Attention.TENDED,
        touches=(Touch(10, 2, "stir"),),
        put_in=0,
        take_out=0,
    )
    return a_plan(a_dish("pork", pork), a_dish("pot", pot), kitchen=a_kitchen(**kitchen))


def with_hands(timetable: Timetable, step: str, *hands: Hand) -> Timetable:
    loads = tuple(replace(each, hands=hands) if each.step == step else each for each in timetable.placed)
    return replace(timetable, placed=loads)


def test_a_cook_does_one_thing_at_a_time():
    plan = two_jobs()
    assert not clashes(plan, laid(plan, {"pork.carve": at("18:12"), "pot.boil": at("18:00")}))
    clash = the_clash(plan, laid(plan, {"pork.carve": at("18:11"), "pot.boil": at("18:00")}))
    assert told(clash) == (ClashKind.HANDS_SHORT, at("18:11"), at("18:12"), 1)
    assert clash.steps == ("pot.boil", "pork.carve")
    assert clash.cooks == ("ann",)
    assert clash.sentence == (
        "Ann has two things to do at once from 18:11 to 18:12: Pot: Boil (stir) and Pork: Carve."
    )


def test_two_cooks_do_two_things():
    plan = two_jobs(cooks=2)
    both = {"pork.carve": at("18:05"), "pot.boil": at("18:00")}
    assert not clashes(plan, laid(plan, both, cooks={"pork.carve": "ben"}))


def test_one_cook_is_not_two_people():
    plan = two_jobs(cooks=2, hands=2)
    alone = laid(plan, {"pork.carve": at("18:20"), "pot.boil": at("18:00")})
    clash = the_clash(plan, alone)
    assert told(clash) == (ClashKind.HANDS_SHORT, at("18:20"), at("18:30"), 1)
    assert clash.sentence == "Ann is wanted for Pork: Carve two times at once from 18:20 to 18:30."
    both = with_hands(alone, "pork.carve", Hand(at("18:20"), 10, ANN), Hand(at("18:20"), 10, BEN))
    assert not clashes(plan, both)
    clash = the_clash(plan, with_hands(alone, "pork.carve", Hand(at("18:20"), 10, ANN)))
    assert clash.sentence == "Nobody is found for Pork: Carve from 18:20 to 18:30."


def test_somebody_must_be_found():
    plan = two_jobs()
    clash = the_clash(
        plan, laid(plan, {"pork.carve": at("19:00"), "pot.boil": at("18:00")}, cooks={"pot.boil": None})
    )
    assert told(clash) == (ClashKind.HANDS_SHORT, at("18:10"), at("18:12"), 1)
    assert clash.cooks == ()
    assert clash.sentence == "Nobody is found for Pot: Boil (stir) from 18:10 to 18:12."


def test_a_stranger_is_told():
    plan = two_jobs()
    clash = the_clash(
        plan, laid(plan, {"pork.carve": at("19:00"), "pot.boil": at("18:00")}, cooks={"pork.carve": "zed"})
    )
    assert clash.sentence == 'Pork: Carve is given to "zed", who is not one of the cooks.'


def test_hands_at_the_wrong_minute_answer_nothing():
    plan = two_jobs()
    good = laid(plan, {"pork.carve": at("19:00"), "pot.boil": at("18:00")})
    found = clashes(
        plan, with_hands(good, "pork.carve", Hand(at("19:01"), 10, ANN), Hand(at("18:30"), 0, ANN))
    )
    assert [clash.sentence for clash in found] == [
        "Nobody is found for Pork: Carve from 19:00 to 19:10.",
        "Ann is written down for Pork: Carve from 19:01 to 19:11, which needs nobody then.",
    ]
    more = with_hands(good, "pork.carve", Hand(at("19:00"), 10, ANN), Hand(at("19:00"), 10))
    clash = the_clash(plan, more)
    assert clash.sentence == (
        "Somebody is written down for Pork: Carve from 19:00 to 19:10, which needs nobody then."
    )


def test_a_skill_is_asked_for():
    cooks = (a_cook("ann", "carving"), a_cook("ben"))
    plan = two_jobs(cooks=cooks, skill="carving")
    both = {"pork.carve": at("19:00"), "pot.boil": at("18:00")}
    assert not clashes(plan, laid(plan, both))
    clash = the_clash(plan, laid(plan, both, cooks={"pork.carve": "ben"}))
    assert told(clash) == (ClashKind.HANDS_SHORT, at("19:00"), at("19:10"), 1)
    assert clash.cooks == ("ben",)
    assert clash.sentence == "Pork: Carve asks for the skill “carving”, which Ben does not have."


def test_of_visits_at_the_same_minute_each_goes_to_who_can():
    touches = (Touch(10, 2, "probe", skill="probe"), Touch(10, 2, "lift"))
    step = a_step("pot.boil", minutes=30, attention=Attention.TENDED, touches=touches, put_in=0, take_out=0)
    plan = a_plan(a_dish("pot", step), kitchen=a_kitchen(cooks=(a_cook("ann"), a_cook("ben", "probe"))))
    good = laid(plan, {"pot.boil": at("18:00")})
    when = (at("18:10"), 2)
    assert not clashes(plan, with_hands(good, "pot.boil", Hand(*when, BEN), Hand(*when, ANN)))
    assert not clashes(plan, with_hands(good, "pot.boil", Hand(*when, ANN), Hand(*when, BEN)))
    three = with_hands(good, "pot.boil", Hand(*when, ANN), Hand(*when, ANN), Hand(*when, BEN))
    assert the_clash(plan, three).sentence == (
        "Ann is written down for Pot: Boil from 18:10 to 18:12, which needs nobody then."
    )


def test_many_hands_at_once_are_taken_in_their_order():
    step = a_step("dough.knead", minutes=10, hands=7)
    plan = a_plan(a_dish("dough", step), kitchen=a_kitchen(cooks=tuple(a_cook(each) for each in "abcdefg")))
    good = laid(plan, {"dough.knead": at("18:00")})
    all_of_them = [Hand(at("18:00"), 10, CookId(each)) for each in "abcdefg"]
    assert not clashes(plan, with_hands(good, "dough.knead", *all_of_them))
    found = clashes(plan, with_hands(good, "dough.knead", *all_of_them[:6]))
    assert [clash.sentence for clash in found] == ["Nobody is found for Dough: Knead from 18:00 to 18:10."]


def test_a_break_is_kept_to_the_minute():
    breaks = (Window(0, 19 * 60, 19 * 60 + 30),)
    plan = two_jobs(cooks=(a_cook("ann", breaks=breaks),))
    both = {"pork.carve": at("18:50"), "pot.boil": at("18:00")}
    assert not clashes(plan, laid(plan, both))
    clash = the_clash(plan, laid(plan, {**both, "pork.carve": at("18:51")}))
    assert told(clash) == (ClashKind.COOK_ABSENT, at("19:00"), at("19:01"), 1)
    assert clash.steps == ("pork.carve",)
    assert clash.cooks == ("ann",)
    assert clash.sentence == "Ann is not there from 19:00 to 19:01 for Pork: Carve."


def test_nights_are_free_and_hours_promised_are_hours_worked():
    plan = two_jobs()
    evening = at("22:51") - 24 * 60
    clash = the_clash(plan, laid(plan, {"pork.carve": evening, "pot.boil": at("18:00")}))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.COOK_ABSENT, evening + 9, evening + 10)
    assert clash.sentence == "Ann is not there from Fri 23:00 to Fri 23:01 for Pork: Carve."
    plan = two_jobs(cooks=(a_cook("ann", present=(Window(0, 17 * 60, 18 * 60 + 10),)),))
    clash = the_clash(plan, laid(plan, {"pork.carve": at("17:00"), "pot.boil": at("18:00")}))
    assert clash.sentence == "Ann is not there from 18:10 to 18:12 for Pot: Boil (stir)."


def test_switching_on_takes_a_minute_of_a_cook():
    oven = an_oven(heater=Heater(from_cold=((180, 10),)))
    tart = hands_off("tart.bake", 30, uses=(at_oven(180),))
    cream = a_step("cream.whip", minutes=10)
    plan = a_plan(a_dish("tart", tart), a_dish("cream", cream), kitchen=a_kitchen(oven=oven))
    on = [heating("oven", at("17:50"), at("18:00"), 180)]
    assert not clashes(plan, laid(plan, {"tart.bake": at("18:00"), "cream.whip": at("17:40")}, heatings=on))
    assert not clashes(plan, laid(plan, {"tart.bake": at("18:00"), "cream.whip": at("17:51")}, heatings=on))
    clash = the_clash(plan, laid(plan, {"tart.bake": at("18:00"), "cream.whip": at("17:41")}, heatings=on))
    assert told(clash) == (ClashKind.HANDS_SHORT, at("17:50"), at("17:51"), 1)
    assert clash.steps == ("cream.whip", "tart.bake")
    assert clash.sentence == (
        "Ann has two things to do at once from 17:50 to 17:51: Cream: Whip and switching on the oven."
    )
    both = {"tart.bake": at("18:00"), "cream.whip": at("17:40")}
    nobody = [heating("oven", at("17:50"), at("18:00"), 180, None)]
    clash = the_clash(plan, laid(plan, both, heatings=nobody))
    assert clash.steps == ("tart.bake",)
    assert clash.sentence == "Nobody is found for switching on the oven from 17:50 to 17:51."
    stranger = [heating("oven", at("17:50"), at("18:00"), 180, "zed")]
    clash = the_clash(plan, laid(plan, both, heatings=stranger))
    assert clash.sentence == 'Switching on the oven is given to "zed", who is not one of the cooks.'
    assert clash.cooks == ("zed",)


def test_switching_on_what_needs_no_heating_takes_a_minute_too():
    plan = two_jobs()
    both = {"pork.carve": at("18:20"), "pot.boil": at("18:00")}
    on = [heating("burner-1", at("18:25"), at("18:35"), 200)]
    clash = the_clash(plan, laid(plan, both, heatings=on))
    assert told(clash) == (ClashKind.HANDS_SHORT, at("18:25"), at("18:26"), 1)
    assert clash.steps == ("pork.carve",)
    assert clash.sentence == (
        "Ann has two things to do at once from 18:25 to 18:26: Pork: Carve and switching on Burner 1."
    )
