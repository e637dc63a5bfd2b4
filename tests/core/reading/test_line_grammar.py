"""The help page of the line: every example is read as the page says."""

import pytest

from core.reading.line import read_line
from core.reading.line_grammar import GRAMMAR, OPENING
from core.reading.line_value import Says
from tests.core.reading.test_line_read import NAMES


@pytest.mark.parametrize("row", GRAMMAR, ids=lambda row: row.what)
def test_each_example_says_what_its_row_says(row):
    line = read_line(row.example, NAMES)
    assert not line.faults
    found = [each for each in line.chips if each.kind is row.kind and not each.implied]
    assert len(found) == 1
    assert 0 <= found[0].start < found[0].end <= len(row.example)
    # the verb and nothing of the phrase is left in the words
    phrase = row.example[found[0].start : found[0].end]
    assert phrase not in line.step_values["does"]


def test_every_kind_of_phrase_has_a_row():
    assert {row.kind for row in GRAMMAR} | {Says.PUT_IN, Says.LATEST, Says.HANDS} == set(Says)
    assert {Says.PUT_IN, Says.LATEST} == set(Says) - {row.kind for row in GRAMMAR}


def test_rows_are_short_and_told_apart():
    assert len({row.what for row in GRAMMAR}) == len(GRAMMAR)
    assert all(len(row.written) <= 80 and len(row.example) <= 60 for row in GRAMMAR)
    assert len(OPENING) < 400
