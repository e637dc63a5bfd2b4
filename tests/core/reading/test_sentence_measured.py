"""How much of hand-labelled sentences is read: precision and recall (tests/support/labelled_sentences)."""

from collections import Counter

import pytest

from core.plan.step import Span
from core.reading.phrases import durations, places, temperatures
from tests.support.labelled_sentences import AFTER, BEFORE, LAST, THIRD

ALL = (*BEFORE, *AFTER, *LAST, *THIRD)


def lengths_of(text):
    return [found.value for found in durations(text)]


def heats_of(text):
    return [(found.value.celsius, found.value.core) for found in temperatures(text)]


def places_of(text):
    return {found.value for found in places(text)}


def score(rows, wanted, read):
    """Return precision and recall over all rows; a value counts once for each time it is labelled."""
    hits = said = true = 0
    for row in rows:
        want, got = Counter(wanted(row)), Counter(read(row.text))
        hits += sum((want & got).values())
        said += sum(got.values())
        true += sum(want.values())
    return hits / said, hits / true


@pytest.mark.parametrize(
    ("wanted", "read", "least"),
    [
        (lambda row: row.lengths, lengths_of, (0.95, 0.9)),
        (lambda row: row.heats, heats_of, (0.95, 0.9)),
        (lambda row: row.places, places_of, (0.95, 0.9)),
    ],
    ids=["lengths", "temperatures", "places"],
)
def test_most_of_the_labelled_sentences_is_read(wanted, read, least, record_property):
    precision, recall = score(ALL, wanted, read)
    record_property("precision", round(precision, 3))
    record_property("recall", round(recall, 3))
    missed = [row.text for row in ALL if Counter(wanted(row)) != Counter(read(row.text))]
    assert precision >= least[0], (precision, missed)
    assert recall >= least[1], (recall, missed)


def test_the_score_can_fail():
    """A reader that sees nothing recalls nothing; one that sees a length too much loses precision."""
    assert score(ALL, lambda row: row.lengths, lambda text: lengths_of(text)[:1])[1] < 0.9
    more = score(ALL, lambda row: row.lengths, lambda text: [*lengths_of(text), Span.of(1)])
    assert more[0] < 0.6
    assert score(ALL, lambda row: row.heats, lambda text: [(180, False)])[0] < 0.2


def test_there_are_enough_sentences_with_enough_to_read():
    assert (len(BEFORE), len(AFTER) + len(LAST) + len(THIRD)) == (74, 130)
    assert len({row.text for row in ALL}) == len(ALL)
    assert sum(len(row.lengths) for row in ALL) >= 160
    assert sum(len(row.heats) for row in ALL) >= 90
    assert sum(not row.lengths for row in ALL) >= 50, "sentences without a length show what is taken for one"


def test_every_phrase_stands_where_it_says():
    for row in ALL:
        for found in (*durations(row.text), *temperatures(row.text), *places(row.text)):
            assert row.text[found.start : found.end] == found.text
            assert found.text.strip() == found.text != ""
