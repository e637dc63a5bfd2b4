"""What a line says becomes the values of a step; what is no phrase stays in its words."""

import pytest

from core.measures.refusal import Refusal
from core.plan.ids import DishId, StationId, StepId, VesselId
from core.plan.kitchen import Cook, Kitchen, Station, StationKind, Vessel
from core.plan.menu import LinkKind
from core.plan.step import (
    Attention,
    ClockTime,
    Doneness,
    Heat,
    Holding,
    Keep,
    Loads,
    Span,
    Touch,
    Use,
    VesselUse,
    Wait,
)
from core.reading.line import read_line
from core.reading.line_names import Names
from core.reading.line_value import Follow, LineWait, Says

OVEN, BURNER, GRILL, FRIDGE = StationKind.OVEN, StationKind.BURNER, StationKind.GRILL, StationKind.FRIDGE

KITCHEN = Kitchen(
    stations=(
        Station(StationId("oven"), "Oven", OVEN, units=2),
        Station(StationId("lower-oven"), "Lower oven", OVEN),
        Station(StationId("b1"), "Burner B1, 3 kW", BURNER),
        Station(StationId("b2"), "Burner B2, 1.8 kW", BURNER),
        Station(StationId("fridge"), "Fridge", FRIDGE),
        Station(StationId("hot-box"), "Insulated box", StationKind.HOT_BOX),
    ),
    vessels=(
        Vessel(VesselId("casserole"), "Casserole with a lid"),
        Vessel(VesselId("tin"), "Tin", 3),
        Vessel(VesselId("wide-pan"), "Wide pan"),
        Vessel(VesselId("sauce-pan"), "Sauce pan"),
    ),
    cooks=(Cook("ann", "Ann", skills=("able", "pastry")),),
)
STEPS = (
    (StepId("pie.slice"), "Peel and slice"),
    (StepId("pie.roast"), "Roast the roots"),
    (StepId("soup.boil"), "Boil"),
)
NAMES = Names.of_kitchen(KITCHEN, STEPS, DishId("pie"))


def read(text):
    line = read_line(text, NAMES)
    assert line.text == text
    return line


def value(text, name):
    line = read(text)
    assert not line.faults, line.faults
    return line.step_values.get(name)


def test_the_whole_of_a_line():
    line = read("bake 45-50 min 190C 1 rack, turn at 25, rest 10-30 on counter")
    assert not line.faults
    assert dict(line.step_values) == {
        "does": "bake",
        "length": Span(45, 48, 50),
        "uses": (Use(OVEN, heat=Heat(190, 175, 205)),),
        "touches": (Touch(25, 1, "turn"),),
        "attention": Attention.TENDED,
    }
    assert line.wait == LineWait(10, 30, Wait(Holding.COUNTER))
    said = [(each.kind, line.text[each.start : each.end]) for each in line.chips if not each.implied]
    assert said == [
        (Says.LENGTH, "45-50 min"),
        (Says.HEAT, "190C"),
        (Says.UNITS, "1 rack"),
        (Says.TOUCH, "turn at 25"),
        (Says.WAIT, "rest 10-30 on counter"),
    ]
    assert [each.words for each in line.chips][:2] == ["takes 45 to 50 min", "190 ±15 °C"]


@pytest.mark.parametrize(
    "text",
    [
        "bake 190C 45-50 min 1 rack in the casserole",
        "bake 45-50 min in the casserole 1 rack 190C",
        "bake in the casserole, 1 rack, 190C, 45-50 min",
        "bake oven 190 °C, 45 to 50 minutes, in the casserole",
        "bake for 45–50 min at 190C in the oven in the casserole",
    ],
)
def test_the_order_is_free(text):
    line = read(text)
    assert not line.faults
    assert line.step_values["does"] == "bake"
    assert line.step_values["length"] == Span(45, 48, 50)
    assert line.step_values["uses"] == (Use(OVEN, heat=Heat(190, 175, 205)),)
    assert line.step_values["vessels"] == (VesselUse(VesselId("casserole")),)


