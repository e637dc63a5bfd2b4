"""The curing desk: what a cure brings in, what is refused, what is said."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.curing import Cure, cure_for, ingoing
from core.food.curing_rules import METHODS, Sum, method_named
from core.food.curing_time import cure_time, said_cure_time
from core.food.curing_words import PURE_CAUTION, cautions, cure_lines, said_doses, said_nitrite, said_target
from core.measures import Quantity, Refusal, parse_quantity

MIX = Fraction("0.0625")
grams = st.fractions(min_value=Fraction(1, 10), max_value=20, max_denominator=50)


def asked(method="comminuted", cure="2.5 g", meat="1 kg", **more):
    return Cure(METHODS[method], parse_quantity(meat), parse_quantity(cure), MIX, **more)


def wet(method="pumped", cure="20 g", **more):
    more = {"pickle": parse_quantity("1 kg"), **more}
    if METHODS[method].formula is Sum.PICK_UP:
        more = {"taken_up": Fraction("0.1"), **more}
    return asked(method, cure, **more)


def test_the_formula_shows_its_numbers():
    assert ingoing(asked()).formula == "ppm = 2.5 g cure × 0.0625 × 1000000 / 1000 g meat = 156.25"
    assert ingoing(wet()).formula == (
        "ppm = 20 g cure × 0.0625 × 0.1 taken up × 1000000 / 1000 g pickle = 125"
    )
    assert ingoing(wet("immersion-equilibrium", "6 g")).formula == (
        "ppm = 6 g cure × 0.0625 × 1000000 / (1000 g meat + 1000 g pickle) = 187.5"
    )


@pytest.mark.parametrize(
    ("cure", "over", "under"),
    # limits are compared in whole ppm: 156.5 is the first that rounds to 157, 119.5 the first that rounds to 120
    [
        ("2.503 g", False, False),
        ("2.504 g", True, False),
        ("1.912 g", False, False),
        ("1.911 g", False, True),
    ],
)
def test_a_hair_to_either_side_of_the_limit_and_of_the_minimum(cure, over, under):
    found = ingoing(asked(cure=cure))
    assert (found.over, found.under) == (over, under)


@given(grams, st.sampled_from(list(METHODS)))
def test_the_dose_for_what_a_cure_brings_is_that_cure(cure, method):
    case = wet(method) if METHODS[method].formula is not Sum.MEAT else asked(method)
    found = ingoing(replace(case, cure=Quantity(cure, "g")))
    if found.nitrite <= found.limit:
        assert cure_for(found.nitrite, case) == Quantity(cure, "g")
    else:
        with pytest.raises(Refusal, match="limit"):
            cure_for(found.nitrite, case)


@given(grams, st.sampled_from(list(METHODS)))
def test_the_most_is_not_over_and_a_part_per_million_more_is(cure, method):
    case = wet(method) if METHODS[method].formula is not Sum.MEAT else asked(method)
    found = ingoing(replace(case, cure=Quantity(cure, "g")))
    at_most = ingoing(replace(case, cure=Quantity(found.most, "g")))
    assert at_most.nitrite <= found.limit
    assert ingoing(replace(case, cure=Quantity(found.most * Fraction(101, 100), "g"))).over


def test_salt_is_what_stands_beside_and_in_the_cure():
    found = ingoing(asked(salt=parse_quantity("17.65625 g")))
    assert found.salt == Fraction("0.02")
    assert found.salt_formula == "per cent = 20 g salt × 100 / 1000 g meat = 2"


def test_the_minimum_is_not_asked_where_the_limit_is_lower():
    belly = wet("bacon-pumped", "17 g", skin_on=True)
    found = ingoing(belly)
    assert (found.limit, found.least, found.under) == (108, None, False)
    assert said_doses(found) == "Of this cure 17.28 g make the 108 ppm of the limit, all else as given."
    assert ingoing(replace(belly, skin_on=False)).under


@pytest.mark.parametrize(
    ("case", "words"),
    [
        (asked(cure="1 tsp"), "The cure is “1 tsp”: weigh it"),
        (asked(cure="3"), "The cure is “3”: weigh it"),
        (asked(meat="2 l"), "The meat is “2 l”: weigh it"),
        (asked(meat="0 g"), "The meat: write an amount greater than 0"),
        (asked(cure="1.2 kg"), "are the two exchanged"),
        (asked(salt=parse_quantity("1 kg")), "more than what it goes into"),
        (asked(skin_on=True), "Skin on counts for bellies"),
        (asked(pickle=parse_quantity("1 kg")), "has no pickle"),
        (asked(taken_up=Fraction("0.1")), "has no pickle"),
        (asked("pumped"), "wants the weight of the whole pickle"),
        (asked("pumped", pickle=parse_quantity("1 kg")), "wants the pump or pick-up"),
        (wet("immersion-equilibrium", taken_up=Fraction("0.1")), "has no pump"),
        (wet(cure="999 g", salt=parse_quantity("1 g")), "whole pickle, water and all"),
        (wet(pickle=parse_quantity("1 l")), "weigh it"),
        (wet(taken_up=Fraction("0.01")), '"1%"; it is met from 2% to 60%'),
        (replace(asked(), nitrite=Fraction("6.25")), '"625%" is a hundredfold slip'),
        (replace(asked(), nitrite=Fraction("0.000625")), "hundredfold slip"),
        (replace(asked(), nitrite=Fraction(0)), "it is met from 0.3%"),
        (replace(asked(), nitrite=Fraction(1), nitrate=Fraction("0.04")), "more than the whole cure"),
    ],
)
def test_what_is_refused(case, words):
    with pytest.raises(Refusal, match=words):
        ingoing(case)


def test_methods_by_their_names():
    assert method_named("Bacon dry") is METHODS["bacon-dry"]
    with pytest.raises(Refusal, match='"wet" is no curing method here; write one of comminuted, dry'):
        method_named("wet")


def test_the_target_is_refused_above_the_limit():
    with pytest.raises(Refusal, match="at most 156 ppm, the limit for ground or chopped meat"):
        cure_for(157, asked())
    with pytest.raises(Refusal, match="write more than 0"):
        cure_for(0, asked())


def test_what_is_said():
    found = ingoing(asked(nitrate=Fraction("0.04")))
    said = cure_lines(found)
    assert said[0] == "Cure with 6.25% nitrite and 4% nitrate, ground or chopped meat."
    assert said_nitrite(found) == (
        "Ingoing nitrite: 156.25 ppm as sodium nitrite; limit 156 ppm, not exceeded (compared in whole ppm)."
    )
    assert any(
        "Formula: ppm = 2.5 g cure × 0.0625" in line and "FSIS Directive 7620.3" in line for line in said
    )
    assert any("Limit: 9 CFR 424.21(c)" in line for line in said)
    assert any("Ingoing nitrate: 100 ppm" in line for line in said)
    assert said_target(ingoing(asked(cure="2.496 g"))) == "For 156 ppm: 2.496 g of this cure."


@pytest.mark.parametrize("method", list(METHODS))
@pytest.mark.parametrize("cure", ["1 g", "15 g", "200 g"])
def test_no_result_says_safe_and_all_come_with_cautions(method, cure):
    case = wet(method, cure) if METHODS[method].formula is not Sum.MEAT else asked(method, cure)
    found = ingoing(case)
    said = (*cure_lines(found), *cautions(found))
    assert not any(" safe" in line.casefold().replace("otherwise made safe", "") for line in said)
    assert any("infants" in line for line in said)
    assert any("local food code" in line and "licensed practice" in line for line in said)
    assert any("maker's label" in line for line in said)
    assert ("OVER THE LIMIT" in said_nitrite(found)) == found.over


def test_the_pure_salt_has_a_caution_of_its_own():
    pure = ingoing(replace(asked(cure="0.1 g"), nitrite=Fraction(1)))
    assert cautions(pure)[0] == PURE_CAUTION
    assert PURE_CAUTION not in cautions(ingoing(asked()))


def test_cure_time_by_thickness():
    assert (cure_time(parse_quantity("1 inch")).low, cure_time(parse_quantity("1 inch")).high) == (6, 9)
    assert said_cure_time(cure_time(parse_quantity("4 cm"))).startswith(
        "In the fridge at 4 °C (40 °F) or below, 9 to 14 days for 40 mm (common practice, from memory"
    )
    with pytest.raises(Refusal, match="thicker than the rule bears"):
        cure_time(parse_quantity("10.1 cm"))
    with pytest.raises(Refusal, match="The thickness"):
        cure_time(parse_quantity("1 kg"))
