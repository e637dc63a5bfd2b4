"""The format of ProGen/max (Schwindt 1998), minimum and maximum lags: tiny files of our own, worked out by hand."""

from __future__ import annotations

import pytest

from bench.contest import plain
from bench.project import Lag, least_length
from bench.project_plan import plan_of
from bench.random_projects import Shape, drawn, serial
from bench.read_sch import read_sch
from bench.write_project import written_sch
from core.arrange import Fit
from core.arrange.possible import possible
from core.measures.refusal import Refusal
from core.plan.menu import LinkKind
from tests.outside.test_psplib import a_file, shortest

# All four take 2 of 3, so they follow one another: 12 min by themselves. But 3 starts 6 or 7 min after 1, and 4 at most
# 4 min after 2: nothing fits between 1 and 3 (2 would, but then 4 were too late), so 2 min are lost.
TINY = """\
4\t1\t0\t0
0\t1\t2\t1\t2\t[0]\t[0]
1\t1\t1\t3\t[6]
2\t1\t1\t4\t[3]
3\t1\t2\t1\t5\t[-7]\t[2]
4\t1\t2\t2\t5\t[-4]\t[3]
5\t1\t0
0\t1\t0\t0
1\t1\t4\t2
2\t1\t3\t2
3\t1\t2\t2
4\t1\t3\t2
5\t1\t0\t0
3
"""
TINY_OPTIMUM = 14

# Two that exclude each other, 2 not before 5 min from the beginning: 1 (0 to 4), then 2 (5 to 8).
PAIR = """\
2 1 0 0
0 1 2 1 2 [0] [5]
1 1 1 3 [4]
2 1 1 3 [3]
3 1 0
0 1 0 0
1 1 4 2
2 1 3 2
3 1 0 0
3
"""
PAIR_OPTIMUM = 8
# And 2 starts at most 3 min after 1: since 1 lasts 4, it must come first, though no lag says so: 5 to 8, then 8 to 12.
TURNED = PAIR.replace("2 1 1 3 [3]", "2 1 2 1 3 [-3] [3]")
TURNED_OPTIMUM = 12
# 2 at least 5 and at most 3 min after 1: contradictory.
NEVER = PAIR.replace("1 1 1 3 [4]", "1 1 2 2 3 [5] [4]").replace("2 1 1 3 [3]", "2 1 2 1 3 [-3] [3]")
# 2 starts 9 min before the end at the soonest, and 1 ends 2 min before it.
END = PAIR.replace("1 1 1 3 [4]", "1 1 1 3 [6]").replace("3 1 0\n", "3 1 1 2 [-4]\n")
END_OPTIMUM = 8


def test_a_file_is_read(tmp_path):
    project = read_sch(a_file(tmp_path, TINY, "tiny.sch"))
    assert (project.end, project.capacities) == (5, (3,))
    assert project.lags[2:] == (
        Lag(1, 3, 6), Lag(2, 4, 3), Lag(3, 1, -7), Lag(3, 5, 2), Lag(4, 2, -4), Lag(4, 5, 3),
    )  # fmt: skip
    assert least_length(project) == 8


def test_a_lag_to_and_fro_is_one_link_with_least_and_most(tmp_path):
    links = {
        (link.before, link.after): (link.least, link.most)
        for link in plan_of(read_sch(a_file(tmp_path, TINY, "tiny.sch"))).menu.links
        if link.kind is LinkKind.START_TO_START
    }
    assert links == {
        ("activity-1.do", "activity-3.do"): (6, 7),
        ("activity-2.do", "activity-4.do"): (3, 4),
        ("begin.begin", "activity-1.do"): (0, None),
        ("begin.begin", "activity-2.do"): (0, None),
    }