@pytest.mark.parametrize(
    ("words", "span"),
    [
        ("45 min", (45, 45, 45)),
        ("45-50 min", (45, 48, 50)),
        ("45 to 50 minutes", (45, 48, 50)),
        ("20/25/35", (20, 25, 35)),
        ("1h20", (80, 80, 80)),
        ("1 h 20 min", (80, 80, 80)),
        ("1:20", (80, 80, 80)),
        ("1½ h", (90, 90, 90)),
        ("1 1/2 hours", (90, 90, 90)),
        ("half an hour", (30, 30, 30)),
        ("2-3 h", (120, 150, 180)),
        ("16h/20h/24h", (960, 1200, 1440)),
        ("90 ±10 min", (80, 90, 100)),
        ("45-50", (45, 48, 50)),
        ("about 1 hour", (54, 60, 66)),
        ("about 4 min", (3, 4, 5)),
        ("overnight", (480, 600, 840)),
        ("2 days", (2880, 2880, 2880)),
    ],
)
def test_lengths(words, span):
    assert value(f"cook {words}", "length") == Span(*span)
    assert value(f"cook {words}", "does") == "cook"


@pytest.mark.parametrize(
    ("words", "heat"),
    [
        ("190C", (190, 175, 205)),
        ("190 °C", (190, 175, 205)),
        ("at 375F", (191, 176, 206)),
        ("gas 5", (191, 176, 206)),
        ("fan 170", (190, 175, 205)),
        ("180 degrees", (180, 165, 195)),
        ("at 190 c", (190, 175, 205)),
        ("170-190C", (180, 170, 190)),
        ("190C ±10", (190, 180, 200)),
        ("150/160/175C", (160, 150, 175)),
    ],
)
def test_temperatures(words, heat):
    setting, low, high = heat
    assert value(f"bake 40 min {words}", "uses") == (Use(OVEN, heat=Heat(setting, low, high)),)


@pytest.mark.parametrize(
    ("words", "uses"),
    [
        ("in the oven 160C", (Use(OVEN, heat=Heat(160, 145, 175)),)),
        ("oven 160C not steady", (Use(OVEN, heat=Heat(160, 145, 175, steady=False)),)),
        ("2 racks", (Use(OVEN, 2),)),
        ("on B2", (Use(BURNER, station=StationId("b2")),)),
        ("at b2", (Use(BURNER, station=StationId("b2")),)),
        ("on b1, on b2", (Use(BURNER, station=StationId("b1")), Use(BURNER, station=StationId("b2")))),
        ("burner 2 rings", (Use(BURNER, 2),)),
        ("2 rings", (Use(BURNER, 2),)),
        ("two burners", (Use(BURNER, 2),)),
        ("in the lower oven, 120C", (Use(OVEN, station=StationId("lower-oven"), heat=Heat(120, 105, 135)),)),
        ("at oven", (Use(OVEN, station=StationId("oven")),)),
        ("grill, 8 places", (Use(GRILL, 8),)),
        ("fridge 40x30 cm, 12 cm high", (Use(FRIDGE, area=1200, height=12),)),
        ("fridge 1,200 cm2, 12 cm, raw", (Use(FRIDGE, area=1200, height=12, raw=True),)),
        ("room", (Use(StationKind.ROOM),)),
        ("oven 160C, fridge 40x30 cm", (Use(OVEN, heat=Heat(160, 145, 175)), Use(FRIDGE, area=1200))),
        ("oven, oven 2 racks", (Use(OVEN), Use(OVEN, 2))),
    ],
)
def test_places(words, uses):
    assert value(f"do it 20 min, {words}", "uses") == uses


@pytest.mark.parametrize(
    ("text", "uses"),
    [
        ("roast 40 min", (Use(OVEN),)),
        ("grill the leeks 8 min, 8 places", (Use(GRILL, 8),)),
        ("simmer 20 min", (Use(BURNER),)),
        ("simmer 20 min, no place", ()),
        ("simmer 3 h, oven 120C", (Use(OVEN, heat=Heat(120, 105, 135)),)),
        ("slice 20 min", None),
    ],
)
def test_a_verb_names_its_place(text, uses):
    assert value(text, "uses") == uses


