"""The values behind the recipe place: whatever is done to the lines, they stay in order and come back from the file."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from app.places.empty_plan import empty_plan
from app.places.recipe.kept_tray import keep_tray, kept_tray
from app.places.recipe.tray import Tray
from app.places.recipe.worked import Reader, begun
from app.places.recipe.worked_ask import asked, untimed
from app.places.recipe.worked_change import (
    before_of,
    changed,
    join,
    moved,
    split,
    with_length,
    with_step,
    with_thing,
)
from app.places.recipe.worked_dish import dish_from
from core.intake.draft import fitted
from core.intake.pages.read import pasted
from core.measures.refusal import Refusal
from core.plan.edits import AddDish
from core.plan.ids import DishId
from core.plan.step import Attention, Span

STEW = """Root stew
Serves 5

1 swede
2 onions
300 ml stock

Chop the swede and grate the onions. Fry the onions for 10 minutes until soft.
Meanwhile, boil the swede for 15 minutes. Add the stock and the onions, and simmer for 20 minutes.
Bake at 180C for 30 to 40 minutes. Can be made a day ahead and kept in the fridge.
"""
PLAN = empty_plan("Feast")
READER = Reader(PLAN.kitchen)
BEGUN = begun(pasted(STEW)[0], READER)

NAMES = ["split", "join", "up", "down", "out", "tick", "length", "new", "thing"]
ACTS = st.lists(st.tuples(st.sampled_from(NAMES), st.integers(0, 30)), max_size=12)


def done(worked, acts):
    """Do what is possible of some acts, each to one of the rows."""
    for act, number in acts:
        key = worked.rows[number % len(worked.rows)].key
        try:
            if act == "split":
                worked, _new = split(worked, key, number, READER)
            elif act == "join":
                worked = join(worked, key, READER)
            elif act in ("up", "down"):
                worked = moved(worked, key, -1 if act == "up" else 1)
            elif act == "new":
                worked = with_step(worked, f"Stir {number + 1} min")
            elif act == "thing":
                worked = with_thing(worked, "2 tbsp capers")
            elif act == "length":
                worked = with_length(worked, key, f"{number + 1} min", READER)
            else:
                row = worked.row(key)
                flags = {"out": not row.out} if act == "out" else {"understood": not row.understood}
                worked = changed(worked, key, **flags)
        except Refusal:
            continue  # a split or a join that cannot be: the recipe stays as it was
    return worked


@given(ACTS)
def test_every_row_follows_only_rows_above_it_and_the_dish_is_one_that_the_plan_bears(acts):
    worked = done(BEGUN, acts)
    above = set()
    for row in worked.rows:
        assert set(row.after) <= above
        assert not any(worked.row(key).out for key in before_of(worked, row.key))
        above.add(row.key)
    for key in untimed(worked, READER):
        worked = changed(worked, key, guess=True)
    dish, links, _homeless = fitted(PLAN, *dish_from(worked, DishId("stew"), READER))
    plan = AddDish(dish, links)(PLAN)
    assert len(plan.dishes[DishId("stew")].steps) == sum(not row.out for row in worked.rows)


@given(acts=ACTS)
def test_the_file_gives_back_what_was_kept(tmp_path_factory, acts):
    worked = done(BEGUN, acts)
    path = tmp_path_factory.mktemp("state") / "tray.json"
    tray = Tray((BEGUN, worked), 1, BEGUN)
    keep_tray(tray, path)
    assert kept_tray(path) == (tray, "")
    assert kept_tray(path)[0].sheets[1].draft == BEGUN.draft


def test_a_move_there_and_back_keeps_the_order_of_a_chain():
    worked = begun(pasted("Toast\n\n2 rolls\n\nCut for 1 minute. Fry for 2 minutes. Bake for 3 minutes.\n")[0], READER)
    keys = [row.key for row in worked.rows]
    assert [row.after for row in worked.rows] == [(), (keys[0],), (keys[1],)]
    up = moved(worked, keys[2], -1)
    assert [(row.key, row.after) for row in up.rows] == [(keys[0], ()), (keys[2], (keys[0],)), (keys[1], (keys[2],))]
    assert moved(up, keys[2], 1) == worked


def test_joined_steps_take_both_lengths_and_the_attention_of_the_longer():
    worked = begun(pasted("Roots\n\n2 swedes\n\nPeel for 5 minutes. Bake at 180C for 40 minutes.\n")[0], READER)
    one = join(worked, worked.rows[0].key, READER)
    line = READER.line(one.rows[0].line)
    assert line.step_values["length"] == Span.of(45)
    assert line.step_values["attention"] is Attention.HANDS_OFF
    assert not line.faults


def test_a_length_of_the_text_that_became_no_value_is_asked_about():
    worked = begun(pasted("Bread\n\n500 g flour\n\nKnead for 10 minutes.\n")[0], READER)
    assert not any("10 minutes" in each.sentence for each in asked(worked, READER))
    draft = worked.draft
    blind = replace(worked, read=replace(draft, steps=(replace(draft.steps[0], origins=()),)))
    found = next(each for each in asked(blind, READER) if "10 minutes" in each.sentence)
    assert draft.text[found.start : found.end] == "10 minutes"
    assert not found.must
