from __future__ import annotations

from dataclasses import replace

from core.plan.plan import Plan
from core.store.changes import TableChanges, changes
from tests.core.store.sample import full_plan


def only(before: Plan, after: Plan) -> TableChanges:
    (change,) = changes(before, after)
    return change


def test_the_same_plan_changes_nothing() -> None:
    plan = full_plan()
    assert changes(plan, plan) == ()
    assert changes(plan, full_plan()) == ()


def test_a_new_file_gets_every_row() -> None:
    found = changes(None, full_plan())
    assert sum(each.count for each in found) == sum(len(each.added) for each in found)
    assert {each.table: each.count for each in found} == {
        "plan": 1,
        "station": 5,
        "shelf": 2,
        "vessel": 2,
        "cook": 2,
        "dish": 3,
        "step": 6,
        "ingredient": 3,
        "link": 5,
        "stock": 2,
        "guest": 2,
        "pin": 3,
        "choice": 1,
        "length_choice": 2,
        "precedence": 2,
    }


def test_a_moved_pin_is_one_cell() -> None:
    plan = full_plan()
    first, *rest = plan.decisions.pins
    after = replace(plan, decisions=replace(plan.decisions, pins=(replace(first, start=-210), *rest)))
    assert only(plan, after) == TableChanges("pin", changed=[(("beans.bake", 0), {"start": -210})])


def test_a_renamed_dish_is_one_cell() -> None:
    plan = full_plan()
    first, *rest = plan.menu.dishes
    after = replace(plan, menu=replace(plan.menu, dishes=(replace(first, name="Beans"), *rest)))
    assert only(plan, after) == TableChanges("dish", changed=[(("beans",), {"name": "Beans"})])


def test_dishes_in_another_order_change_their_positions_alone() -> None:
    plan = full_plan()
    after = replace(plan, menu=replace(plan.menu, dishes=plan.menu.dishes[::-1]))
    change = only(plan, after)
    assert change.changed == [(("cream",), {"position": 0}), (("beans",), {"position": 2})]
    assert change.count == 2


def test_what_is_said_once_is_one_row() -> None:
    plan = full_plan()
    after = replace(plan, name="New Year", kitchen=replace(plan.kitchen, name="Barn"))
    assert only(plan, after).changed == [((1,), {"name": "New Year", "kitchen_name": "Barn"})]
