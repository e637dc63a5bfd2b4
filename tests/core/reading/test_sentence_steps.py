"""Sentences become draft steps: what is a step, what it takes, what it follows, and where each value was read."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.plan.kitchen import StationKind
from core.plan.step import Attention, Holding, Span, Touch
from core.reading.phrases import Kind
from core.reading.sentence import DraftWait, steps_of
from tests.support.labelled_sentences import AFTER, BEFORE, LAST, THIRD

TART = (
    "Heat the oven to 200C/180C fan/gas 6 and grease a 23cm tin.",
    "Rub the butter into the flour, then chill for 30 minutes.",
    "Roll out, line the tin and bake blind for 15 minutes.",
    "Meanwhile, fry the leeks gently in a frying pan for 10 minutes until soft.",
    "Fill the case, lower the oven to 170C and bake for a further 30 to 35 minutes until just set.",
    "Leave to rest for 10 to 30 minutes before slicing.",
    "Serve at once.",
)
LAMB = (
    "Take the lamb out of the fridge 1 hour before cooking.",
    "Preheat the oven to 220C.",
    "Rub the lamb with salt and oil and put it in the oven.",
    "After 20 minutes, turn the oven down to 160C and roast for 1 hr 20 mins more, basting every 20 minutes.",
    "Rest for 20 minutes, then carve.",
)


def one(text):
    (step,) = steps_of([text])
    return step


def brief(steps):
    return [(step.does, step.length and step.length.likely, step.kind) for step in steps]


# ---------------------------------------------------------------- what is a step


def test_a_tart():
    assert brief(steps_of(TART)) == [
        ("Grease a 23cm tin", None, None),
        ("Rub the butter into the flour", None, None),
        ("Chill", 30, StationKind.FRIDGE),
        ("Roll out, line the tin", None, None),
        ("Bake blind", 15, StationKind.OVEN),
        ("Meanwhile, fry the leeks gently in a frying pan", 10, StationKind.BURNER),
        ("Fill the case", None, None),
        ("Bake", 33, StationKind.OVEN),
        ("Slice", None, None),
    ]


def test_a_roast():
    steps = steps_of(LAMB)
    assert brief(steps) == [
        ("Take the lamb out of the fridge 1 hour before cooking", 60, None),
        ("Rub the lamb with salt and oil", None, None),
        ("Put it in the oven", 20, StationKind.OVEN),
        ("Roast, basting every 20 minutes", 80, StationKind.OVEN),
        ("Carve", None, None),
    ]
    assert [step.heat.celsius for step in steps if step.heat] == [220, 160]
    assert steps[3].touches == tuple(Touch(at, 1, "basting") for at in (20, 40, 60))
    assert [step.attention for step in steps] == [
        Attention.HANDS_OFF,
        Attention.HANDS_ON,
        Attention.HANDS_OFF,
        Attention.TENDED,
        Attention.HANDS_ON,
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Preheat the oven to 200C.",
        "Turn the oven down to 150C.",
        "Light the barbecue.",
        "Put it in the oven.",
        "Take it out of the oven.",
        "Serve.",
        "Serve hot.",
        "The dough should be soft.",
        "If it browns too fast, cover it with foil.",
        "Do not open the oven.",
        "Allow 20 minutes per 500 g plus 20 minutes.",
        "",
        "1.",
        "...",
    ],
)
def test_what_is_no_step(text):
    assert steps_of([text]) == ()


@pytest.mark.parametrize(
    ("text", "does"),
    [
        ("Peel, slice and salt the cucumbers.", ["Peel, slice and salt the cucumbers"]),
        ("Rub in the butter, then chill for 30 minutes.", ["Rub in the butter", "Chill"]),
        (
            "Add the stock, bring to the boil and simmer for 20 minutes.",
            ["Add the stock, bring to the boil and simmer"],
        ),
        ("Cover and chill for an hour.", ["Cover and chill"]),
        ("Bake for 12 minutes at 220C, then 20 minutes at 180C.", ["Bake", "Bake"]),
        ("2. Drain the beans.", ["Drain the beans"]),
        ("In a large bowl, whisk the eggs.", ["In a large bowl, whisk the eggs"]),
        ("Salt and pepper the fish.", ["Salt and pepper the fish"]),
        ("Spatchcock the hen.", ["Spatchcock the hen"]),
        ("The dough needs to rise for 2 hours.", ["The dough needs to rise"]),
        ("Prove for 45 min; bake 25 min in a 425 oven.", ["Prove", "Bake"]),
    ],
)
def test_how_sentences_are_cut(text, does):
    assert [step.does for step in steps_of([text])] == does


# ---------------------------------------------------------------- what a step takes


@pytest.mark.parametrize(
    ("text", "attention"),
    [
        ("Bake for 30 minutes.", Attention.HANDS_OFF),
        ("Simmer for 30 minutes.", Attention.HANDS_OFF),
        ("Simmer for 30 minutes, stirring constantly.", Attention.HANDS_ON),
        ("Simmer for 30 minutes, stirring now and then.", Attention.TENDED),
        ("Bake for 30 minutes, turning the tray halfway through.", Attention.TENDED),
        ("Fry the onions for 10 minutes.", Attention.HANDS_ON),
        ("Leave for an hour.", Attention.HANDS_OFF),
        ("Leave to marinate overnight.", Attention.HANDS_OFF),
        ("Knead for 10 minutes.", Attention.HANDS_ON),
        ("Slice the leeks.", Attention.HANDS_ON),
        ("Cool on a rack.", Attention.HANDS_OFF),
    ],
)
def test_attention(text, attention):
    assert one(text).attention is attention


@pytest.mark.parametrize(
    ("text", "touches"),
    [
        ("Roast for 1 hour, basting every 20 minutes.", [(20, "basting", False), (40, "basting", False)]),
        ("Roast for 30 minutes, shaking the tin after 10 minutes.", [(10, "shaking the tin", False)]),
        (
            "Bake for 30 minutes, covering with foil for the last 10 minutes.",
            [(10, "covering with foil", True)],
        ),
        ("Bake for 30 minutes, turning the tray halfway through.", [(15, "turning the tray", False)]),
        ("Fry for 4 minutes on each side.", [(4, "turn", False)]),
        ("Stir every 5 minutes.", []),
        ("Grill for 1 minute, turning once.", []),
        ("Bake for 5 minutes, covering with foil for the last 10 minutes.", []),
    ],
)
def test_touches(text, touches):
    assert [(touch.at, touch.does, touch.from_end) for touch in one(text).touches] == touches


def test_after_so_long_is_a_touch_of_the_step_before():
    steps = steps_of(["Roast for 1 hour.", "After 20 minutes, turn the potatoes."])
    assert len(steps) == 1
    assert steps[0].touches == (Touch(20, 1, "turn the potatoes"),)
    assert steps[0].attention is Attention.TENDED


def test_both_sides_take_twice_as_long():
    assert one("Fry for 4 to 5 minutes per side.").length == Span(8, 10, 10)


def test_a_rate_per_weight_is_no_length():
    assert one("Roast for 25 minutes per kg.").length is None


def test_the_oven_keeps_its_setting():
    steps = steps_of(
        [
            "Preheat the oven to 190C.",
            "Chop the nuts.",
            "Bake for 10 minutes.",
            "Return to the oven for 5 minutes.",
        ]
    )
    assert [step.heat and step.heat.celsius for step in steps] == [None, 190, 190]
    told = steps[2].origin("heat")
    assert (told.sentence, told.found.text) == (0, "190C")


def test_work_on_a_burner_has_no_setting_but_the_food_may_have():
    step = one("Heat the syrup until it reaches 118C.")
    assert (step.kind, step.heat, step.core) == (StationKind.BURNER, None, 118)
    assert step.doneness == "until it reaches 118C"


def test_more_of_the_same_stays_where_it_was():
    steps = steps_of(["Fry the onions for 5 minutes.", "Add the garlic and cook for 2 minutes more."])
    assert [step.kind for step in steps] == [StationKind.BURNER, StationKind.BURNER]


def test_other_work_is_put_nowhere():
    assert steps_of(["Grill the corn for 5 minutes.", "Cook the joint until tender."])[1].kind is None


# ---------------------------------------------------------------- what follows what


def test_in_order_and_side_by_side():
    steps = steps_of(TART)
    assert [step.after for step in steps] == [(), (0,), (1,), (2,), (3,), (3,), (4, 5), (6,), (7,)]


def test_a_rest_is_a_wait_between_two_steps():
    baked = steps_of(TART)[7]
    assert baked.wait == DraftWait(10, 30, Holding.COUNTER, StationKind.ROOM)
    assert baked.origin("wait").sentence == 5


def test_a_rest_at_the_end_is_a_step_so_that_it_is_not_lost():
    steps = steps_of(["Roast for 1 hour.", "Leave to rest for 20 minutes."])
    assert brief(steps)[1] == ("Leave to rest", 20, StationKind.ROOM)


def test_a_rest_beside_other_work_stays_a_step():
    steps = steps_of(
        [
            "Roast for 1 hour.",
            "Rest for 20 minutes.",
            "Meanwhile, reduce the wine by half.",
            "Carve and serve with it.",
        ]
    )
    assert [step.after for step in steps] == [(), (0,), (0,), (1, 2)]


@pytest.mark.parametrize(
    ("text", "wait"),
    [
        ("The base can be made a day ahead and kept in the fridge.", (0, 1440, Holding.FRIDGE)),
        ("It can be frozen for up to 3 months.", (0, 129600, Holding.FREEZER)),
        ("It keeps for 3 days chilled.", (0, 4320, Holding.FRIDGE)),
        ("Keep warm.", (0, None, Holding.HOT)),
        ("Serve at once.", (0, 0, Holding.COUNTER)),
    ],
)
def test_waits(text, wait):
    (step,) = steps_of(["Shape the dough.", text])
    assert (step.wait.least, step.wait.most, step.wait.how) == wait


def test_at_least_and_up_to_is_a_length_and_a_wait():
    step = one("Chill for at least 2 hours and up to 2 days.")
    assert step.length == Span.of(120)
    assert step.wait == DraftWait(0, 2880 - 120, Holding.FRIDGE, StationKind.FRIDGE)
    assert one("Chill for 2 hours or overnight.").wait.most == 840 - 120


def test_a_wait_belongs_to_the_work_just_before_it():
    steps = steps_of(["Whip the cream.", "Divide between 6 glasses and chill until needed, up to 24 hours."])
    assert [step.wait for step in steps] == [None, DraftWait(0, 1440, Holding.FRIDGE, StationKind.FRIDGE)]


def test_taken_out_at_a_temperature_tells_when_the_step_before_is_done():
    (step,) = steps_of(["Grill the chops for 10 minutes.", "Pull them from the grill when they hit 60C."])
    assert (step.core, step.origin("core").sentence) == (60, 1)


def test_work_on_one_burner_goes_on_beside_the_oven_until_they_meet():
    steps = steps_of(
        [
            "Roast the squash at 190C for 30 minutes.",
            "Meanwhile, fry the onion for 5 minutes.",
            "Add the rice and simmer for 18 minutes.",
            "Fold in the squash.",
        ]
    )
    assert [step.after for step in steps] == [(), (), (1,), (0, 2)]


def test_where_the_rack_stands_is_no_step_and_the_setting_counts():
    (step,) = steps_of(
        ["Adjust the oven rack to the middle position and heat the oven to 375 degrees.", "Bake it."]
    )
    assert (step.does, step.heat.celsius) == ("Bake it", 191)


# ---------------------------------------------------------------- where it was read


def test_every_value_names_its_phrase():
    sentences = [row.text for row in (*BEFORE, *AFTER, *LAST, *THIRD)]
    steps = steps_of(sentences)
    assert len(steps) > 150
    for at, step in enumerate(steps):
        sentence, start, end = step.source
        assert sentences[sentence][start:end] == step.text
        assert all(before < at for before in step.after)
        for value, field in (
            (step.length, "length"),
            (step.heat, "heat"),
            (step.doneness, "doneness"),
            (step.core, "core"),
        ):
            assert bool(value) == (step.origin(field) is not None), (step, field)
        for origin in step.origins:
            found = origin.found
            assert sentences[origin.sentence][found.start : found.end] == found.text
        assert all(start <= found.start < end for found in step.founds)


def test_a_length_tells_how_it_was_meant():
    assert one("Chill for at least 2 hours.").origin("length").found.kind == Kind.LEAST


WORDS = (
    "bake chill rest then and until golden soft for 20 minutes hours at 180C in the oven fridge . , ; ( ) meanwhile "
    "after every per side overnight serve before slicing 2 to a or not do fan gas 6 leave kept ahead up day"
)


@given(st.lists(st.lists(st.sampled_from(WORDS.split()), max_size=14).map(" ".join), max_size=5))
def test_any_words_give_steps_that_hold_together(sentences):
    steps = steps_of(sentences)
    for at, step in enumerate(steps):
        sentence, start, end = step.source
        assert step.text == sentences[sentence][start:end]
        assert step.does
        assert all(0 <= before < at for before in step.after)
        if step.wait and step.wait.most is not None:
            assert 0 <= step.wait.least <= step.wait.most
        if step.length:
            assert 0 < step.length.low <= step.length.likely <= step.length.high
