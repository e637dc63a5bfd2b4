"""What whole recipes showed of sentences: work that was lost, cut in two, put in a wrong place or left alone."""

import pytest

from core.plan.kitchen import StationKind
from core.plan.step import Attention, Holding, Loads, Span, Touch
from core.reading.sentence import DraftWait, steps_of

BURNER, OVEN = StationKind.BURNER, StationKind.OVEN


def does(*sentences):
    return [step.does for step in steps_of(sentences)]


def one(*sentences):
    (step,) = steps_of(sentences)
    return step


# ---------------------------------------------------------------- nothing is lost, nothing is made up


@pytest.mark.parametrize(
    "text",
    [
        "Tip in the potatoes and tomatoes.",
        "Tip the dough onto a floured worktop.",
        "Note down the weight and knead the dough.",
        "An hour before cooking, take the lamb out of the fridge.",
        "Slash the loaf.",
        "Shave the fennel as thinly as you can.",
    ],
)
def test_work_is_not_taken_for_a_remark(text):
    assert len(steps_of([text])) == 1


@pytest.mark.parametrize(
    "text",
    [
        "Tip: use a sharp knife.",
        "Tips: stir well.",
        "Note that the dough is wet.",
        "Serve warm or at room temperature.",
        "Serve straight from the tin.",
        "Serve with flatbread.",
        "Eat straight away.",
        "Oven to Gas 8.",
        "Set aside on a plate.",
        "Remove to a plate.",
        "Lift it out.",
        "Bring to the table.",
        "The meringues keep for 5 days in a tin.",
        "At least 45 minutes before baking, put a pot in the oven.",
    ],
)
def test_what_is_no_step(text):
    assert steps_of([text]) == ()


def test_an_opening_is_no_step_of_its_own():
    assert does("The night before, rub it with salt, wrap and refrigerate overnight.") == [
        "The night before, rub it with salt",
        "Wrap and refrigerate",
    ]


def test_what_can_be_done_ahead_is_a_wait_whatever_the_sentence_goes_on_with():
    braise = "Braise in the oven for 3 hours."
    step = one(
        braise, "Can be made up to 2 days ahead; cool quickly, cover and keep in the fridge until wanted."
    )
    assert step.wait == DraftWait(0, 2880, Holding.FRIDGE, StationKind.FRIDGE)
    assert one(braise, "Will keep for 3 days, wrapped, in the fridge.").wait.most == 4320


def test_a_noun_that_could_be_a_verb_is_no_work():
    assert len(steps_of(["Spoon half over the jelly, add the crumbs, then the rest of the cream."])) == 1


# ---------------------------------------------------------------- what belongs together


def test_hot_fat_is_the_beginning_of_what_fries():
    texts = ["Heat the oil in a big pan over a medium heat.", "Add the onions and cook for 8 minutes."]
    step = one(*texts)
    assert step.does == "Heat the oil in a big pan over a medium heat; add the onions and cook"
    assert (step.length, step.kind, step.source[0]) == (Span.of(8), BURNER, 1)
    told = step.origin("opening")
    assert (told.sentence, told.found.text) == (0, "Heat the oil in a big pan over a medium heat")


@pytest.mark.parametrize(
    "texts",
    [
        ("Heat the oil to 180C.", "Fry the fritters for 3 minutes."),
        ("Heat the oil for 5 minutes.", "Fry the fritters for 3 minutes."),
        ("Melt the butter in a pan.", "Bake the loaf for 30 minutes."),
        ("Melt the butter and brush the tin.", "Fry the onions for 3 minutes."),
    ],
)
def test_fat_that_is_work_of_its_own_stays_a_step(texts):
    assert len(steps_of(texts)) == 2


def test_fat_stands_apart_from_cold_work_before_it():
    texts = ["Slice the onions and melt the butter in a wide pan.", "Cook the onions for 20 minutes."]
    assert [(step.does, step.kind) for step in steps_of(texts)] == [
        ("Slice the onions", None),
        ("Melt the butter in a wide pan; cook the onions", BURNER),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Nestle the hen among the potatoes, scatter with thyme and roast for 35 minutes.",
        "Brush the ribs with sauce and grill for 3 minutes.",
        "Cover, weigh down and refrigerate for 36 hours.",
        "Stand the basin in a large pan, cover and steam for 2 hours.",
        "Sit the hen on top, cover and cook in the oven for 1 hour.",
    ],
)
def test_small_work_belongs_to_what_follows_it(text):
    assert len(steps_of([text])) == 1


# ---------------------------------------------------------------- where, how long, how hot


