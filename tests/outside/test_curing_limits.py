"""Ingoing nitrite and nitrate against US limits and worked cases.

Limits: 9 CFR 424.21(c), 424.22(b); FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook (rev. 1995),
chapter 3, whose formulas are used as printed. R: read there, R2: read where it is quoted, C: computed from those,
M: from memory. Doses of curing salt: common practice of its makers.
"""

from dataclasses import replace
from fractions import Fraction
from math import isclose

import pytest

from core.food.curing import Cure, cure_for, ingoing
from core.food.curing_rules import METHODS, MINIMUM
from core.food.curing_shares import NITRITE, PUMP, parse_share
from core.measures import Refusal, convert, parse_quantity

PURE = Fraction(1)
CURE_1 = Fraction("0.0625")  # 6.25 % sodium nitrite, R2


def found(method, meat, cure, nitrite, pickle=None, pump=None, nitrate=Fraction(0)):
    wet = parse_quantity(pickle) if pickle else None
    return ingoing(
        Cure(METHODS[method], parse_quantity(meat), parse_quantity(cure), nitrite, nitrate, wet, pump)
    )


def test_a_quarter_ounce_on_a_hundred_pounds_chopped():
    """C from 424.21(c): 156.25 ppm, the limit printed as 156; compared rounded."""
    ours = found("comminuted", "100 lb", "1/4 oz", PURE)
    assert ours.nitrite == Fraction("156.25")
    assert (ours.limit, ours.over) == (156, False)


def test_an_ounce_on_a_hundred_pounds_dry():
    """C from 424.21(c)."""
    ours = found("dry", "100 lb", "1 oz", PURE)
    assert (ours.nitrite, ours.limit, ours.over) == (625, 625, False)


@pytest.mark.parametrize(("cure", "meat"), [("1 oz", "25 lb"), ("0.20 oz", "80 oz"), ("2.5 g", "1 kg")])
def test_the_makers_dose_of_a_quarter_per_cent(cure, meat):
    """Curing-salt makers' dose, common practice; C."""
    assert found("comminuted", meat, cure, CURE_1).nitrite == Fraction("156.25")


@pytest.mark.parametrize(
    ("method", "ppm", "grams"),
    [("comminuted", 156, "2.496"), ("bacon-dry", 120, "1.92"), ("bacon-dry", 200, "3.2"), ("dry", 625, "10")],
)
def test_the_dose_for_a_target(method, ppm, grams):
    """C: 1 kg of meat, 6.25 %."""
    asked = Cure(METHODS[method], parse_quantity("1 kg"), parse_quantity("1 g"), CURE_1)
    assert convert(cure_for(ppm, asked), "g").amount == Fraction(grams)


def test_a_pumped_pickle_of_fifty_pounds_of_cure():
    """Worked case in the form of 7620.3: cure at 0.75 %, 20 % pump, 462.1875 lb pickle: printed 162. R; C."""
    ours = found("pumped", "1000 lb", "50 lb", Fraction("0.0075"), "462.1875 lb", Fraction("0.2"))
    assert isclose(ours.nitrite, 162.27, abs_tol=0.005)
    assert (ours.limit, ours.over) == (200, False)


def test_dry_bellies():
    """Worked case in the form of 7620.3: 5 lb of cure at 0.40 % on 100 lb. R."""
    ours = found("bacon-dry", "100 lb", "5 lb", Fraction("0.004"))
    assert (ours.nitrite, ours.limit, ours.over) == (200, 200, False)


def test_a_pumped_pickle_of_a_weaker_mix():
    """The pumped formula of 7620.3 (R2) with 5.88 %; C."""
    ours = found("pumped", "5 kg", "32 g", Fraction("0.0588"), "1266 g", Fraction("0.1"))
    assert isclose(ours.nitrite, 148.63, abs_tol=0.01)


def test_equilibrium_of_meat_and_pickle():
    """7620.3, immersion method 2: 150 ppm, 8 lb and 31.71 lb. R."""
    asked = Cure(
        METHODS["immersion-equilibrium"],
        *(parse_quantity("8 lb"), parse_quantity("1 g"), PURE),
        pickle=parse_quantity("31.71 lb"),
    )
    assert isclose(convert(cure_for(150, asked), "lb").amount, 0.0059565, abs_tol=1e-7)
    mix = Cure(
        METHODS["immersion-equilibrium"],
        *(parse_quantity("8 lb"), parse_quantity("1 g"), CURE_1),
        pickle=parse_quantity("31.71 lb"),
    )
    assert isclose(convert(cure_for(150, mix), "lb").amount, 0.095304, abs_tol=1e-6)


