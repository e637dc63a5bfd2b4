"""Temperatures: what people type, ranges around a setting, and what a dial shows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures import Refusal, parse_heat, parse_heat_range, show_heat, show_heat_range
from core.measures.typed_heat import COLDEST, HOTTEST


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("190", 190),
        ("190C", 190),
        ("190 °C", 190),
        ("190 degrees c", 190),
        ("4", 4),
        ("-18", -18),
        ("−18 °C", -18),
        ("375F", 191),
        ("375 °F", 191),
        ("375 fahrenheit", 191),
        ("gas 5", 191),
        ("Gas Mark 5", 191),
        ("gas mark 1/2", 121),
        ("gas ½", 121),
        ("gas 4 1/2", 184),
        ("fan 170", 190),
        ("fan170C", 190),
        ("170 °C fan", 190),
        ("convection 325F", 177),
        ("62.8C", 63),
        ("800C", 800),
    ],
)
def test_what_people_type_is_read(text: str, celsius: int) -> None:
    assert parse_heat(text) == celsius


def test_a_bare_number_is_in_the_scale_asked_for() -> None:
    assert parse_heat("375", bare="fahrenheit") == 191
    assert parse_heat("190C", bare="fahrenheit") == 190
    assert parse_heat_range("350-375", bare="fahrenheit") == (177, 184, 191)
    assert parse_heat_range("375 ±25", bare="fahrenheit") == (177, 191, 204)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("375", '"375" could be Celsius or Fahrenheit; write 375C or 375F.'),
        ("gas 0", '"gas 0": gas marks are 1/4, 1/2 and 1 to 10'),
        ("gas 11", "gas marks are 1/4, 1/2 and 1 to 10"),
        ("gas 3/4", "gas marks are 1/4, 1/2 and 1 to 10"),
        ("hot", '"hot" is not a temperature; write it as 190C, 375F, gas 5 or fan 170.'),
        ("gas", "is not a temperature"),
        ("", "No temperature is written"),
        ("1000C", "write one from -80 to 800 °C"),
        ("-200C", "write one from -80 to 800 °C"),
        ("1/0", "nothing can be divided by 0"),
        ("190K", "is not a temperature"),
    ],
)
def test_a_refusal_names_the_text_and_the_mend(text: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_heat(text)
    assert says in refused.value.text


@pytest.mark.parametrize(
    ("text", "low_setting_high"),
    [
        ("190C", (175, 190, 205)),
        ("190±10", (180, 190, 200)),
        ("190 +/- 10 C", (180, 190, 200)),
        ("230 C +/-10", (220, 230, 240)),
        ("180-200C", (180, 190, 200)),
        ("180 °C – 200 °C", (180, 190, 200)),
        ("180 to 201C", (180, 191, 201)),
        ("150/160/175C", (150, 160, 175)),
        ("375F +-25F", (177, 191, 204)),
        ("375F ±25", (177, 191, 204)),
        ("375 ±25F", (177, 191, 204)),
        ("190C ±25F", (176, 190, 204)),
        ("350-375F", (177, 184, 191)),
        ("300 ±15 °C", (285, 300, 315)),
        ("-20 to -16 C", (-20, -18, -16)),
        ("-20--16C", (-20, -18, -16)),
        ("0-4C", (0, 2, 4)),
        ("gas 4-5", (177, 184, 191)),
        ("gas 4 ±1", (163, 177, 191)),
        ("gas 4 ±1 mark", (163, 177, 191)),
        ("gas 4 ±10C", (167, 177, 187)),
        ("gas 1/2-1", (121, 128, 135)),
        ("fan 160-180", (180, 190, 200)),
        ("160-180 fan", (180, 190, 200)),
        ("fan 170 ±10", (180, 190, 200)),
    ],
)
def test_ranges_are_read(text: str, low_setting_high: tuple[int, int, int]) -> None:
    assert parse_heat_range(text) == low_setting_high


def test_the_tolerance_around_one_temperature_can_be_chosen() -> None:
    assert parse_heat_range("190C", tolerance=5) == (185, 190, 195)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("200-180C", "write the lower temperature first"),
        ("160/150/175C", "write the lower temperature first"),
        ("180-", "is not a temperature"),
        ("180-190-200", "is not a temperature"),
        ("190 ±x", "is not a temperature"),
        ("190C ±-5", "write the spread as degrees"),
        ("190C ±fan 5", "write the spread as degrees"),
        ("190C ±gas 1", "write the spread as degrees"),
        ("gas 1 ±1", "gas marks are 1/4, 1/2 and 1 to 10"),
        ("375-400", "could be Celsius or Fahrenheit"),
        ("700C ±200", "write one from -80 to 800 °C"),
    ],
)
def test_a_refused_range_says_the_mend(text: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_heat_range(text)
    assert says in refused.value.text


@given(st.integers(COLDEST, HOTTEST), st.sampled_from(["celsius", "fahrenheit"]))
def test_shown_heat_reads_back_to_the_degree(celsius: int, system: str) -> None:
    assert parse_heat(show_heat(celsius, system)) == celsius


@given(st.integers(COLDEST, HOTTEST), st.sampled_from(["celsius", "fahrenheit"]))
def test_heat_shown_as_a_dial_has_it_reads_back_within_half_its_step(celsius: int, system: str) -> None:
    shown = show_heat(celsius, system, dial=True)
    assert int(shown.split()[0].replace("−", "-")) % 5 == 0
    assert abs(parse_heat(shown) - celsius) <= 2


@given(st.integers(COLDEST, HOTTEST))
def test_heat_shown_in_gas_reads_back_within_one_mark(celsius: int) -> None:
    shown = show_heat(celsius, "gas")
    within = 0 if shown.endswith("C") else 12
    assert abs(parse_heat(shown) - celsius) <= within
    if 107 <= celsius <= 260:  # the scale itself: half the 25 °F between marks is 7 °C
        assert shown.startswith("gas ")
        assert abs(parse_heat(shown) - celsius) <= 7


@pytest.mark.parametrize(
    ("celsius", "system", "dial", "shown"),
    [
        (190, "celsius", False, "190 °C"),
        (191, "celsius", True, "190 °C"),
        (190, "fahrenheit", False, "374 °F"),
        (190, "fahrenheit", True, "375 °F"),
        (191, "gas", False, "gas 5"),
        (190, "gas", True, "gas 5"),
        (121, "gas", False, "gas ½"),
        (60, "gas", False, "60 °C"),
        (300, "gas", False, "300 °C"),
        (-18, "celsius", False, "−18 °C"),
        (-18, "fahrenheit", False, "0 °F"),
    ],
)
def test_heat_is_shown_in_each_system(celsius: int, system: str, dial: bool, shown: str) -> None:
    assert show_heat(celsius, system, dial) == shown


def test_an_unknown_system_is_our_own_fault() -> None:
    with pytest.raises(ValueError, match="kelvin"):
        show_heat(190, "kelvin")


@given(st.lists(st.integers(COLDEST, HOTTEST), min_size=3, max_size=3).map(sorted))
def test_shown_ranges_read_back(three: list[int]) -> None:
    low, setting, high = three
    assert parse_heat_range(show_heat_range(low, setting, high)) == (low, setting, high)


@given(st.integers(-60, 700), st.integers(0, 20))
def test_shown_even_ranges_read_back(setting: int, by: int) -> None:
    shown = show_heat_range(setting - by, setting, setting + by)
    assert "±" in shown
    assert parse_heat_range(shown) == (setting - by, setting, setting + by)


def outcome(text: str) -> tuple[int, int, int] | str:
    try:
        return parse_heat_range(text)
    except Refusal as refused:
        return refused.text


@given(st.text(alphabet="0123456789 ./-±CFgasn°", max_size=14))
def test_any_text_that_looks_like_a_range_is_in_order_or_refused(text: str) -> None:
    read = outcome(text)
    assert read.endswith(".") if isinstance(read, str) else read[0] <= read[1] <= read[2]