@pytest.mark.parametrize(
    ("texts", "kind"),
    [
        (["Brown meat in the dripping, 5 mins."], BURNER),
        (["Cook the noodles in a large pot of boiling water for 6 minutes."], BURNER),
        (["Bring 200 ml vinegar, 100 ml water and 2 tbsp sugar to the boil."], BURNER),
        (["Fry the leeks for 5 minutes.", "Cook the rice for 2 minutes."], BURNER),
        (["Fry the leeks for 5 minutes.", "Tip in the stock and soften for 8 minutes."], BURNER),
        (["Spread the batter in the pan."], None),
        (["Combine the ketchup and honey in a small saucepan."], None),
        (["While the ribs are baking, combine the ketchup and honey."], None),
        (["Put on a rack, uncovered, in the fridge for 6 hours."], StationKind.FRIDGE),
    ],
)
def test_where(texts, kind):
    assert steps_of(texts)[-1].kind is kind


def test_a_pot_that_heats_sets_the_oven():
    texts = ["Put a pot in the oven and heat to 240C.", "Turn in the loaf and bake for 30 minutes."]
    assert steps_of(texts)[-1].heat.celsius == 240


def test_an_oven_that_is_off_has_no_setting():
    texts = [
        "Bake at 160C for 1 hour.",
        "Turn the oven off, prop the door open and leave the cake inside for 1 hour.",
    ]
    step = steps_of(texts)[-1]
    assert (step.kind, step.heat, step.length) == (OVEN, None, Span.of(60))


@pytest.mark.parametrize("words", ["Turn off the oven", "Turn the oven off", "Switch it off"])
def test_what_cools_inside_stays_in_the_oven(words):
    texts = ["Bake at 140C for 1 hour.", f"{words} and leave the cake inside to cool, about 1 hour."]
    step = steps_of(texts)[-1]
    assert (step.kind, step.heat) == (OVEN, None)


def test_leaving_for_up_to_an_hour_is_a_wait():
    step = one("Wrap the lamb in foil and leave somewhere warm for up to an hour.")
    assert (step.length, step.wait.most) == (None, 60)


def test_words_before_a_length_that_belong_to_the_work_stay():
    assert one("Brown the hen all over for about 10 minutes.").does == "Brown the hen all over"


def test_a_night_with_hours_takes_the_hours():
    assert one("Leave at room temperature overnight, 8-10 hours.").length == Span(480, 540, 600)
    assert one("Chill for 2 hours or overnight.").length == Span.of(120)
    assert one("Soak overnight.").length == Span(480, 600, 840)


def test_batches_are_loads():
    step = one("Fry spoonfuls in 4 batches of six for 3-4 minutes per batch.")
    assert (step.loads, step.length) == (Loads(24, 6), Span(3, 4, 4))
    assert step.origin("loads").found.text == "in 4 batches of six"
    assert step.does == "Fry spoonfuls in 4 batches of six"
    assert one("Fry in three lots for 2 minutes.").loads == Loads(3, 1)
    assert one("Fry in batches for 2 minutes.").loads is None


# ---------------------------------------------------------------- hands


@pytest.mark.parametrize(
    ("text", "attention"),
    [
        ("Fry the leeks for 8 minutes, stirring now and then.", Attention.HANDS_ON),
        ("Fry the patties for 4 minutes on each side.", Attention.HANDS_ON),
        ("Fry the onions gently for 30 minutes, stirring now and then.", Attention.TENDED),
        ("Boil rapidly for 10 minutes, until it reaches 105C.", Attention.HANDS_ON),
        ("Boil the wine for 10 minutes until reduced by half.", Attention.HANDS_ON),
        ("Boil the potatoes for 20 minutes.", Attention.HANDS_OFF),
        ("Stir in the garlic and let it sizzle for a minute.", Attention.HANDS_ON),
        ("Pour in hot water to come halfway up and bake for 1 hour.", Attention.HANDS_OFF),
    ],
)
def test_attention(text, attention):
    assert one(text).attention is attention


@pytest.mark.parametrize(
    ("text", "every"),
    [
        ("Simmer for 20 minutes, stirring now and then.", [5, 10, 15]),
        ("Simmer for 40 minutes, stirring every now and then.", [10, 20, 30]),
        ("Simmer for 2 hours, stirring occasionally.", [20, 40, 60, 80, 100]),
        ("Simmer for 40 minutes, stirring once or twice.", [20]),
    ],
)
def test_now_and_then_is_so_many_visits(text, every):
    step = one(text)
    assert step.touches == tuple(Touch(at, 1, "stirring") for at in every)
    assert step.origin("touches").found.value == every[0]
