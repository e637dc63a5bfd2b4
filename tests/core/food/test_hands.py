"""Hands-on minutes against hours and skills."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.hands import HandsBudget, Person, Reach, Task, hands, shared
from core.food.hands_of_plan import hands_budget
from core.food.speak import said_budget, said_reach, said_shares
from core.measures import Refusal
from core.plan.kitchen import Window
from core.plan.step import Alternative, Attention, Keep, Loads, Span, Touch
from tests.support.builders import a_bench, a_cook, a_dish, a_kitchen, a_link, a_plan, a_step, a_use, chained

SKILLS = ("carve", "fry", "bake")
tasks = st.lists(
    st.builds(
        Task,
        st.sampled_from(("stir", "chop")),
        st.integers(0, 60),
        st.sampled_from(("", *SKILLS)),
        st.booleans(),
    ),
    max_size=8,
)
people = st.lists(
    st.builds(
        Person,
        st.sampled_from(("Ann", "Ben", "Cat")),
        st.integers(0, 120),
        st.lists(st.sampled_from(SKILLS), max_size=3).map(tuple),
        st.booleans(),
    ),
    max_size=4,
)


def clock(at):
    return f"{(at + 19 * 60) // 60:02}:{at % 60:02}"


def flow_fits(todo, helpers):
    """Tell whether the minutes can be shared out, by the greatest flow from tasks to people."""
    import networkx as nx

    net = nx.DiGraph()
    net.add_nodes_from(("from", "to"))
    for number, task in enumerate(todo):
        net.add_edge("from", ("task", number), capacity=task.minutes)
        for who, person in enumerate(helpers):
            if person.reach(task) is Reach.ALONE:
                net.add_edge(("task", number), ("person", who), capacity=task.minutes)
    for who, person in enumerate(helpers):
        net.add_edge(("person", who), "to", capacity=person.minutes)
    return nx.maximum_flow_value(net, "from", "to")


@given(tasks, people)
def test_over_is_what_no_sharing_out_can_place(todo, helpers):
    budget = hands(todo, helpers)
    placed = flow_fits(todo, helpers)
    assert (budget.overload is None) == (placed == budget.total)
    if budget.overload and budget.overload.people:
        assert budget.over == budget.total - placed
        assert sum(task.minutes for task in budget.overload.tasks) - budget.over == sum(
            person.minutes for person in budget.overload.people
        )


@given(tasks, people)
def test_a_proposal_breaks_nobodys_hours_or_skill_and_loses_no_task(todo, helpers):
    proposal = shared(hands(todo, helpers))
    given_out = [task for each in proposal.shares for task in each.tasks]
    assert sorted(map(repr, (*given_out, *proposal.left))) == sorted(map(repr, todo))
    for each in proposal.shares:
        assert each.minutes <= each.person.minutes
        assert all(each.person.reach(task) is Reach.ALONE for task in each.tasks)


def test_one_and_the_same_helper_twice_is_two_helpers():
    ann = Person("Ann", 10)
    assert not shared(hands([Task("a", 10), Task("b", 10)], [ann, ann])).left


def test_the_worst_group_may_be_a_part_of_the_people():
    ann, ben = Person("Ann", 30, ("carve",)), Person("Ben", 90)
    budget = hands([Task("carve", 25, "carve"), Task("bone", 15, "carve"), Task("peel", 20)], [ann, ben])
    assert budget.overload.people == (ann,)
    assert budget.over == 10
    assert said_budget(budget, clock, -90, 0) == (
        "From 17:30 to 19:00: 60 min of hands-on work, Ann and Ben there for 120 min; 40 min of it only Ann can"
        " do, in 30 min: 10 min over. Find another hand, begin earlier or leave something out."
    )


def test_a_skill_that_nobody_has_is_named():
    budget = hands([Task("fillet the fish", 10, "fish"), Task("peel", 5)], [Person("Ann", 90)])
    assert (budget.over, budget.overload.people) == (10, ())
    assert said_budget(budget, clock, -90, 0).endswith(
        "; nobody there can fillet the fish. Find somebody who can, or leave it out."
    )


def test_whole_tasks_may_not_fit_though_hours_do():
    budget = hands(
        [Task("peel", 10), Task("chop", 10), Task("wash", 10)], [Person("Ann", 15), Person("Ben", 15)]
    )
    assert budget.over == 0
    assert said_shares(budget) == ("Ann 10 min, Ben 10 min; nobody has time or skill for wash in one piece.")


def test_equals_share_evenly_and_who_can_do_least_takes_what_anybody_can():
    ann, ben, cat = (
        Person(name, 60, skills) for name, skills in (("Ann", ("fry",)), ("Ben", ("fry",)), ("Cat", ()))
    )
    budget = hands([Task("fry", 20, "fry"), Task("fry again", 20, "fry"), Task("peel", 30)], [ann, ben, cat])
    assert [[task.name for task in each.tasks] for each in shared(budget).shares] == [
        ["fry"], ["fry again"], ["peel"],
    ]  # fmt: skip


def test_a_long_list_is_cut_short():
    budget = hands([Task(f"t{number}", 1) for number in range(9)], [Person("Ann", 0)])
    assert said_shares(budget).endswith("for t0, t1, t2, t3, t4, t5, t6 and 2 more in one piece.")


def test_what_is_said_of_reach():
    novice = Person("Ann", 90, novice=True)
    budget = hands([Task("peel", 9), Task("stir", 5, guided=True), Task("carve", 9, "carve")], [novice])
    assert said_reach(budget, novice) == "Ann can take peel: 9 min. With a cook beside: stir. Not: carve."
    assert said_reach(hands([Task("peel", 9)], []), novice) == "Ann can take peel: 9 min."
    assert said_reach(hands([Task("carve", 9, "carve")], []), novice) == "Ann can take nothing. Not: carve."


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: hands([Task("peel", -1)], []), "peel takes -1 min; write 0 min or more."),
        (lambda: hands([], [Person("Ann", -5)]), "Ann is there for -5 min; write 0 min or more."),
        (
            lambda: hands(
                [], [Person("Ann", 5, (f"{one}", f"{other}")) for one, other in combinations("abcdef", 2)]
            ),
            "More than 12 different sets of skills",
        ),
        (lambda: hands_budget(a_bench(), 0, 0), "From 0 min to 0 min is no stretch of time; end it later."),
    ],
)
def test_what_is_refused(make, says):
    with pytest.raises(Refusal, match=says):
        make()


def test_nothing_to_do_is_feasible_even_for_nobody():
    assert hands([], []) == HandsBudget((), ())
    assert hands([], []).over == 0
    assert "nobody there for 0 min: feasible on hours" in said_budget(hands([], []), clock, -90, 0)


def named(budget):
    return [(task.name, task.minutes, task.skill, task.earlier) for task in budget.tasks]


def test_a_plans_hands_are_those_counted_back_into_the_stretch():
    chop = a_step("stew.chop", "Chop", 20)
    braise = a_step(
        "stew.braise", "Braise", 120, attention=Attention.TENDED, uses=(a_use("burner"),),
        touches=(Touch(60, 2, "stir", skill="stove"),),
    )  # fmt: skip
    plate = a_step("stew.plate", "Plate", 10, hands=2)
    plan = a_bench(chop, braise, plate, links=chained(chop, braise, plate), kitchen=a_kitchen(cooks=2))
    # chop -150 to -130, braise -130 to -10 with a minute at either end and a stir at -70, plate -10 to 0
    # and all of it could be done before -1000, for nothing says how long it keeps
    assert named(hands_budget(plan, -1000, 0)) == [
        ("Stew: Chop", 20, "", True), ("Stew: in", 1, "", True), ("Stew: stir", 2, "stove", True),
        ("Stew: out", 1, "", True), ("Stew: Plate", 20, "", True),
    ]  # fmt: skip
    within = hands_budget(plan, -140, -69)
    assert [task.minutes for task in within.tasks] == [10, 1, 1]
    assert within.there == 2 * 71


def test_work_that_cannot_be_earlier_is_told_from_work_that_can():
    gravy, salad = a_step("gravy.make", "Make", 15), a_step("salad.dress", "Dress", 5)
    plan = a_plan(a_dish("gravy", gravy, keep=Keep(None)), a_dish("salad", salad, keep=Keep(5)))
    budget = hands_budget(plan, -30, 0)
    assert named(budget) == [("Gravy: Make", 15, "", True), ("Salad: Dress", 5, "", False)]
    assert (budget.total, budget.earlier) == (20, 15)
    short = hands(budget.tasks, [Person("Ann", 10)])
    assert said_budget(short, clock, -30, 0).endswith("10 min over. 15 min of it can be done before 18:30.")


def test_a_step_with_another_way_counts_as_it_is_written():
    quick = Alternative("by machine", Span.of(10))
    knead = a_step("bread.knead", "Knead", 40, alternatives=(quick,))
    plan = a_bench(knead, a_step("bread.shape", "Shape", 5), links=(a_link("bread.knead", "bread.shape"),))
    assert [task.minutes for task in hands_budget(plan, -1000, 0).tasks] == [40, 5]


def test_loads_and_absences_count():
    fry = a_step("chips.fry", "Fry", 10, loads=Loads(8, 4, 2), skill="fry")
    plan = a_plan(
        a_dish("chips", fry),
        kitchen=a_kitchen(
            cooks=(a_cook("ann", "fry", breaks=(Window(0, 19 * 60, 19 * 60 + 15),)), a_cook("ben"))
        ),
    )
    budget = hands_budget(plan, -60, 0)
    assert [task.minutes for task in budget.tasks] == [10, 10]
    assert [person.minutes for person in budget.people] == [45, 60]
    assert budget.over == 0


def test_a_plan_whose_waits_contradict_each_other_is_still_counted():
    steps = (a_step("a.x", minutes=10), a_step("a.y", minutes=10, latest=-100))
    plan = a_bench(*steps, links=chained(*steps, least=10, most=20))
    contradicting = a_bench(*steps, links=(*chained(*steps), *chained(*reversed(steps))))
    assert hands_budget(plan, -5000, 0).total == 20
    assert hands_budget(contradicting, -5000, 5000).total == 20