@pytest.mark.parametrize(
    ("text", "attention"),
    [
        *(
            (f"{verb} 40 min", Attention.HANDS_OFF)
            for verb in ("bake", "roast", "simmer", "proof", "chill", "rest")
        ),
        *((f"{verb} 40 min", Attention.HANDS_OFF) for verb in ("marinate", "cold proof", "leave to cool")),
        *(
            (f"{verb} 40 min", Attention.HANDS_ON)
            for verb in ("slice", "stir", "plate", "set the table", "set out cups")
        ),
        ("simmer 40 min hands-on", Attention.HANDS_ON),
        ("slice 40 min, by itself", Attention.HANDS_OFF),
        ("slice 40 min, tended", Attention.TENDED),
        ("simmer 40 min, stir at 10", Attention.TENDED),
        ("simmer 40 min hands-off, stir at 10", Attention.HANDS_OFF),
    ],
)
def test_attention(text, attention):
    line = read(text)
    assert not line.faults
    assert line.step_values["attention"] is attention


@pytest.mark.parametrize(
    ("words", "touches"),
    [
        ("turn at 25", (Touch(25, 1, "turn"),)),
        ("turn at 10 and 20", (Touch(10, 1, "turn"), Touch(20, 1, "turn"))),
        ("at 45 foil off", (Touch(45, 1, "foil off"),)),
        ("baste every 20", (Touch(20, 1, "baste"), Touch(40, 1, "baste"))),
        ("stir at the end", (Touch(0, 1, "stir", True),)),
        ("stir at the start for 2 min", (Touch(0, 2, "stir"),)),
        ("probe 5 min before the end", (Touch(5, 1, "probe", True),)),
        ("turn half way", (Touch(32, 1, "turn"),)),
        ("turn at half way", (Touch(32, 1, "turn"),)),
        ("swap tins at 20 for 3 min by able", (Touch(20, 3, "swap tins", False, "able"),)),
        ('"take out, cover" at the start', (Touch(0, 1, "take out, cover"),)),
        ("touch at 15", (Touch(15, 1, ""),)),
    ],
)
def test_touches(words, touches):
    assert value(f"bake 60/65/70, {words}", "touches") == touches


@pytest.mark.parametrize(
    ("words", "wait"),
    [
        ("rest 10-30 on counter", LineWait(10, 30)),
        ("then up to 2 days in the fridge", LineWait(0, 2880, Wait(Holding.FRIDGE))),
        ("up to 45 min", LineWait(0, 45)),
        ("then at once", LineWait(0, 0)),
        ("at once", LineWait(0, 0)),
        ("wait at least 4 h", LineWait(240, None)),
        ("stand exactly 10 min", LineWait(10, 10)),
        ("then at least 2 min, up to 40 min", LineWait(2, 40)),
        ("then in the freezer", LineWait(0, None, Wait(Holding.FREEZER))),
        ("up to 15 min in its vessel", LineWait(0, 15, Wait(Holding.VESSEL))),
        (
            "then up to 40 h, in the fridge, 18x18 cm, 18 cm high",
            LineWait(0, 2400, Wait(Holding.FRIDGE, Use(FRIDGE, area=324, height=18))),
        ),
        (
            "then up to 1 h held hot at hot-box",
            LineWait(0, 60, Wait(Holding.HOT, Use(StationKind.HOT_BOX, station=StationId("hot-box")))),
        ),
    ],
)
def test_waits(words, wait):
    line = read(f"bake 20 min 190C, {words}")
    assert not line.faults
    assert line.wait == wait
    assert line.step_values["uses"] == (Use(OVEN, heat=Heat(190, 175, 205)),)


@pytest.mark.parametrize(
    ("words", "keeps"),
    [
        ("serve within 15", Keep(15)),
        ("serve at once", Keep(0)),
        ("keeps any time", Keep(None)),
        (
            "keeps up to 3 days in the fridge, 150 cm2",
            Keep(4320, Wait(Holding.FRIDGE, Use(FRIDGE, area=150))),
        ),
        ("keeps 2 h held hot hot box", Keep(120, Wait(Holding.HOT, Use(StationKind.HOT_BOX)))),
    ],
)
def test_serving(words, keeps):
    assert value(f"slice 20 min, {words}", "keeps") == keeps


