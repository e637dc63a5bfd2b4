"""A verb means the same in a cook's line and in a recipe's sentence."""

import pytest

from core.plan.step import Attention, Span
from core.reading import line_verbs, sentence_verbs, verbs
from core.reading.line import read_line
from core.reading.phrases import places
from core.reading.sentence import steps_of


@pytest.mark.parametrize("verb", sorted(verbs.ALONE))
def test_what_goes_on_alone_does_so_everywhere(verb):
    (step,) = steps_of([f"{verb.capitalize()} it for 50 minutes."])
    assert step.attention is Attention.HANDS_OFF
    assert read_line(f"{verb} it 50 min").step_values["attention"] is Attention.HANDS_OFF


@pytest.mark.parametrize("verb", sorted(verbs.PLACE_OF))
def test_a_place_is_the_same_everywhere(verb):
    assert {found.value for found in places(f"{verb} it for 50 minutes")} == {verbs.PLACE_OF[verb]}
    assert read_line(f"{verb} it 50 min").step_values["uses"][0].kind is verbs.PLACE_OF[verb]


def test_each_reader_adds_to_the_table_and_takes_nothing_away():
    assert verbs.ALONE < line_verbs.ALONE
    assert verbs.ALONE < sentence_verbs.ALONE
    assert verbs.PLACE_OF.items() < line_verbs.PLACE_OF.items()
    assert not (line_verbs.ALONE & sentence_verbs.ALONE) - verbs.ALONE, "what both say belongs in the table"


@pytest.mark.parametrize(
    ("length", "every"),
    [(1, 1), (6, 3), (10, 5), (30, 5), (31, 10), (90, 10), (91, 20), (240, 20), (600, 50)],
)
def test_now_and_then(length, every):
    assert verbs.often(Span.of(length)) == every
    assert (length - 1) // every <= verbs.MOST_VISITS
