"""Short lines of a written plan: places, waits, what follows what. Typed and written agree."""

from fractions import Fraction

import pytest
from pydantic import ValidationError

from core.intake.text.follows import AfterText, after_out
from core.intake.text.places import PlaceText, use_out, uses_out
from core.intake.text.waits import KeepText, WaitText, keep_out, wait_out
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.plan.ids import StationId, StepId
from core.plan.kitchen import StationKind
from core.plan.menu import Link, LinkKind
from core.plan.step import Heat, Holding, Keep, Use, Wait

OVEN, FRIDGE, BURNER, HOT = StationKind.OVEN, StationKind.FRIDGE, StationKind.BURNER, StationKind.HOT_BOX


def told(caught):
    """Give the sentence of a refusal, also of one that pydantic has wrapped."""
    error = caught.value
    return str(error.errors()[0]["ctx"]["error"] if isinstance(error, ValidationError) else error)


def place(text, kind=None):
    return PlaceText.model_validate(text).use(kind)


@pytest.mark.parametrize(
    ("typed", "kind", "use"),
    [
        ("230 C +-10, 2 racks", OVEN, Use(OVEN, 2, heat=Heat(230, 220, 240))),
        ("160 C", OVEN, Use(OVEN, heat=Heat(160, 145, 175))),
        ("375F", OVEN, Use(OVEN, heat=Heat(191, 176, 206))),
        ("150/160/175 C, need not be steady", OVEN, Use(OVEN, heat=Heat(160, 150, 175, steady=False))),
        ("180 C,2 racks", OVEN, None),
        (2, BURNER, Use(BURNER, 2)),
        ("2", BURNER, Use(BURNER, 2)),
        ("2 burners", BURNER, Use(BURNER, 2)),
        ("at b1", BURNER, Use(BURNER, station=StationId("b1"))),
        ("on the back-ring", BURNER, Use(BURNER, station=StationId("back-ring"))),
        ("1,200 cm2, 18 cm high, raw", FRIDGE, Use(FRIDGE, area=1200, height=18, raw=True)),
        ("40x30 cm, 18 cm", FRIDGE, Use(FRIDGE, area=1200, height=18)),
        ("600cm²", FRIDGE, Use(FRIDGE, area=600)),
        ("hot box", None, Use(HOT)),
        ("2 hot boxes, at box", None, Use(HOT, 2, StationId("box"))),
        ("oven, 70 C, 2 racks", None, Use(OVEN, 2, heat=Heat(70, 55, 85))),
        ({"heat": "90 C", "units": 3}, OVEN, Use(OVEN, 3, heat=Heat(90, 75, 105))),
    ],
)
def test_places(typed, kind, use):
    if use is None:
        with pytest.raises((Refusal, ValidationError)):
            place(typed, kind)
        return
    assert place(typed, kind) == use
    assert place(use_out(use, kind), kind) == use


@pytest.mark.parametrize(
    ("use", "kind", "written"),
    [
        (Use(OVEN, 2, heat=Heat(230, 220, 240)), OVEN, "230 ±10 °C, 2 racks"),
        (Use(BURNER), BURNER, 1),
        (Use(BURNER, 2), BURNER, "2 burners"),
        (Use(BURNER, 2), None, "2 burners"),
        (Use(HOT, 2), None, "2 hot boxes"),
        (Use(OVEN, 2), None, "oven, 2 racks"),
        (Use(FRIDGE, area=600, height=12, raw=True), FRIDGE, "600 cm2, 12 cm, raw"),
        (Use(FRIDGE, units=0), None, {"kind": "fridge", "units": 0}),
    ],
)
def test_places_are_written_short_where_a_line_can_say_it(use, kind, written):
    if isinstance(written, dict):
        assert place(use_out(use, kind), kind) == use
    else:
        assert use_out(use, kind) == written


def test_places_keep_their_order_under_their_keys():
    uses = (Use(BURNER), Use(OVEN), Use(OVEN, 2))
    assert uses_out(uses) == {"burner": 1, "oven": [1, "2 racks"]}
    assert uses_out((Use(OVEN), Use(BURNER), Use(OVEN))) == {"uses": ["oven", "burner", "oven"]}


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("2 racks, 3 racks", '"2 racks, 3 racks" says the number twice; write it once.'),
        ("200 Q", '"200 Q" is not a temperature'),
        ("oven, 2 racks, need not be steady", "A place without a temperature is always steady"),
        ("2 racks", "The kind of place is not named"),
    ],
)
def test_places_refused(typed, sentence):
    with pytest.raises((Refusal, ValidationError)) as caught:
        place(typed)
    assert sentence in told(caught)


