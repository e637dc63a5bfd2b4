"""Timetables as text and back; what is no timetable is refused in words."""

import json
from dataclasses import replace

import pytest

from core.measures.refusal import Refusal
from core.plan.menu import LinkKind
from core.plan.step import Holding, Wait
from core.timetable.as_text import read_timetable, write_timetable
from core.timetable.timetable import Heating, Placed, Stay, Timetable
from tests.core.timetable.laid import heating, laid, washing
from tests.support.builders import a_dish, a_link, a_plan, a_use, at_oven, hands_off

PLAN = a_plan(
    a_dish(
        "gratin",
        hands_off("gratin.chill", 20),
        hands_off("gratin.bake", 75, uses=(at_oven(160),), put_in=1, take_out=1),
    ),
    links=(a_link("gratin.chill", "gratin.bake", wait=Wait(Holding.FRIDGE, a_use("fridge", area=875))),),
)
TIMETABLE = laid(
    PLAN, {"gratin.chill": -1500, "gratin.bake": -137}, heatings=[heating("oven", -147, -137, 160)]
)


def test_what_is_written_is_read():
    assert TIMETABLE.stays
    assert read_timetable(write_timetable(PLAN, TIMETABLE)) == TIMETABLE
    assert read_timetable(write_timetable(PLAN, Timetable())) == Timetable()


def test_the_text_is_plain_json_with_clock_times_for_people():
    text = write_timetable(PLAN, TIMETABLE)
    record = json.loads(text)
    assert record["cookday_timetable"] == 1
    assert record["placed"][1] == {
        "step": "gratin.bake",
        "load": 0,
        "start": -137,
        "length": 75,
        "clock": "2026-09-26 17:13",
        "spots": [{"station": "oven", "units": 1}],
        "setting": 160,
        "hands": [
            {"start": -137, "minutes": 1, "cook": "ann", "clock": "2026-09-26 17:13"},
            {"start": -63, "minutes": 1, "cook": "ann", "clock": "2026-09-26 18:27"},
        ],
    }
    assert record["stays"][0]["clock"] == "2026-09-25 18:50"
    assert record["stays"][0]["spots"] == [{"station": "fridge", "units": 1, "shelf": 0}]
    assert record["heatings"][0] == {
        "station": "oven", "start": -147, "end": -137, "clock": "2026-09-26 17:03", "setting": 160, "cook": "ann",
    }  # fmt: skip
    assert text.count("\n") == 11  # one thing to a line


def test_ways_and_washings_are_written_where_there_are_any_and_read():
    new = replace(
        TIMETABLE,
        placed=(replace(TIMETABLE.placed[0], way=2), TIMETABLE.placed[1]),
        washings=(washing("pot", -40, "gratin.chill"), washing("pot", -30, "gratin.bake", 3, None)),
    )
    text = write_timetable(PLAN, new)
    assert read_timetable(text) == new
    record = json.loads(text)
    assert [each.get("way") for each in record["placed"]] == [2, None]
    assert record["washings"][0] == {
        "vessel": "pot", "start": -40, "minutes": 5, "after": "gratin.chill", "cook": "ann",
        "clock": "2026-09-26 18:50",
    }  # fmt: skip
    assert "washings" not in json.loads(write_timetable(PLAN, TIMETABLE))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            '"washings": [{"vessel": "pot", "start": 1, "minutes": 2}]',
            'In washing 1 "after" is missing; it must be',
        ),
        (
            '"washings": [{"vessel": 3, "start": 1, "minutes": 2, "after": "a.b"}]',
            'In washing 1 "vessel" is "3"',
        ),
        (
            '"washings": [{"vessel": "pot", "start": 1, "end": 2, "after": "a.b"}]',
            'In washing 1 "end" is unknown',
        ),
        (
            '"placed": [{"step": "a.b", "start": 1, "length": 2, "way": "slow"}]',
            'In placed 1 "way" is "slow"',
        ),
    ],
)
def test_odd_ways_and_washings_are_refused(text, words):
    with pytest.raises(Refusal, match=words):
        read_timetable(f'{{"cookday_timetable": 1, {text}}}')


def test_clock_times_are_not_read():
    text = write_timetable(PLAN, TIMETABLE).replace("2026-09-26 17:13", "whenever")
    assert read_timetable(text) == TIMETABLE


