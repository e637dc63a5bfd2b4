"""How long until the middle is so warm: chart first, then carried over, then the model; and the rest after it."""

from math import isclose, nan

import pytest

from core.food.doneness import (
    MODEL,
    PRACTICE,
    Basis,
    Roasting,
    by_model,
    chart_core,
    length_estimate,
    pieces_of,
    said_span,
)
from core.food.doneness_lethality import in_bag, in_bath
from core.food.doneness_rest import pull_for, resting, said_rest
from core.food.roasting import CHART, Estimate
from core.measures import Refusal, parse_quantity

RIB = parse_quantity("5 lb")


def test_the_chart_comes_first_and_says_so():
    found = length_estimate(RIB, "beef rib", 163)
    assert (found.basis, found.estimate.source) == (Basis.CHART, CHART)
    assert found.said == (
        "beef rib, 5 lb, at 163 °C to 62.8 °C in the middle: 1 h 55 min to 2 h 5 min, likely 2 h, by the chart"
        f" ({CHART}). Begin to look after 1 h 55 min; a probe in the middle of the thickest part decides."
    )


@pytest.mark.parametrize(
    ("setting", "target", "start", "basis"),
    [
        (163, 62.8, 5, Basis.CHART),
        (163, 61.9, 5, Basis.CHART),  # a degree is what a probe reads to
        (163, 61.7, 5, Basis.CARRIED),
        (173, 62.8, 5, Basis.CHART),  # a dial is no finer than ten degrees
        (174, 62.8, 5, Basis.CARRIED),
        (163, 62.8, 7, Basis.CHART),
        (163, 62.8, 7.1, Basis.CARRIED),
    ],
)
def test_where_the_row_stops_fitting_it_is_carried_over(setting, target, start, basis):
    assert length_estimate(RIB, "beef rib", setting, target, start).basis is basis


def test_cooler_ovens_higher_targets_and_colder_pieces_take_longer():
    def likely(setting=163, target=62.8, start=5.0):
        return length_estimate(RIB, "beef rib", setting, target, start).estimate.likely

    assert likely(setting=120) > likely(setting=140) > likely() > likely(setting=200)
    assert likely(target=54) < likely(target=58) < likely(target=68)
    assert likely(start=15) < likely(start=9) < likely()


def test_what_no_row_fits_is_the_models_with_a_spread():
    found = length_estimate(parse_quantity("1.2 kg"), "saddle of venison", 180, 60)
    assert (found.basis, found.estimate.source) == (Basis.MODEL, MODEL)
    assert found.estimate.low < found.estimate.likely < found.estimate.high
    assert "an estimate with that spread" in found.said
    assert "a probe" in found.said


def test_a_known_thickness_is_used():
    thin = length_estimate(
        parse_quantity("3 kg"), "saddle of venison", 180, 60, thickness=parse_quantity("6 cm")
    )
    thick = length_estimate(
        parse_quantity("3 kg"), "saddle of venison", 180, 60, thickness=parse_quantity("10 cm")
    )
    assert thin.estimate.high < thick.estimate.low * 3
    assert thin.estimate.likely < thick.estimate.likely
    ball, long, slab = pieces_of(Roasting("roast", RIB, 180, 60.0, thickness=0.06))
    assert (ball.half, long.half, slab.half) == (0.03, 0.03, 0.03)
    assert (ball.beta, long.beta, slab.beta) == (2, 1, 0)


def test_a_piece_by_weight_has_that_weight():
    ball = pieces_of(Roasting("beef rib", parse_quantity("3 kg"), 163, 60.0))[2]
    assert isclose(4 / 3 * 3.14159265 * ball.half**3 * ball.stuff.density, 3, rel_tol=1e-6)


def test_low_and_slow_goes_by_practice():
    found = length_estimate(parse_quantity("10 lb"), "brisket", 110, 93)
    assert (found.basis, found.estimate) == (Basis.PRACTICE, Estimate(600, 750, 900, PRACTICE))
    assert "cooked till tender" in found.said
    assert length_estimate(parse_quantity("5 lb"), "beef brisket", 150, 84).basis is Basis.MODEL


def test_a_lower_target_than_published_comes_with_its_caution():
    said = length_estimate(RIB, "leg of lamb", 163, 57).said
    assert "57 °C is below the published 62.8 °C (FoodSafety.gov): a target of your own" in said
    assert "not for the pregnant, the very young, the old and the ill" in said
    assert "below the published" not in length_estimate(RIB, "leg of lamb", 163, 63).said
    assert "below the published 73.9" in length_estimate(parse_quantity("10 lb"), "turkey", 163, 70).said


def test_ovens_cooler_than_the_charts_are_named():
    assert "never set the oven below 163 °C (325 F)" in length_estimate(RIB, "beef rib", 162, 60).said
    assert "never set the oven" not in length_estimate(RIB, "beef rib", 163, 60).said


