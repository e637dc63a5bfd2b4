"""Labels with the wishes that force them; circles with their minutes; the smallest set by halving."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from core.arrange.demand import Demand, DemandKind
from core.arrange.reading import read
from core.arrange.why.labels import asked, begins, ends, labels_of
from core.arrange.why.narrowing import narrowed
from core.plan.ids import StepId
from core.plan.step import Keep, Manner
from tests.support.builders import a_bench, a_dish, a_link, a_plan, a_step, hands_off


def soup(**fields):
    dish = a_dish("soup", hands_off("soup.boil", 30), a_step("soup.season", minutes=5), keep=Keep(10))
    return a_plan(dish, links=(a_link("soup.boil", "soup.season", 2, 20),), transfer=0, **fields)


def test_earliest_and_latest_of_starts_and_ends():
    labels = labels_of(read(soup()))
    assert labels.circle == []
    # seasoned from -10 to 0 (keeps 10), so it begins from -15 to -5; boiled at most 20 and at least 2 before
    assert [labels.earliest[node] for node in (begins(0), ends(0), begins(1), ends(1))] == [-65, -35, -15, -10]
    assert [labels.latest[node] for node in (begins(0), ends(0), begins(1), ends(1))] == [-37, -7, -5, 0]


def test_the_wishes_that_force_a_bound():
    labels = labels_of(read(soup()))
    served, keeps = (Demand(kind, StepId("soup.season")) for kind in (DemandKind.SERVED, DemandKind.KEEPS))
    assert asked(labels.why_latest(begins(0))) == (served,)
    assert [each.kind for each in asked(labels.why_earliest(begins(0)))] == [DemandKind.KEEPS, DemandKind.MOST_WAIT]
    assert asked(labels.without({keeps}).why_earliest(begins(1))) == ()


def test_a_circle_is_as_much_too_much_as_its_minutes_add_up_to():
    for opens, over in ((-37, 0), (-36, 1), (-30, 7)):
        circle = labels_of(read(soup(opens=opens))).circle
        assert sum(edge.minutes for edge in circle) == over
        assert {each.kind for each in asked(circle)} == ({DemandKind.OPENS, DemandKind.SERVED} if over else set())


def test_the_worst_of_several_circles_comes_first():
    plan = a_bench(
        a_step("ale.pour", minutes=30), a_step("bun.bake", minutes=45), a_step("cod.fry", minutes=40),
        opens=-20, transfer=0,
    )  # fmt: skip
    circle = labels_of(read(plan)).circle
    assert sum(edge.minutes for edge in circle) == 25
    assert [each.step for each in asked(circle) if each.step] == ["bun.bake"]


def test_the_way_that_is_shortest_counts_and_lengths_as_reserved():
    plan = a_bench(hands_off("roast.roast", (60, 80, 100)), transfer=0, manner=Manner.HIGH)
    assert labels_of(read(plan)).latest[begins(0)] == -100


def test_minutes_from_one_moment_to_all_that_follow():
    labels = labels_of(read(soup()))
    far, _because = labels.longest_from(begins(0))
    assert [far[node] for node in (ends(0), begins(1), ends(1))] == [30, 32, 37]


# ---- the smallest set

WISHES = tuple(Demand(DemandKind.PIN, StepId(f"dish.{number}")) for number in range(9))


@given(st.lists(st.sets(st.sampled_from(WISHES), min_size=1, max_size=4), min_size=1, max_size=4))
def test_what_is_left_is_impossible_and_without_any_of_it_possible(clashing):
    def impossible(kept):
        return any(each <= set(kept) for each in clashing)

    few, sure = narrowed(WISHES, impossible)
    assert sure
    assert impossible(few)
    assert not any(impossible(some) for some in combinations(few, len(few) - 1))


def test_it_asks_few_questions_where_few_of_many_wishes_clash():
    asked_of = []

    def impossible(kept):
        asked_of.append(kept)
        return {WISHES[2], WISHES[7]} <= set(kept)

    assert narrowed(WISHES, impossible) == ((WISHES[2], WISHES[7]), True)
    assert len(asked_of) <= 2 * 2 * 4 + 2  # about 2 k log2(n / k) + 2 k (Junker 2004)


def test_what_cannot_be_found_out_stays_in():
    few, sure = narrowed(WISHES[:3], lambda kept: None if len(kept) == 2 else len(kept) == 3)
    assert (set(few), sure) == (set(WISHES[:3]), False)


def test_what_is_impossible_without_any_wish_needs_none():
    assert narrowed(WISHES, lambda _kept: True) == ((), True)
