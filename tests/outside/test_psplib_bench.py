"""What `make bench` says of benchmark projects and of what is to be reached is what was found."""

from __future__ import annotations

import pytest

from bench.__main__ import main
from bench.asked import ASKED
from bench.contest import Answer, at_once, ours, plain
from bench.instance_files import made, sets_of
from bench.random_projects import Shape, drawn
from bench.random_projects import main as write_random
from bench.reach import seconds, table
from bench.row import Row
from bench.row_instances import _gap, _least, _proven, rows
from core.measures.refusal import Refusal


@pytest.fixture
def asked():
    """Give what was asked on the command line, put back afterwards."""
    before = (ASKED.instances, ASKED.most)
    yield ASKED
    ASKED.instances, ASKED.most = before


@pytest.mark.parametrize("lags", [False, True])
def test_ours_and_the_plain_model_prove_the_same(lags):
    for seed in (1, 2, 3):
        project = drawn(Shape(15, lags, strength=0.3), seed)
        answers = [solve(project, 30.0) for solve in (ours, at_once, plain)]
        assert all(each.proven for each in answers)
        assert len({each.makespan for each in answers}) == 1


def test_a_folder_of_random_projects_is_measured_set_by_set(tmp_path, asked, capsys):
    write_random([str(tmp_path / "some"), "--activities", "8", "--count", "3"])
    write_random([str(tmp_path / "some"), "--activities", "8", "--count", "3", "--kind", "sch"])
    asked.instances, asked.most = tmp_path / "some", 2
    assert {name: len(some) for name, some in sets_of(asked.instances, asked.most).items()} == {
        ".sm 8": 2, ".sch 8": 2,
    }  # fmt: skip
    found = [row for row in rows(20.0) if row.line == "projects"]
    assert [row.size for row in found] == [".sch 8 (2)", ".sm 8 (2)"]
    assert all(row.figure.endswith("100 %; 0.00 %") for row in found)
    assert all(row.met for row in found)


def test_a_folder_without_files_is_refused(tmp_path, asked, capsys):
    with pytest.raises(Refusal, match=r"There is no \.sm or \.sch file in"):
        sets_of(tmp_path, 5)
    with pytest.raises(Refusal, match="is no folder"):
        sets_of(tmp_path / "missing", 5)
    assert main(["--only", "instances", "--instances", str(tmp_path)]) == 1
    assert "There is no .sm or .sch file" in capsys.readouterr().out


def test_shares_and_gaps_are_reckoned_from_the_answers():
    one = [Answer(50, True, 0.5), Answer(60, True, 4.0), Answer(80, False, 10.0), Answer(None, False, 10.0)]
    other = [Answer(50, True, 0.5), Answer(66, False, 9.0), Answer(75, False, 10.0), Answer(40, False, 10.0)]
    least = _least({"one": one, "other": other})
    assert least == [50, 60, 75, 40]
    assert _proven(one, [1.0, 5.0]) == [25, 50]
    assert _gap(one, least) == pytest.approx((100 * 5 / 75 + 100) / 4)
    with pytest.raises(RuntimeError, match="proven answers differ"):
        _least({"one": [Answer(50, True, 1.0)], "other": [Answer(49, False, 1.0)]})


def test_projects_made_here_are_the_same_every_time():
    sets = made()
    assert sets == made()
    assert {name: len(some) for name, some in sets.items()}["made 30"] == 8


@pytest.mark.parametrize(
    ("figure", "found"),
    [("812 ms", 0.812), ("0.3 s", 0.3), ("95.5 µs", 95.5e-6), ("none in 60 s", None), ("5 %", None)],
)
def test_figures_are_read_as_seconds(figure, found):
    assert seconds(figure) == (None if found is None else pytest.approx(found))


def test_the_table_says_what_is_met_missed_and_not_measured():
    measured = [
        ("arrange", Row("first clash-free timetable", "84 steps", "250 ms", "0.3 s", "first")),
        ("arrange", Row("first clash-free timetable", "203 steps", "3.0 s", "1 s", "first")),
        ("arrange", Row("first clash-free timetable", "399 steps", "none in 60 s", "5 s", "first")),
        ("arrange", Row("first clash-free timetable", "1001 steps", "9.0 s", "", "first")),
        ("chances", Row("10,000 chances", "84 steps", "20 ms", "50 ms")),
        ("why", Row("why not: median", "84 steps", "100 ms", "500 ms")),
        ("why", Row("why not: p90", "84 steps", "700 ms", "500 ms")),
        ("instances", Row("ours", "made 30 (8)", "100 %", "100 %", "projects", met=True)),
    ]
    lines = list(table(measured))
    first = next(line for line in lines if line.startswith("first clash-free"))
    assert " ".join(first.split()) == (
        "first clash-free timetable of a solvable feast"
        " 250 ms of 0.3 s met 3.0 s of 1 s MISSED none in 60 s of 5 s MISSED 9.0 s"
    )
    assert any(line.startswith("10,000 chances ") and "20 ms of 50 ms met" in line for line in lines)
    assert any(line.startswith("why not") and "700 ms of 0.5 s MISSED" in line for line in lines)
    assert any("203 steps: missed, 3.0 times the 1 s to be reached." in line for line in lines)
    assert any("399 steps: missed, none in 60 s where 5 s was to be reached." in line for line in lines)
    assert any(line.endswith("--only validator measures it.") for line in lines)
    assert any("projects made 30 (8)" in line and line.endswith(": met") for line in lines)
