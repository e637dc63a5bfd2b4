"""`cookday cure`: a dose on the terminal, its sum, its limit, and what the shell is told."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from app.command import main
from tests.journeys.test_commands import Done

ROOT = Path(__file__).parents[2]
ASKED = ("--meat", "1kg", "--cure", "2.5g", "--fraction", "6.25%", "--method", "comminuted")


@pytest.fixture
def cure(capsys: pytest.CaptureFixture[str]):
    """Run the command in this process as the shell would."""

    def run(*arguments: str) -> Done:
        capsys.readouterr()
        try:
            code = main(["cure", *arguments])
        except SystemExit as ended:
            code = int(ended.code or 0)
        said = capsys.readouterr()
        return Done(code, said.out, said.err)

    return run


def test_the_promised_line_in_a_process_of_its_own():
    done = subprocess.run(
        [sys.executable, "-m", "app.command", "cure", *ASKED],
        cwd=ROOT, capture_output=True, text=True, encoding="utf-8", timeout=100, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert "156.25 ppm" in done.stdout
    assert "limit 156 ppm" in done.stdout
    assert "9 CFR 424.21(c)" in done.stdout
    assert "FSIS Directive 7620.3" in done.stdout
    assert "ppm = 2.5 g cure × 0.0625 × 1000000 / 1000 g meat = 156.25" in done.stdout
    assert "infants" in done.stdout
    assert "local food code" in done.stdout
    assert "safe" not in done.stdout


def test_over_the_limit_ends_with_one(cure):
    done = cure(*ASKED[:2], "--cure", "2.6g", *ASKED[4:])
    assert done.code == 1
    assert "162.5 ppm" in done.out
    assert "OVER THE LIMIT by 6.5 ppm: do not use this dose." in done.out
    assert "2.496 g the 156 ppm of the limit" in done.out


@pytest.mark.parametrize("fraction", ["6.25", "0.0625", "6,25%", "1/16"])
def test_the_fraction_as_it_may_be_written(cure, fraction):
    assert "156.25 ppm" in cure(*ASKED[:4], "--fraction", fraction, *ASKED[6:]).out


def test_nitrate_over_the_limit_ends_with_one_as_well(cure):
    done = cure(
        "--meat", "1kg", "--cure", "1g", "--fraction", "6.25%", "--nitrate", "4%", "--method", "bacon-dry"
    )
    assert done.code == 1
    assert "NONE IS ALLOWED" in done.out


def test_a_target_gives_the_dose(cure):
    done = cure(*ASKED[:2], "--target", "120", *ASKED[4:])
    assert done.code == 0
    assert "For 120 ppm: 1.92 g of this cure." in done.out
    assert "ppm = 1.92 g cure" in done.out


def test_a_pickle_pumped_in(cure):
    asked = (
        "--meat",
        "5kg",
        "--cure",
        "32g",
        "--fraction",
        "5.88%",
        "--method",
        "pumped",
        "--pickle",
        "1266g",
    )
    for pump in ("10%", "10", "0.10"):
        done = cure(*asked, "--pump", pump)
        assert done.code == 0
        assert "148.63 ppm" in done.out
        assert "× 0.1 taken up ×" in done.out


def test_thickness_adds_the_time(cure):
    assert "9 to 14 days for 40 mm (common practice" in cure(*ASKED, "--thickness", "4cm").out


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("--fraction", "625%"), "hundredfold slip"),
        (("--fraction", "0.0625%"), "hundredfold slip"),
        (("--fraction", "0.6"), "If you mean 0.6%"),
        (("--cure", "1tsp"), "weigh it"),
        (("--cure", "2.5"), "weigh it"),
        (("--meat", "two"), '"two"'),
        (("--method", "wet"), "no curing method here"),
        (("--method", "pumped"), "weight of the whole pickle"),
        (("--pump", "1000%"), "hundredfold slip"),
        (("--nitrate", "400%"), "hundredfold slip"),
        (("--thickness", "4kg"), "The thickness"),
        (("--salt", "2kg"), "The salt weighs 2 kg"),
    ],
)
def test_bad_input_ends_with_two_and_one_line(cure, change, words):
    given = dict(zip(ASKED[::2], ASKED[1::2], strict=True)) | dict([change])
    done = cure(*(part for pair in given.items() for part in pair))
    assert (done.code, done.out) == (2, "")
    assert words in done.err
    assert len(done.err.splitlines()) == 1


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (ASKED[2:], "--meat"),
        (ASKED[:2] + ASKED[4:], "--cure"),
        (ASKED[:4] + ASKED[6:], "--fraction"),
        ((*ASKED, "--target", "120"), "--target"),
        ((*ASKED[:2], "--target", "much", *ASKED[4:]), "no number of ppm"),
        ((*ASKED[:2], "--target", "157", *ASKED[4:]), "at most 156 ppm"),
    ],
)
def test_what_is_missing_or_twice(cure, arguments, words):
    done = cure(*arguments)
    assert done.code == 2
    assert words in done.err