@pytest.mark.parametrize(("ounces", "ppm", "printed"), [("3", 140.6, 140), ("4", 187.6, 188)])
def test_ounces_of_cure_in_a_gallon_of_pickle(ounces, ppm, printed):
    """8.33 lb of pickle, 10 % pump; 7620.3's pumped formula, R2; C."""
    ours = found("pumped", "10 lb", f"{ounces} oz", CURE_1, "8.33 lb", Fraction("0.1"))
    assert isclose(ours.nitrite, ppm, abs_tol=0.1)
    assert abs(ours.nitrite - printed) < 1


def test_a_pump_of_ten_where_a_tenth_is_meant():
    """7620.3: its "%" is entered as a fraction (R2). 10 as a share is a hundred times too much and refused."""
    with pytest.raises(Refusal, match=r"The pump or pick-up: .*1000%.*hundredfold.*10%"):
        found("pumped", "5 kg", "32 g", Fraction("0.0588"), "1266 g", Fraction(10))
    assert parse_share("10", PUMP) == parse_share("10%", PUMP) == parse_share("0.10", PUMP) == Fraction("0.1")


def test_two_pounds_to_a_hundred_gallons():
    """424.21(c): at 10 % pump 200 ppm only where 100 gal of pickle weigh 1000 lb; at water's weight 239.7 (C)."""
    printed = found("pumped", "100 lb", "2 lb", PURE, "1000 lb", Fraction("0.1"))
    watery = found("pumped", "100 lb", "2 lb", PURE, "834.5 lb", Fraction("0.1"))
    assert (printed.nitrite, printed.over) == (200, False)
    assert isclose(watery.nitrite, 239.7, abs_tol=0.1)
    assert watery.over


@pytest.mark.parametrize(
    ("method", "limit"),
    [
        ("comminuted", 156), ("dry", 625), ("pumped", 200), ("immersion-pickup", 200),
        ("immersion-equilibrium", 200), ("bacon-dry", 200), ("bacon-pumped", 120), ("bacon-pickup", 120),
        ("bacon-equilibrium", 120),
    ],
)  # fmt: skip
def test_the_limits_printed(method, limit):
    """7620.3, chapter 3; bacon 9 CFR 424.22(b). R2."""
    assert METHODS[method].limit == limit


def test_every_method_has_its_limit_above_checked():
    assert len(METHODS) == 9
    assert MINIMUM == 120  # 7620.3, R2


def test_skin_takes_a_tenth_off_the_limit_of_bellies():
    """7620.3, R2."""
    asked = Cure(METHODS["bacon-dry"], parse_quantity("1 kg"), parse_quantity("2.88 g"), CURE_1, skin_on=True)
    ours = ingoing(asked)
    assert (ours.limit, ours.nitrite, ours.over) == (180, 180, False)


@pytest.mark.parametrize(
    ("method", "ounces", "ppm"), [("dry", "3 1/2", "2187.5"), ("comminuted", "2 3/4", "1718.75")]
)
def test_nitrate_by_the_ounce(method, ounces, ppm):
    """424.21(c), R2: 3 1/2 oz on 100 lb dry, 2 3/4 oz chopped; here in a mix of 10 % with 0.3 % nitrite."""
    mix = parse_quantity(f"{ounces} oz").times(10)
    ours = ingoing(
        Cure(METHODS[method], parse_quantity("100 lb"), mix, Fraction("0.003"), nitrate=Fraction("0.1"))
    )
    assert ours.nitrate == ours.nitrate_limit == Fraction(ppm)
    assert not ours.nitrate_over
    more = ingoing(replace(ours.asked, cure=mix.times(Fraction(101, 100))))
    assert more.nitrate_over


def test_no_nitrate_in_bacon():
    """424.21(c), 424.22(b), R2: any is too much."""
    for method in ("bacon-dry", "bacon-pumped"):
        wet = ("1200 g", Fraction("0.1")) if method == "bacon-pumped" else (None, None)
        ours = found(method, "1 kg", "1 g", CURE_1, *wet, nitrate=Fraction("0.04"))
        assert ours.nitrate_over
        assert not ours.over


@pytest.mark.parametrize(("typed", "share"), [("6.25%", "0.0625"), ("5.88%", "0.0588"), ("0.6%", "0.006")])
def test_mixes_that_are_sold(typed, share):
    """US 6.25 %, UK 5.88 % and 0.6 %: R2. The same number with and without its sign is one share or refused."""
    assert parse_share(typed, NITRITE) == Fraction(share)
    assert parse_share(share, NITRITE) == Fraction(share)
    bare = typed.removesuffix("%")
    if Fraction(bare) > 1:
        assert parse_share(bare, NITRITE) == Fraction(share)
    else:
        with pytest.raises(Refusal, match="hundredfold"):
            parse_share(bare, NITRITE)
