"""The single-mode format of PSPLIB (Kolisch and Sprecher 1996): tiny files of our own, optima worked out by hand.

The published sets are not at hand; `make bench ARGS="--instances FOLDER"` measures with them.
"""

from __future__ import annotations

import pytest

from bench.contest import plain
from bench.project import Activity, Lag, Project, broken, least_length
from bench.project_plan import makespan_of, plan_of, starts_of
from bench.random_projects import Shape, drawn
from bench.read_sm import read_sm
from bench.write_project import written_sm
from core.arrange import Effort, Fit, arrange
from core.arrange.possible import possible
from core.measures.refusal import Refusal
from core.plan.check import problems
from core.timetable.clashes import clashes

TINY = """\
************************************************************************
file with basedata            : tiny.bas
initial value random generator: 1
************************************************************************
projects                      :  1
jobs (incl. supersource/sink ):  7
horizon                       :  15
RESOURCES
  - renewable                 :  2   R
  - nonrenewable              :  0   N
  - doubly constrained        :  0   D
************************************************************************
PROJECT INFORMATION:
pronr.  #jobs rel.date duedate tardcost  MPM-Time
    1      5      0       12        0        9
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           5
   4        1          1           6
   5        1          1           7
   6        1          1           7
   7        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     3       2    0
  3      1     4       3    0
  4      1     2       4    0
  5      1     5       1    0
  6      1     1       2    0
  7      1     0       0    0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    4    1
************************************************************************
"""
# Activity 4 takes all of R 1, so it stands alone, and 2 and 3 exclude each other (2 + 3 > 4). Either 4 comes after 3
# and 5 (4 + 5 + 2, then 6: 12), or before 5, when 2, 3, 4 and 5 follow one another (14).
TINY_OPTIMUM = 12
TINY_LAGS_ALONE = 9
# Where 2 and 5 both need the one unit of R 2, no two of 2, 3, 4, 5 go together: 3 + 4 + 2 + 5.
BOTH_NEED_IT = (
    TINY.replace("2      1     3       2    0", "2      1     3       2    1")
    .replace("5      1     5       1    0", "5      1     5       1    1")
)  # fmt: skip
BOTH_OPTIMUM = 14


def a_file(tmp_path, text, name="tiny.sm"):
    file = tmp_path / name
    file.write_text(text, encoding="ascii")
    return file


def shortest(project):
    """Return the makespan of a timetable that is proven best, and judged by the validator and by `broken`."""
    plan = plan_of(project)
    assert problems(plan) == ()
    outcome = arrange(plan, Effort(work=4.0))
    assert outcome.fit is Fit.MEETS
    assert outcome.bound == outcome.score
    assert clashes(plan, outcome.timetable) == ()
    assert broken(project, starts_of(project, outcome.timetable)) == []
    return makespan_of(outcome.timetable)


def test_a_file_is_read(tmp_path):
    project = read_sm(a_file(tmp_path, TINY))
    assert project.name == "tiny"
    assert project.capacities == (4, 1)
    assert project.activities[2] == Activity(4, (3, 0))
    assert [(lag.before, lag.after, lag.minutes) for lag in project.lags] == [
        (0, 1, 0), (0, 2, 0), (1, 3, 3), (2, 4, 4), (3, 5, 2), (4, 6, 5), (5, 6, 1),
    ]  # fmt: skip
    assert (project.horizon, least_length(project)) == (15, TINY_LAGS_ALONE)


@pytest.mark.parametrize(("text", "optimum"), [(TINY, TINY_OPTIMUM), (BOTH_NEED_IT, BOTH_OPTIMUM)])
def test_the_optimum_worked_out_by_hand_is_reached_and_a_minute_less_impossible(tmp_path, text, optimum):
    project = read_sm(a_file(tmp_path, text))
    assert shortest(project) == optimum
    assert possible(plan_of(project, optimum)).fit is Fit.MEETS
    assert possible(plan_of(project, optimum - 1)).fit is Fit.IMPOSSIBLE


def test_where_nothing_is_scarce_the_makespan_is_the_longest_path(tmp_path):
    project = read_sm(a_file(tmp_path, TINY.replace("    4    1\n", "   12    1\n")))
    assert shortest(project) == TINY_LAGS_ALONE


@pytest.mark.parametrize("seed", range(1, 9))
def test_random_projects_are_as_short_as_a_plain_model_proves(tmp_path, seed):
    project = drawn(Shape(12, strength=(0.2, 0.4)[seed % 2], factor=(0.5, 1.0)[seed // 2 % 2]), seed)
    told = plain(project, 60.0)
    assert told.proven
    assert shortest(project) == told.makespan


def test_what_is_written_is_read_again(tmp_path):
    for seed in range(5):
        project = drawn(Shape(30), seed)
        assert read_sm(a_file(tmp_path, written_sm(project), f"{project.name}.sm")) == project
    with pytest.raises(ValueError, match="holds no lags"):
        written_sm(Project("x", (Activity(0), Activity(2), Activity(0)), (1,), (Lag(1, 2, 5),)))


def test_broken_tells_what_starts_break(tmp_path):
    project = read_sm(a_file(tmp_path, TINY))
    fits = (0, 4, 0, 9, 4, 11, 12)
    assert broken(project, fits) == []
    assert broken(project, (0, 0, 0, 9, 4, 11, 12)) == ["resource 0 is over-full by 1 at 0"]
    assert broken(project, (0, 4, 0, 9, 4, 10, 12))[0] == "activity 5 starts 1 min too soon"
    assert "activity 5 ends after the end" in broken(project, (*fits[:-1], 11))


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("jobs (incl. supersource/sink ):  7", "jobs (incl. supersource/sink ):  many", 6, "no number stands after"),
        ("renewable                 :  2", "renewable                 :  0", 9, "give 1 to 50"),
        ("nonrenewable              :  0", "nonrenewable              :  1", 10, "renewable ones only"),
        ("   2        1          1           4", "   2        1          2           4", 20, "make the two agree"),
        ("   2        1          1           4", "   3        1          1           4", 20, "in order"),
        ("   2        1          1           4", "   2        3          1           4", 20, "single-mode"),
        ("   2        1          1           4", "   2        1          1           1", 20, "give 3 to 7"),
        ("   2        1          1           4", "   2        1          1           x", 20, '"x" is no whole number'),
        ("  3      1     4       3    0", "  3      1     4       3", 32, "4 numbers where 5 should stand"),
        ("  3      1     4       3    0", "  3      1    -4       3    0", 32, "the length is -4"),
        ("  3      1     4       3    0", "  3      1     4       9    0", 40, "an activity takes 9"),
        ("REQUESTS/DURATIONS:", "REQUESTS:", 41, "the heading REQUESTS/DURATIONS is missing"),
    ],
)
def test_a_malformed_file_is_refused_with_its_line_and_the_mend(tmp_path, old, new, line, words):
    assert old in TINY
    with pytest.raises(Refusal) as refused:
        read_sm(a_file(tmp_path, TINY.replace(old, new)))
    assert refused.value.text.startswith(f"tiny.sm, line {line}: ")
    assert words in refused.value.text
    assert refused.value.text.endswith(".")


def test_a_file_cut_short_is_refused(tmp_path):
    cut = TINY.partition("  4      1     2")[0]
    with pytest.raises(Refusal, match=r"line 32: the file ends where activity 4 .* should stand; give the whole"):
        read_sm(a_file(tmp_path, cut))
    with pytest.raises(Refusal, match="cannot be read"):
        read_sm(tmp_path / "missing.sm")