def test_a_place_of_another_kind_than_its_key_is_refused():
    with pytest.raises(Refusal, match="names grill under oven"):
        place("grill, 2 places", OVEN)


@pytest.mark.parametrize(
    ("typed", "least", "most", "wait"),
    [
        ("up to 20 min", 0, 20, Wait()),
        ("at most 1 h, on the counter", 0, 60, Wait()),
        ("30 to 60 min, on the counter", 30, 60, Wait()),
        ("16h-20h, in the fridge", 960, 1200, Wait(Holding.FRIDGE)),
        ("at least 30 min", 30, None, Wait()),
        ("at least 2 min, up to 40 min", 2, 40, Wait()),
        ("exactly 10 min", 10, 10, Wait()),
        ("at once", 0, 0, Wait()),
        ("any time", 0, None, Wait()),
        ("in its vessel", 0, None, Wait(Holding.VESSEL)),
        ("in the fridge, fridge", 0, None, Wait(Holding.FRIDGE, Use(FRIDGE))),
        (
            "up to 48 h, in the fridge, 1200 cm2, 18 cm, raw",
            0,
            2880,
            Wait(Holding.FRIDGE, Use(FRIDGE, area=1200, height=18, raw=True)),
        ),
        (
            "up to 2 h, held hot, oven, 70 C +-10, at lower",
            0,
            120,
            Wait(Holding.HOT, Use(OVEN, station=StationId("lower"), heat=Heat(70, 60, 80))),
        ),
        ("up to 2 h, held hot, 1 burner", 0, 120, Wait(Holding.HOT, Use(BURNER))),
        (
            "in the fridge, cold counter, 300 cm2",
            0,
            None,
            Wait(Holding.FRIDGE, Use(StationKind.COLD_COUNTER, area=300)),
        ),
    ],
)
def test_waits(typed, least, most, wait):
    read = WaitText.model_validate(typed)
    assert (read.least, read.most, read.wait(), read.brings) == (least, most, wait, None)
    again = WaitText.model_validate(wait_out(least, most, wait, None))
    assert (again.least, again.most, again.wait()) == (least, most, wait)


def test_a_wait_may_bring_something():
    read = WaitText.model_validate("up to 5 days, in the fridge, brings 300 g")
    assert read.brings == Quantity(Fraction(300), "g")
    assert wait_out(0, read.most, read.wait(), read.brings) == "up to 5 days, in the fridge, brings 300 g"


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("20 min", '"20 min": write "up to 20 min", "at least 20 min" or "exactly 20 min".'),
        ("up to 20 min, on the countr", 'did you mean "on the counter"?'),
        ("up to soon", '"soon" is not a length of time'),
        ("up to 20 min, up to 30 min", "says twice how long it may wait; write it once."),
        ("60 to 30 min", "write the least first"),
        ("up to 1 h, held hot, 2 racks", "The kind of place is not named"),
    ],
)
def test_waits_refused(typed, sentence):
    with pytest.raises(ValidationError) as caught:
        WaitText.model_validate(typed)
    assert sentence in told(caught)


def test_keeps_have_no_least():
    assert KeepText.model_validate("up to 8 min").keep() == Keep(8)
    assert keep_out(Keep()) == "any time"
    assert keep_out(Keep(60, Wait(Holding.HOT, Use(HOT)))) == "up to 1 h, held hot, hot box"
    with pytest.raises(ValidationError, match="how long at most and how"):
        KeepText.model_validate("at least 5 min")


ROAST, CARVE = StepId("pork.roast"), StepId("pork.carve")


@pytest.mark.parametrize(
    ("typed", "link"),
    [
        ("roast", Link(ROAST, CARVE)),
        ("roast: 30 min to 1 h", Link(ROAST, CARVE, 30, 60)),
        ("start of roast: at least 20 min", Link(ROAST, CARVE, 20, None, LinkKind.START_TO_START)),
        ("end of roast: up to 2 min", Link(ROAST, CARVE, 0, 2, LinkKind.END_TO_END)),
    ],
)
def test_what_follows_what(typed, link):
    assert AfterText.model_validate(typed).link(ROAST, CARVE) == link
    assert after_out(link, "roast") == typed
