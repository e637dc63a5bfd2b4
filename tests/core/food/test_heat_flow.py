"""Heat flow by itself: what must hold for any piece, and what is refused. The outside checks are in tests/outside."""

from math import inf, isclose, nan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.food.heat_flow import Around, Form, Piece, Solver, Thermal, Warming, warming
from core.food.heat_flow_foods import ANY_MEAT, BATH, BOILING, FOODS, OVEN, ROOM, roasting_at, stuff_of
from core.food.heat_flow_series import first_root, fourier_for, missing_at
from core.measures import Refusal

STUFF = Thermal(0.5, 1000, 4000, "round numbers")
betas = st.floats(0, 2)
halves = st.floats(0.002, 0.15)
films = st.floats(2, 2000)


@given(betas, halves, films, st.floats(60, 250))
@settings(max_examples=40)
def test_a_piece_warms_from_outside_in_and_never_past_what_is_around(beta, half, film, around):
    curve = warming(Piece(half, beta, STUFF, 5), (Around(around, film, 60),))
    assert curve.minutes[-1] == pytest.approx(60)
    assert min(curve.core) >= 5 - 0.02 * (around - 5)
    assert max(*curve.core, *curve.surface, *curve.mean) <= around + 0.02 * (around - 5)
    for core, mean, surface in zip(curve.core[5:], curve.mean[5:], curve.surface[5:], strict=True):
        assert core <= mean + 0.05
        assert mean <= surface + 0.05


@given(betas, st.floats(0.01, 0.15), st.floats(5, 200))
@settings(max_examples=25)
def test_what_the_piece_takes_up_is_what_came_through_its_skin(beta, half, film):
    """Energy: the mean's rise is the film's flow added up, by the trapezium over the steps."""
    piece = Piece(half, beta, STUFF, 5)
    curve = warming(piece, (Around(150, film, 40),))
    flow = [film * (150 - each) * (beta + 1) / half for each in curve.surface]
    taken = 0.0
    for place in range(3, len(flow)):
        seconds = (curve.minutes[place] - curve.minutes[place - 1]) * 60
        taken += (flow[place] + flow[place - 1]) / 2 * seconds
    assert isclose(curve.mean[-1] - curve.mean[2], taken / (1000 * 4000), rel_tol=2e-3, abs_tol=1e-6)


def test_twice_as_thick_takes_four_times_as_long_under_the_same_biot_number():
    one = warming(Piece(0.02, 0, STUFF), (Around(100, 50),), until=60).reaches(60)
    two = warming(Piece(0.04, 0, STUFF), (Around(100, 25),), until=60).reaches(60)
    assert isclose(two, 4 * one, rel_tol=1e-9)


def test_phases_follow_each_other():
    piece = Piece(0.05, 2, STUFF)
    split = warming(piece, (Around(150, 20, 30), Around(150, 20, 30)))
    whole = warming(piece, (Around(150, 20, 60),))
    assert isclose(split.core[-1], whole.core[-1], abs_tol=0.1)
    cooled = warming(piece, (Around(150, 20, 60), Around(20, 20, 600)))
    assert cooled.peak[1] > 60
    assert cooled.core[-1] < cooled.peak[0]
    assert warming(piece, (Around(150, 20, 0), Around(150, 20, 10))).minutes[-1] == pytest.approx(10)


def test_a_thin_piece_settles_in_one_long_step():
    curve = warming(Piece(0.002, 0, STUFF), (Around(60, 100, 24 * 60),))
    assert curve.minutes[-1] == 24 * 60
    assert len(curve.core) < 2000
    assert isclose(curve.core[-1], 60, abs_tol=0.01)


def test_until_stops_and_never_is_none():
    piece = Piece(0.03, 1, STUFF)
    curve = warming(piece, (Around(150, 20),), until=60)
    assert curve.core[-1] >= 60 > curve.core[-2]
    assert curve.core_at(curve.reaches(60)) == pytest.approx(60)
    assert warming(piece, (Around(50, 20),), until=60).reaches(60) is None
    assert curve.core_at(-1) == 5
    assert curve.core_at(1e9) == curve.core[-1]
    assert Warming((0.0,), (70.0,), (70.0,), (70.0,)).reaches(60) == 0


def test_the_solvers_mean_is_by_volume():
    solver = Solver(Piece(0.1, 2, STUFF), nodes=3)
    solver.temperatures = [0.0, 0.0, 100.0]
    assert isclose(solver.mean(), 100 * (1 - 0.75**3))


@pytest.mark.parametrize(
    ("piece", "phase", "words"),
    [
        (Piece(0.0004, 0, STUFF), Around(100, 20), "0.8 mm thick"),
        (Piece(0.51, 0, STUFF), Around(100, 20), "1020 mm thick"),
        (Piece(nan, 0, STUFF), Around(100, 20), "thick"),
        (Piece(0.1, 2.1, STUFF), Around(100, 20), "The shape has beta 2.1"),
        (Piece(0.1, 0, STUFF, 200), Around(100, 20), "The piece starts at 200"),
        (Piece(0.1, 0, Thermal(0, 1, 1, "none")), Around(100, 20), "more than 0"),
        (Piece(0.1, 0, STUFF), Around(100, 0), "coefficient is 0"),
        (Piece(0.1, 0, STUFF), Around(100, inf), "coefficient is inf"),
        (Piece(0.1, 0, STUFF), Around(900, 20), "Around the piece it is 900"),
        (Piece(0.1, 0, STUFF), Around(100, 20, -1), "A phase lasts -1"),
    ],
)
def test_what_is_refused(piece, phase, words):
    with pytest.raises(Refusal, match=words):
        warming(piece, (phase,), until=60)


def test_the_first_term_refuses_what_cannot_be():
    with pytest.raises(Refusal, match="nothing warms"):
        first_root(0.0, 0.0)
    for missing in (0.0, 1.0, -0.1):
        with pytest.raises(Refusal, match="between its start"):
            fourier_for(0.0, 1.0, missing)


@given(betas, st.floats(0.05, 100), st.floats(0.01, 0.7))
def test_the_first_term_turns_back(beta, biot, missing):
    tau = fourier_for(beta, biot, missing)
    assert isclose(missing_at(beta, biot, tau), missing, rel_tol=1e-9)


def test_every_number_has_its_source():
    for each in (*FOODS.values(), ANY_MEAT, OVEN, BATH, BOILING, ROOM):
        assert each.source
    assert stuff_of("rib of beef") is FOODS["beef"]
    assert stuff_of("Capon") is FOODS["chicken"]
    assert stuff_of("saddle of something") is ANY_MEAT
    assert [form.value for form in Form] == [0, 1, 2]


def test_drying_cools_what_a_piece_feels():
    felt, dry = roasting_at(163), roasting_at(163, 18, 0.0)
    assert (dry.celsius, dry.film) == (163, 18)
    assert felt.celsius < 163
    assert felt.film > 18
    # the flow into a surface at 50 °C is the oven's less the drying's
    assert isclose(felt.film * (felt.celsius - 50), 18 * (163 - 50) - 18 * 2 / 3 * (50 - 30))