@pytest.mark.parametrize(
    ("text", "optimum"),
    [(TINY, TINY_OPTIMUM), (PAIR, PAIR_OPTIMUM), (TURNED, TURNED_OPTIMUM), (END, END_OPTIMUM)],
    ids=["tiny", "pair", "turned", "end"],
)
def test_the_optimum_worked_out_by_hand_is_reached_and_a_minute_less_impossible(tmp_path, text, optimum):
    project = read_sch(a_file(tmp_path, text, "tiny.sch"))
    assert plain(project, 60.0).makespan == optimum
    assert shortest(project) == optimum
    assert possible(plan_of(project, optimum - 1)).fit is Fit.IMPOSSIBLE


def test_without_its_maximum_lags_the_tiny_project_loses_no_time(tmp_path):
    text = TINY.replace("3\t1\t2\t1\t5\t[-7]\t[2]", "3\t1\t1\t5\t[2]").replace(
        "4\t1\t2\t2\t5\t[-4]\t[3]", "4\t1\t1\t5\t[3]"
    )
    assert shortest(read_sch(a_file(tmp_path, text, "tiny.sch"))) == 12


def test_lags_that_contradict_each_other_are_impossible(tmp_path):
    project = read_sch(a_file(tmp_path, NEVER, "tiny.sch"))
    assert least_length(project) is None
    assert possible(plan_of(project)).fit is Fit.IMPOSSIBLE


@pytest.mark.parametrize("seed", range(1, 9))
def test_random_projects_are_as_short_as_a_plain_model_proves(seed):
    project = drawn(Shape(12, lags=True, strength=(0.2, 0.4)[seed % 2], factor=(0.5, 1.0)[seed // 2 % 2]), seed)
    assert any(lag.minutes < 0 for lag in project.lags)
    told = plain(project, 60.0)
    assert told.proven
    assert told.makespan <= serial(project)[-1]
    assert shortest(project) == told.makespan


def test_what_is_written_is_read_again(tmp_path):
    for seed in range(5):
        project = drawn(Shape(30, lags=True), seed)
        assert read_sch(a_file(tmp_path, written_sch(project), f"{project.name}.sch")) == project


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("4\t1\t0\t0\n0\t1\t2", "4\t1\t0\n0\t1\t2", 1, "3 numbers where 4 should stand"),
        ("4\t1\t0\t0\n0\t1\t2", "4\t1\t2\t0\n0\t1\t2", 1, "renewable ones only"),
        ("1\t1\t1\t3\t[6]", "1\t1\t1\t3\t[6\t", 3, "something else than whole numbers and lags in brackets"),
        ("1\t1\t1\t3\t[6]", "1\t1\t1\t3\t[6 7]", 3, "the lag [6 7] is not one whole number"),
        ("1\t1\t1\t3\t[6]", "1\t1\t2\t3\t[6]", 3, "2 followers are announced, 1 named and 1 lags given"),
        ("1\t1\t1\t3\t[6]", "1\t1\t1\t9\t[6]", 3, "a follower is 9; give 0 to 5"),
        ("1\t1\t1\t3\t[6]", "1\t1\t1\t1\t[6]", 3, "is to start 6 after itself"),
        ("1\t1\t1\t3\t[6]", "1\t2\t1\t3\t[6 6]", 3, "single-mode"),
        ("1\t1\t1\t3\t[6]", "2\t1\t1\t3\t[6]", 3, "activity 1 should stand here"),
        ("1\t1\t4\t2\n", "1\t1\t4\t5\n", 14, "an activity takes 5"),
        ("1\t1\t4\t2\n", "1\t1\tlong\t2\n", 9, '"long" is no whole number'),
        ("5\t1\t0\t0\n3\n", "5\t1\t0\t0\n", 13, "the file ends where the amount there is"),
    ],
)
def test_a_malformed_file_is_refused_with_its_line_and_the_mend(tmp_path, old, new, line, words):
    assert old in TINY
    with pytest.raises(Refusal) as refused:
        read_sch(a_file(tmp_path, TINY.replace(old, new), "tiny.sch"))
    assert refused.value.text.startswith(f"tiny.sch, line {line}: ")
    assert words in refused.value.text
