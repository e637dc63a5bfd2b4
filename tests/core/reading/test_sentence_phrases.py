"""Phrases of sentences: lengths and how they are meant, temperatures, places, cues."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures.gas_mark import MARKS, celsius_of_gas
from core.measures.number import show_fraction
from core.plan.kitchen import StationKind
from core.plan.step import Heat, Span
from core.reading.phrases import OVEN_WORDS, OVERNIGHT, Kind, cues, durations, places, temperatures


def lengths(text):
    return [
        (found.kind, found.text, (found.value.low, found.value.likely, found.value.high))
        for found in durations(text)
    ]


# ---------------------------------------------------------------- lengths


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("30 to 35 minutes", (30, 33, 35)),
        ("20-25 mins", (20, 23, 25)),
        ("2–3 hours", (120, 150, 180)),
        ("between 20 and 25 minutes", (20, 23, 25)),
        ("1 to 1 1/2 hours", (60, 75, 90)),
        ("1¼–1½ hours", (75, 83, 90)),
        ("45 minutes to 1 hour", (45, 53, 60)),
        ("45 to 1 hour", (45, 53, 60)),
        ("1 hour–1 hour 15 minutes", (60, 68, 75)),
        ("1½ hours", (90, 90, 90)),
        ("1-1/2 hours", (90, 90, 90)),
        ("one and a half hours", (90, 90, 90)),
        ("an hour and a quarter", (75, 75, 75)),
        ("half an hour", (30, 30, 30)),
        ("a quarter of an hour", (15, 15, 15)),
        ("three quarters of an hour", (45, 45, 45)),
        ("1 hr 20 mins", (80, 80, 80)),
        ("1h20", (80, 80, 80)),
        ("2 h 30.", (150, 150, 150)),
        ("forty-five minutes", (45, 45, 45)),
        ("45 seconds", (1, 1, 1)),
        ("90 seconds", (2, 2, 2)),
        ("a minute or two", (1, 2, 2)),
        ("a couple of minutes", (1, 2, 3)),
        ("a few hours", (120, 180, 300)),
        ("overnight", (480, 600, 840)),
        ("about 1 hour", (54, 60, 66)),
        ("5 minutes or so", (4, 5, 6)),
        ("about 30 to 40 minutes", (30, 35, 40)),
        ("3 days", (4320, 4320, 4320)),
        ("5 more minutes", (5, 5, 5)),
    ],
)
def test_a_length_is_read(text, span):
    for around in ("{}", "Cook for {}", "Cook it ({}) and go on"):
        assert [found.value for found in durations(around.format(text))] == [Span(*span)], around


@pytest.mark.parametrize(
    ("text", "kind", "words"),
    [
        ("Cook for a further 10 minutes", Kind.DURATION, "10 minutes"),
        ("Chill for at least 2 hours", Kind.LEAST, "2 hours"),
        ("Leave it 30+ minutes", Kind.LEAST, "30+ minutes"),
        ("Keeps for up to 2 days", Kind.MOST, "2 days"),
        ("Do not cook it for more than 3 minutes", Kind.MOST, "3 minutes"),
        ("Fry for 4 minutes per side", Kind.PER_SIDE, "4 minutes"),
        ("Fry for 4 minutes on each side", Kind.PER_SIDE, "4 minutes"),
        ("Roast for 25 minutes per kg", Kind.PER_WEIGHT, "25 minutes"),
        ("Baste every 20 minutes", Kind.EVERY, "20 minutes"),
        ("Turn it once an hour", Kind.EVERY, "an hour"),
        ("After 20 minutes, baste it", Kind.AFTER, "20 minutes"),
        ("Uncover it for the last 10 minutes", Kind.PART, "10 minutes"),
        ("Uncover it 10 minutes before the end", Kind.PART, "10 minutes"),
        ("Make it a day ahead", Kind.AHEAD, "a day"),
        ("Make it the day before", Kind.AHEAD, "the day before"),
        ("Take it out 1 hour before cooking", Kind.BEFORE, "1 hour"),
        ("Let it rest for 20 minutes before carving", Kind.DURATION, "20 minutes"),
    ],
)
def test_how_a_length_is_meant(text, kind, words):
    assert [(each[0], each[1]) for each in lengths(text)] == [(kind, words)]


@pytest.mark.parametrize(
    "text",
    [
        "Serves 4",
        "2 cm thick, 180 g, 12 pieces",
        "C minor, vitamin C",
        "a 3-day-old loaf and 28-day aged beef",
        "for a second tin",
        "Cook the other half",
        "450 ml hot stock",
        "step 5. Mince it",
        "at 7 pm",
        "use 5 hardly ripe pears",
        "1/0 hours",
    ],
)
def test_what_is_no_length(text):
    assert durations(text) == ()


def test_lengths_beyond_a_year_are_not_read():
    assert durations("Age it for 24 months") == ()
    assert [found.value for found in durations("Keep it 12 months")] == [Span.of(360 * 24 * 60)]


@given(st.integers(1, 240), st.integers(0, 240))
def test_any_range_in_minutes_comes_back(low, more):
    for join in ("-", "–", " to ", " - "):
        found = durations(f"Bake for {low}{join}{low + more} minutes.")
        if more:
            assert [each.value for each in found] == [Span(low, (2 * low + more + 1) // 2, low + more)]


@given(st.text(alphabet="0123456789½ /-–.,'°CFhminorutegas()toand", max_size=80))
def test_whatever_is_written_has_phrases_inside_it(text):
    for found in (*durations(text), *temperatures(text), *places(text), *cues(text)):
        assert 0 <= found.start < found.end <= len(text)
        assert text[found.start : found.end] == found.text
    for found in durations(text):
        assert 0 < found.value.low <= found.value.likely <= found.value.high


@given(st.text(max_size=120))
def test_strange_signs_shift_nothing(text):
    read = text + " İß. Bake for 20 minutes at 180C."
    assert [found.text for found in durations(read)][-1:] == ["20 minutes"]
    assert [found.text for found in temperatures(read)][-1:] == ["180C"]


# ---------------------------------------------------------------- temperatures


@pytest.mark.parametrize(
    ("text", "celsius", "words"),
    [
        ("Heat the oven to 200C/180C fan/gas 6", 200, "200C/180C fan/gas 6"),
        ("Heat the oven to 200/180 fan/gas 6.", 200, "200/180 fan/gas 6"),
        ("Heat the oven to 180°C (160°C fan), Gas 4.", 180, "180°C (160°C fan), Gas 4"),
        ("Fan 160°C / conventional 180°C", 180, "Fan 160°C / conventional 180°C"),
        ("Heat the oven to fan 160C", 180, "fan 160C"),
        ("Bake at 375°F.", 191, "375°F"),
        ("Slide it into a 350 oven", 177, "350"),
        ("Bake at 425 for a while", 218, "425"),
        ("Bake at 180 for 20 minutes", 180, "180"),
        ("Roast at gas mark 5", 191, "gas mark 5"),
        ("Bake in a moderate oven", 180, "moderate oven"),
        ("Bake in a moderate oven (190C)", 190, "moderate oven (190C"),
        ("Roast at 180-200C", 190, "180-200C"),
        ("Freeze at -18C", -18, "-18C"),
        ("Keep it below 4C", 4, "4C"),
        ("Bake at 400F (200C)", 200, "400F (200C"),
    ],
)
def test_a_temperature_is_read(text, celsius, words):
    assert [(found.value.celsius, found.text) for found in temperatures(text)] == [(celsius, words)]


@pytest.mark.parametrize("mark", MARKS)
def test_gas_marks_are_those_of_the_table(mark):
    found = temperatures(f"Bake at gas mark {show_fraction(mark)} for an hour")
    assert [each.value.celsius for each in found] == [round(celsius_of_gas(mark))]


@pytest.mark.parametrize("words", OVEN_WORDS)
def test_every_name_of_an_oven_is_read_whole(words):
    (found,) = temperatures(f"Bake in a {words} oven.")
    assert found.text == f"{words} oven"
    assert (found.value.celsius, found.value.low, found.value.high) == OVEN_WORDS[words]


def test_a_fan_setting_alone_is_marked_and_twenty_degrees_lower():
    (alone,) = temperatures("Bake at 160C fan.")
    (both,) = temperatures("Bake at 180C/160C fan.")
    assert (alone.value.celsius, alone.value.fan) == (180, True)
    assert (both.value.celsius, both.value.fan) == (180, False)


def test_a_lone_setting_bears_the_usual_tolerance_and_a_range_its_own():
    assert temperatures("Bake at 180C.")[0].value.heat == Heat(180, 165, 195)
    assert temperatures("Bake at 170-190C.")[0].value.heat == Heat(180, 170, 190)


@pytest.mark.parametrize(
    ("text", "core"),
    [
        ("Roast until 63C inside", [True]),
        ("Roast at 180C until the middle reads 63C", [False, True]),
        ("Roast at 160C to a core temperature of 58C", [False, True]),
        ("Bake on the middle shelf at 190C", [False]),
        ("Fry the leeks in oil and bake at 190C", [False]),
        ("Fry in oil at 180C", [True]),
        ("Heat the oil to 180C", [True]),
        ("Boil the syrup to 118C", [True]),
        ("Lower the oven to 90C", [False]),
        ("Ferment at 25C", [False]),
    ],
)
def test_in_the_food_or_on_the_dial(text, core):
    assert [found.value.core for found in temperatures(text)] == core


@pytest.mark.parametrize(
    "text",
    [
        "Fry over medium heat",
        "Bring to room temperature",
        "Play it in C minor",
        "Add 2 C of flour and vitamin C",
        "Turn the tin 180 degrees",
        "Cut at a 45 degree angle",
        "Line a 350 g tin",
        "Put it in the hot oven",
        "Gas 15",
    ],
)
def test_what_is_no_temperature(text):
    assert temperatures(text) == ()


def test_a_change_is_two_temperatures_not_a_range():
    assert [found.value.celsius for found in temperatures("Raise the oven from 180C to 200C")] == [180, 200]


# ---------------------------------------------------------------- places and cues


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("Put it in the fridge", ["fridge"]),
        ("Simmer gently", ["burner"]),
        ("Braise in the oven", ["oven"]),
        ("Prove in the fridge", ["fridge"]),
        ("Finish under a hot grill", ["grill"]),
        ("Cook in a grill pan", ["burner"]),
        ("Take it out of the oven", []),
        ("Take it from the fridge and bake", ["oven"]),
        ("Do not freeze", []),
        ("Serve the roast with the rest of the brown sugar in a baking tray", []),
        ("Leave at room temperature", ["room"]),
        ("Cook in a slow cooker", ["machine"]),
        ("Cook in a dutch oven", ["burner"]),
        ("Use oven gloves", []),
        ("Freeze for 2 hours", ["freezer"]),
        ("Smoke for 2 hours", ["smoker"]),
    ],
)
def test_places_of_work(text, kinds):
    assert [found.value for found in places(text)] == [StationKind(kind) for kind in kinds]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Bake until golden, about 1 hour", "until golden"),
        ("Fry until soft and brown, then add salt", "until soft and brown"),
        ("Simmer until thick and stir in the cream", "until thick"),
        ("It is ready when a skewer comes out clean.", "ready when a skewer comes out clean"),
    ],
)
def test_cues(text, words):
    assert [found.value for found in cues(text)] == [words]


@pytest.mark.parametrize("text", ["Chill until needed", "When the oil is hot, add the fish"])
def test_what_is_no_cue(text):
    assert cues(text) == ()


def test_overnight_is_eight_to_fourteen_hours():
    assert Span(480, 600, 840) == OVERNIGHT