@pytest.mark.parametrize(
    ("cut", "core"),
    [
        ("turkey", 73.9),
        ("minced beef", 71.1),
        ("ground turkey", 73.9),
        ("pork loin", 62.8),
        ("venison", None),
    ],
)
def test_published_cores_by_name(cut, core):
    assert chart_core(cut) == core


@pytest.mark.parametrize(
    ("weight", "cut", "setting", "target", "words"),
    [
        ("1 kg", "venison", 180, None, "venison: no chart names its core temperature"),
        ("1 kg", "beef", 180, 30, "a middle at 30 °C is no target"),
        ("1 kg", "beef", 180, 99, "is no target"),
        ("1 kg", "beef", 180, nan, "write the target and the start"),
        ("1 kg", "beef", 320, 60, "320 °C is no oven setting"),
        ("1 kg", "beef", 70, 68, "set it hotter than the target"),
        ("1 kg", "beef silverside", 85, 75, "drying holds the middle below 75 °C"),
        ("2 l", "beef", 180, 60, "beef: .*weight"),
        ("0 kg", "beef", 180, 60, "beef: write an amount greater than 0"),
        ("1 mg", "beef", 180, 60, "mm thick"),
        ("9000 kg", "beef", 180, 60, "mm thick"),
    ],
)
def test_what_is_refused(weight, cut, setting, target, words):
    with pytest.raises(Refusal, match=words):
        length_estimate(parse_quantity(weight), cut, setting, target)


def test_frozen_pieces_are_refused():
    with pytest.raises(Refusal, match="thaw it first"):
        length_estimate(RIB, "beef rib", 163, 60, start=-18)


def test_spans_are_said():
    assert said_span(Estimate(40, 40, 40, "x")) == "40 min"
    assert said_span(Estimate(40, 50, 70, "x")) == "40 min to 1 h 10 min, likely 50 min,"


def test_the_middle_climbs_off_the_heat_and_falls_again():
    piece = pieces_of(Roasting("beef rib", RIB, 163, 60.0))[1]
    rest = resting(piece, 163, 55, watched=240)
    assert rest.curve.core_at(rest.pulled) == pytest.approx(55, abs=0.1)
    assert rest.least < rest.peak < rest.most
    assert rest.peak_after > 5
    down = rest.falls_to(50)
    assert down is not None
    assert down > rest.peak_after
    assert rest.falls_to(10) is None
    assert "does not count towards a published minimum" in said_rest(rest)


def test_hotter_ovens_carry_over_more():
    piece = pieces_of(Roasting("beef rib", RIB, 163, 60.0))[1]
    assert resting(piece, 110, 55).climbs < resting(piece, 163, 55).climbs < resting(piece, 230, 55).climbs


def test_when_to_pull():
    piece = pieces_of(Roasting("beef rib", RIB, 163, 60.0))[1]
    rest = pull_for(piece, 163, 60)
    assert isclose(rest.peak, 60, abs_tol=0.2)
    assert 45 < rest.pulled_at < 58
    with pytest.raises(Refusal, match="set the oven lower"):
        pull_for(piece, 300, 45)


@pytest.mark.parametrize(
    ("oven", "pull", "room", "words"),
    [
        (163, 30, 22, "Nothing is pulled at 30"),
        (60, 59, 22, "set it hotter"),
        (163, 60, 70, "In a room at 70"),
    ],
)
def test_rests_that_are_refused(oven, pull, room, words):
    with pytest.raises(Refusal, match=words):
        resting(pieces_of(Roasting("beef rib", RIB, 163, 60.0))[1], oven, pull, room)


def test_the_oven_model_orders_its_three():
    found = by_model(Roasting("beef rib", RIB, 163, 60.0))
    assert found.low < found.likely < found.high


def test_a_bath_says_what_it_is():
    found = in_bath("poultry", 25, 60)
    assert "an estimate" in found.said.casefold()
    assert "probe" in found.said
    assert " safe" not in found.said
    for kind, thick, bath, words in (
        ("fish", 20, 60, "knows meat and poultry"),
        ("poultry", 20, 56.9, "outside the table"),
        ("meat", 20, 54.9, "outside the table"),
        ("meat", 4.9, 60, "5 to 70 mm"),
        ("meat", 70.1, 60, "5 to 70 mm"),
    ):
        with pytest.raises(Refusal, match=words):
            in_bath(kind, thick, bath)
    assert in_bag("meat", 29).beta == 0
    assert in_bag("poultry", 29).beta > 0


def test_warmer_baths_and_thinner_pieces_are_quicker():
    assert in_bath("meat", 20, 60).minutes < in_bath("meat", 20, 57).minutes < in_bath("meat", 25, 57).minutes
