"""Use by on labels, worked by hand: the plan's own limit however the day falls, and days in the fridge that add up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from core.plan.kitchen import Station, StationKind
from core.plan.menu import Link
from core.plan.plan import Plan
from core.plan.step import Holding, Keep, Loads, Use, Wait
from core.sheets.kinds import SheetKind
from core.sheets.labels import Label, labels
from core.sheets.printing import sheet_pdf
from tests.core.sheets.reading import pages
from tests.core.timetable.laid import at, laid
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_use, chained, hands_off

FRIDGE = Use(StationKind.FRIDGE, area=400, height=5)
COLD = Wait(Holding.FRIDGE, FRIDGE)
FREEZER = Station("freezer", "Freezer", StationKind.FREEZER)  # type: ignore[arg-type]
DAY = 1440


def cold(before: str, after: str, most: int | None = None, **fields: object) -> Link:
    return a_link(before, after, most=most, wait=COLD, **fields)


def of(plan: Plan, starts: Mapping[str, int | Sequence[int]]) -> list[Label]:
    return list(labels(plan, laid(plan, starts)))


def test_the_plans_limit_holds_also_where_no_wait_is_planned() -> None:
    """Set from 10:00 to 16:00 and garnished at once or half an hour later: good for 24 hours either way."""
    set_, top = hands_off("cream.set", 360, uses=(FRIDGE,)), a_step("cream.top")
    plan = a_plan(a_dish("cream", set_, top), links=(cold("cream.set", "cream.top", DAY),))
    for minutes in (0, 30):
        (label,) = of(plan, {"cream.set": at("10:00"), "cream.top": at("16:00") + minutes})
        assert label.use_by == "Sun 27 Sep, 16:00"


def test_of_several_limits_without_a_wait_the_soonest_holds_and_that_of_raw_food_too() -> None:
    cure = hands_off("fish.cure", 360, uses=(replace(FRIDGE, raw=True),))
    slice_, dice = a_step("fish.a"), a_step("fish.b")
    links = (cold("fish.cure", "fish.a", 600), cold("fish.cure", "fish.b", 300), a_link("fish.a", "fish.b", most=5))
    plan = a_plan(a_dish("fish", cure, slice_, dice), links=links)
    (label,) = of(plan, {"fish.cure": at("10:00"), "fish.a": at("16:00"), "fish.b": at("16:00")})
    assert (label.use_by, label.raw) == ("Sat 26 Sep, 21:00", True)


def test_a_dish_that_is_served_as_it_comes_out_of_the_fridge_has_the_limit_of_its_keeping() -> None:
    chill = hands_off("cream.chill", 360, uses=(FRIDGE,))
    plan = a_plan(a_dish("cream", chill, keep=Keep(120, COLD)))
    (label,) = of(plan, {"cream.chill": -360})
    assert label.use_by == "Sat 26 Sep, 21:30"


def test_a_limit_for_the_worktop_is_none_for_the_fridge() -> None:
    chill, cut = hands_off("cream.chill", 360, uses=(FRIDGE,)), a_step("cream.cut")
    plan = a_plan(a_dish("cream", chill, cut), links=chained(chill, cut, most=20))
    (label,) = of(plan, {"cream.chill": -400, "cream.cut": -40})
    assert label.use_by == "Fri 2 Oct, 23:59"


def a_stock_for_two() -> Plan:
    """Return a stock that chills for ten hours and goes into a sauce and a soup."""
    chill, sauce, soup = hands_off("stock.chill", 600, uses=(FRIDGE,)), a_step("stock.sauce"), a_step("stock.soup")
    return a_plan(a_dish("stock", chill, sauce, soup), links=(cold(chill.id, sauce.id), cold(chill.id, soup.id)))


def test_what_is_wanted_twice_was_made_once() -> None:
    """Chilled from Thursday 20:00 to Friday 06:00, then for two uses: on either box it was made on Thursday."""
    plan = a_stock_for_two()
    start = at("20:00") - 2 * DAY
    found = of(plan, {"stock.chill": start, "stock.sauce": start + 900, "stock.soup": start + 2000})
    assert [(each.made, each.use_by) for each in found] == [("Thu 24 Sep, 20:00", "Wed 30 Sep, 23:59")] * 2
    assert [each.end for each in found] == [start + 900, start + 2000]


def test_what_is_used_at_once_leaves_one_box() -> None:
    """One use comes in the minute in which it is chilled: nothing of that waits."""
    plan = a_stock_for_two()
    (label,) = of(plan, {"stock.chill": -1000, "stock.sauce": -400, "stock.soup": -200})
    assert (label.start, label.end) == (-1000, -200)


def test_each_batch_that_goes_on_by_itself_has_a_box() -> None:
    """Two batches of dough, rolled and baked one after the other, rest two hours and longer: two boxes."""
    mix = a_step("dough.mix", loads=Loads(4, 4))
    bake = a_step("dough.bake", loads=Loads(4, 4))
    dish = a_dish("dough", mix, bake, written_for=8, wanted=8)
    plan = a_plan(dish, links=(cold("dough.mix", "dough.bake", 600),))
    found = of(plan, {"dough.mix": (-500, -450), "dough.bake": (-300, -250)})
    assert [(each.start, each.end, each.use_by) for each in found] == [
        (-490, -300, "Sat 26 Sep, 21:20"),
        (-440, -250, "Sat 26 Sep, 22:10"),
    ]


def test_days_in_the_fridge_add_up_until_it_is_cooked() -> None:
    """Made on Sunday 20, skimmed on Thursday 24: by the Food Code its mark is that of Sunday, day one of seven."""
    boil = hands_off("stock.boil", 60, uses=(a_use(StationKind.BURNER),))
    chill, skim, warm = hands_off("stock.chill", 600, uses=(FRIDGE,)), a_step("stock.skim"), a_step("stock.warm")
    links = (a_link(boil.id, chill.id), cold(chill.id, skim.id), cold(skim.id, warm.id))
    plan = a_plan(a_dish("stock", boil, chill, skim, warm), links=links)
    starts = {"stock.boil": -6 * DAY - 60, "stock.chill": -6 * DAY, "stock.skim": -2 * DAY, "stock.warm": -60}
    first, second = of(plan, starts)
    assert (first.made, first.use_by) == ("Sun 20 Sep, 19:30", "Sat 26 Sep, 23:59")
    assert (second.made, second.use_by) == ("Thu 24 Sep, 19:40", "Sat 26 Sep, 23:59")
    again = replace(skim, uses=(a_use(StationKind.BURNER),))
    plan = a_plan(a_dish("stock", boil, chill, again, warm), links=links)
    assert [each.use_by for each in of(plan, starts)] == ["Sat 26 Sep, 23:59", "Wed 30 Sep, 23:59"]


def test_what_goes_into_another_dish_brings_its_days_along() -> None:
    mayonnaise, salad = a_step("sauce.beat"), a_step("salad.dress")
    served = a_step("salad.serve")
    plan = a_plan(
        a_dish("sauce", mayonnaise, served=False),
        a_dish("salad", salad, served),
        links=(cold("sauce.beat", "salad.dress"), cold("salad.dress", "salad.serve")),
    )
    starts = {"sauce.beat": -4 * DAY, "salad.dress": -DAY, "salad.serve": -20}
    assert [each.use_by for each in of(plan, starts)] == ["Mon 28 Sep, 23:59"] * 2


def test_days_in_the_freezer_do_not_count_and_those_before_them_do() -> None:
    """Chilled on Thursday 17, frozen on Saturday 19, thawed on Friday 25, its third day: Tuesday 29 is its last."""
    make, freeze = a_step("stock.make"), hands_off("stock.freeze", 6 * DAY, uses=(a_use(StationKind.FREEZER),))
    thaw, warm = a_step("stock.unpack"), a_step("stock.warm")
    links = (cold(make.id, freeze.id), a_link(freeze.id, thaw.id), cold(thaw.id, warm.id))
    plan = a_plan(a_dish("stock", make, freeze, thaw, warm), links=links, kitchen=a_kitchen(FREEZER))
    starts = {"stock.make": -9 * DAY, "stock.freeze": -7 * DAY, "stock.unpack": -DAY, "stock.warm": -60}
    found = of(plan, starts)
    assert [(each.kept, each.use_by) for each in found] == [
        ("fridge", "Wed 23 Sep, 23:59"), ("freezer", ""), ("fridge", "Tue 29 Sep, 23:59"),
    ]  # fmt: skip


def test_raw_food_brings_no_days_along() -> None:
    salt, rinse, dry = a_step("fish.salt"), a_step("fish.rinse"), a_step("fish.slice")
    raw = Wait(Holding.FRIDGE, replace(FRIDGE, raw=True))
    plan = a_plan(
        a_dish("fish", salt, rinse, dry),
        links=(a_link("fish.salt", "fish.rinse", wait=raw), cold("fish.rinse", "fish.slice")),
    )
    found = of(plan, {"fish.salt": -3 * DAY, "fish.rinse": -DAY, "fish.slice": -60})
    assert [each.use_by for each in found] == ["", "Thu 1 Oct, 23:59"]


def test_the_foot_of_labels_tells_how_long_the_plans_own_set_keeps_cooked_food() -> None:
    """FoodSafety.gov, Cold Food Storage Chart: cooked meat 3 to 4 days; FSA, leftovers: 2 days (from memory)."""
    plan = a_plan(a_dish("stew", hands_off("stew.chill", 300, uses=(FRIDGE,))))
    for rules, said in (("", "4 days"), ("uk", "2 days"), ("us-establishment", "")):
        chosen = replace(plan, decisions=replace(plan.decisions, rules=rules))
        text = " ".join(pages(sheet_pdf(SheetKind.LABELS, chosen, laid(chosen, {"stew.chill": -400}), ())))
        assert "seven days" in text
        assert (f"Cooked food keeps {said} at most" in text) == bool(said)