def test_what_goes_without_saying_may_be_left_out():
    text = """{"cookday_timetable": 1,
        "placed": [{"step": "a.b", "start": 1, "length": 2, "spots": [{"station": "oven"}],
                    "hands": [{"start": 1, "minutes": 2}]}],
        "stays": [{"before": "a.b", "start": 3, "end": 4, "kind": "start to start"}],
        "heatings": [{"station": "oven", "start": 0, "end": 1, "setting": 99}]}"""
    found = read_timetable(text)
    assert found.placed[0].spots[0].units == 1
    assert found.placed[0].hands[0].cook is None
    assert found.stays == (Stay("a.b", None, 3, 4, kind=LinkKind.START_TO_START),)
    assert found.heatings == (Heating("oven", 0, 1, 99),)


def test_minutes_out_of_the_calendar_can_be_written():
    far = Timetable((Placed("a.b", 10**9, 5), Placed("a.c", -(10**9) * 9, 5)))
    text = write_timetable(PLAN, Timetable(far.placed[:1]))
    assert read_timetable(text).placed == far.placed[:1]
    assert '"clock": "out of the calendar"' in write_timetable(PLAN, far)


VERSION_TOLD = (
    'This timetable is of version "%s", and only version 1 can be read here. Write it again with this'
    " program, or read it with a newer one."
)
PLACED = '{"cookday_timetable": 1, "placed": [{"step": "a.b", "start": 1, "length": 2, %s}]}'


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "This is no timetable: the text is not JSON. Write one from a plan again."),
        ("{", "This is no timetable: the text is not JSON. Write one from a plan again."),
        ("[" * 100_000, "This is no timetable: the text is not JSON. Write one from a plan again."),
        ("9" * 5000, "This is no timetable: the text is not JSON. Write one from a plan again."),
        ("[]", 'This is no timetable: it does not begin with "cookday_timetable". Choose another file.'),
        (
            '{"steps": 3}',
            'This is no timetable: it does not begin with "cookday_timetable". Choose another file.',
        ),
        (
            '{"cookday_timetable": 2}',
            VERSION_TOLD % "2",
        ),
        (
            '{"cookday_timetable": true}',
            VERSION_TOLD % "True",
        ),
        ('{"cookday_timetable": 1, "moves": []}', 'In the timetable "moves" is unknown; leave it out.'),
        (
            '{"cookday_timetable": 1, "placed": 3}',
            'In the timetable "placed" must be a list of records in curly brackets.',
        ),
        (
            '{"cookday_timetable": 1, "stays": [3]}',
            'In the timetable "stays" must be a list of records in curly brackets.',
        ),
        (PLACED % '"spots": {}', 'In placed 1 "spots" must be a list of records in curly brackets.'),
        (PLACED % '"colour": 3', 'In placed 1 "colour" is unknown; leave it out.'),
        (PLACED % '"load": 1.5', 'In placed 1 "load" is "1.5"; it must be a whole number.'),
        (PLACED % '"load": true', 'In placed 1 "load" is "true"; it must be a whole number.'),
        (PLACED % '"load": null', 'In placed 1 "load" is missing; it must be a whole number.'),
        (PLACED % '"setting": "hot"', 'In placed 1 "setting" is "hot"; it must be a whole number.'),
        (
            PLACED % '"load": 1000000001',
            'In placed 1 "load" is "1000000001"; that is more than 1,000,000,000.',
        ),
        (
            PLACED % '"spots": [{"units": 1}]',
            'In spot 1 of placed 1 "station" is missing; it must be a name in quotes.',
        ),
        (
            PLACED % '"spots": [{"station": "a"}, {"station": 3}]',
            'In spot 2 of placed 1 "station" is "3"; it must be a name in quotes.',
        ),
        (
            PLACED % '"hands": [{"start": 3}]',
            'In hand 1 of placed 1 "minutes" is missing; give it a whole number.',
        ),
        (
            PLACED % '"hands": [{"start": 3, "minutes": 1, "cook": 7}]',
            'In hand 1 of placed 1 "cook" is "7"; it must be a name in quotes.',
        ),
        (
            '{"cookday_timetable": 1, "placed": [{"start": 1, "length": 1}]}',
            'In placed 1 "step" is missing; it must be a name in quotes.',
        ),
        (
            '{"cookday_timetable": 1, "stays": [{"before": "a", "start": 1, "end": 2, "kind": "now"}]}',
            'In stay 1 "kind" is "now"; write "end to start", or leave it out.',
        ),
        (
            '{"cookday_timetable": 1, "heatings": [{"station": "a", "start": 1, "end": 2}]}',
            'In heating 1 "setting" is missing; give it a whole number.',
        ),
    ],
)
def test_what_is_no_timetable_is_refused_in_words(text, words):
    with pytest.raises(Refusal) as refused:
        read_timetable(text)
    assert refused.value.text == words