@pytest.mark.parametrize(
    ("words", "doneness"),
    [
        ("until golden", Doneness("golden")),
        ("until golden, core 63C", Doneness("golden", 63)),
        ("until 63C inside", Doneness("", 63)),
        ("core 60C rested 30 min", Doneness("", 60, 30)),
        ('until "gold, crisp"', Doneness("gold, crisp")),
        ("until below 8 C", Doneness("below 8 C")),
        ("until 21 C on the probe", Doneness("21 C on the probe")),
    ],
)
def test_doneness(words, doneness):
    assert value(f"warm 20 min, {words}", "doneness") == doneness
    assert value(f"warm 20 min, {words}", "length") == Span.of(20)


def test_a_cue_ends_where_a_value_begins():
    line = read("bake until golden 45 min 190C")
    assert line.step_values["doneness"] == Doneness("golden")
    assert line.step_values["length"] == Span.of(45)


@pytest.mark.parametrize(
    ("words", "vessels"),
    [
        ("in the casserole", [("casserole", 1)]),
        ("2 tins", [("tin", 2)]),
        ("in 2 tins", [("tin", 2)]),
        ("in wide pan and the sauce pan", [("wide-pan", 1), ("sauce-pan", 1)]),
        ("tin", [("tin", 1)]),
    ],
)
def test_vessels(words, vessels):
    assert value(f"stew 20 min, {words}", "vessels") == tuple(
        VesselUse(VesselId(each), n) for each, n in vessels
    )


@pytest.mark.parametrize(
    ("words", "name", "expected"),
    [
        ("18 skewers 6 at a time", "loads", Loads(18, 6)),
        ("18 skewers in loads of 6", "loads", Loads(18, 6)),
        ("24 pieces, 8 a load, 2 min between loads", "loads", Loads(24, 8, 2)),
        ("2 cooks", "hands", 2),
        ("able", "skill", "able"),
        ("by pastry", "skill", "pastry"),
        ("skill boning", "skill", "boning"),
        ("put in 3 min", "put_in", 3),
        ("take out 0", "take_out", 0),
        ("in pieces of 5 min", "least_piece", 5),
        ("not before 8 h before", "earliest", -480),
        ("not before 15 min after plating", "earliest", 15),
        ("done by 20 h before plating", "latest", -1200),
        ("done by plating", "latest", 0),
        ("at 18:40", "clock", ClockTime(0, 1120)),
        ("at 18:40 the day before", "clock", ClockTime(1, 1120)),
        ("at 6.40 pm 2 days before", "clock", ClockTime(2, 1120)),
        ("at noon the day after", "clock", ClockTime(-1, 720)),
    ],
)
def test_the_other_fields(words, name, expected):
    assert value(f"carry 20 min, {words}", name) == expected
    assert value(f"carry 20 min, {words}", "does") == "carry"


@pytest.mark.parametrize(
    ("words", "follow"),
    [
        ("after slice", Follow(StepId("pie.slice"))),
        ("after peel and slice", Follow(StepId("pie.slice"))),
        ("also after soup.boil: up to 2 h", Follow(StepId("soup.boil"), also=True, wait=LineWait(0, 120))),
        ("with the roast", Follow(StepId("pie.roast"), LinkKind.START_TO_START)),
        ("ends with the roast", Follow(StepId("pie.roast"), LinkKind.END_TO_END)),
        ("after nothing", Follow(None)),
    ],
)
def test_what_it_follows(words, follow):
    assert read(f"dress 5 min, {words}").follows == (follow,)


@pytest.mark.parametrize(
    "words",
    [
        "Bake on the upper rack, foil on for the first 45 min",
        "Peel and slice 3 mm thick",
        "Fill the dish, cheese on top, foil over it",
        "Warm the cream to 21 C, stir in the culture",
        "Score, rub with salt and fennel",
        "Dress in the pan, turn out",
        "Take out; honey, vinegar and seeds over it",
        "Oil the 2 tins, tip in the dough",
        "Cut in 4",
        "Roll to a 40x30 cm sheet",
        "Cool on 2 racks",
        "Soften at room temperature",
        "Rest at 22 C, fold three times",
        "Whisk 200 g of sugar into 2-3 yolks",
        "Stir in 1/2 tsp salt and 5 c flour",
        "Divide in 12, shape",
        "Poach at 70C",
    ],
)
def test_words_stay_words(words):
    line = read(f"{words} 65/75/90")
    assert not line.faults
    assert line.step_values["does"] == words
    assert line.step_values["length"] == Span(65, 75, 90)
    assert "uses" not in line.step_values or line.implied >= {"uses"}
    assert not line.step_values.get("vessels")


def test_quotes_keep_words_out_of_reading():
    line = read('"Bake 45 min at 190C, ""hot""" 50 min')
    assert line.step_values["does"] == 'Bake 45 min at 190C, "hot"'
    assert line.step_values["length"] == Span.of(50)


# ---------------------------------------------------------------- faults


@pytest.mark.parametrize(
    ("text", "word", "instead"),
    [
        ("bake 190X 40 min", "190X", "190C"),
        ("bake 45-40 min", "45-40 min", "40-45 min"),
        ("bake 45", "45", "45 min"),
        ("bake at 190, 40 min", "190", "190C"),
        ("bake 45 mni", "45 mni", "45 min"),
        ("bake 45 mintues", "45 mintues", "45 minutes"),
        ("bake 45mni", "45mni", "45 min"),
        ("slice 20 min 190C", "190C", "oven 190C"),
        ("bake 40 min gas 15", "gas 15", ""),
        ("simmer 20 min on B9", "B9", ""),
        ("stew 20 min in the caserole", "caserole", "casserole"),
        ("stew 20 min, then 10 min", "10 min", "up to 10 min"),
        ("dress 5 min, after slcie", "slcie", "slice"),
        ("roast 40 min, core 63", "63", "63C"),
        ("bake 40 min 50 min", "50 min", ""),
        ("bake 40 min, turn at 60", "turn at 60", ""),
        ("bake, baste every 20", "baste every 20", ""),
        ("cook up to 20 min", "up to 20 min", ""),
        ("cook 20 min, done by tomorrow", "done by tomorrow", ""),
        ("cook 20 min, at 25:10", "25:10", ""),
        ("fry 4 min, 2 min between loads", "2 min between loads", ""),
        ("190C 20 min", "190C", ""),
        ("bake 30 min then wait 10 min", "10 min", "up to 10 min"),
        ("knead 10 min, rise 1 h", "1 h", ""),
        ("bake 30 min 350 degrees", "350 degrees", ""),
        ("start 2 h before plating", "2 h", ""),
        ("toast 5 min, keeps at least 2 h", "at least 2 h", ""),
    ],
)
def test_a_fault_points_at_its_word_and_proposes(text, word, instead):
    line = read(text)
    first = line.faults[0]
    assert text[first.start : first.end] == word
    assert first.instead == instead
    assert first.sentence[0].isupper() or first.sentence[0] == '"'
    assert first.sentence.endswith((".", "?"))
    if instead:
        mended = text[: first.start] + instead + text[first.end :]
        assert all(fault.sentence != first.sentence for fault in read(mended).faults)


@pytest.mark.parametrize(
    ("text", "does"),
    [
        ("bake 190X 40 min", "bake 190X"),
        ("bake for 45-40 min", "bake for 45-40 min"),
        ("cook up to 20 min", "cook up to 20 min"),
        ("bake 30 min then wait 10 min", "bake then wait 10 min"),
        ("bake 40 min, done by tomorrow", "bake, done by tomorrow"),
        ("roast 40 min, core 63", "roast, core 63"),
    ],
)
def test_what_is_not_understood_stays_in_the_words(text, does):
    assert read(text).step_values["does"] == does


def test_a_line_without_words_says_so():
    assert "Say what is done" in read("20 min").faults[0].sentence
    assert read("").faults == ()
    with pytest.raises(Refusal, match="what is done"):
        read("20 min").step(StepId("a.b"))
    with pytest.raises(Refusal, match="how long"):
        read("bake").step(StepId("a.b"))


def test_a_line_that_is_far_too_long_is_kept():
    line = read("bake " * 300)
    assert "longer than 1000" in line.faults[0].sentence


def test_a_step_of_a_line():
    step = read("slice: slice thin 20 min, able").step(StepId("pie.slice"))
    assert (step.does, step.length, step.skill, step.attention) == (
        "slice thin",
        Span.of(20),
        "able",
        Attention.HANDS_ON,
    )
