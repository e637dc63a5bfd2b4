"""What is told of a plan typed wrongly: all of it at once, with line, place and mend."""

import json

import pytest

from core.intake.text.faults import TextRefusal
from core.intake.text_plan import read_text
from core.measures.refusal import Refusal

PLAN = """name = "Supper"
plating = "2026-09-26 19:30 Europe/London"

[station.oven]
name = "Oven"
kind = "oven"
units = 2

[vessel]
tin = { name = "Tin" }

[cook.ann]
name = "Ann"
skills = ["able"]

[dish.pie]
name = "Pie"
serves = 4
ingredients = [
  "flour: 300 g",
  { item = "butter", quantity = "150 g", step = "fill" },
]

[dish.pie.step.fill]
does = "Fill"
takes = 5
vessels = "tin"

[dish.pie.step.bake]
does = "Bake"
takes = "40/50/60"
oven = "180 C +-15, 2 racks"
touches = [
  "at 20, 2 min: turn",
]
"""


def told(*changes, text=PLAN, form="toml"):
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    with pytest.raises(Refusal) as caught:
        read_text(text, form)
    return caught.value.text


def test_the_plan_itself_is_sound():
    assert read_text(PLAN).name == "Supper"


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (
            'takes = "40/50/60"',
            'takes = "60/50/40"',
            'Line 31, dish pie, step bake, takes: "60/50/40": write the least first, then the likely, then the most',
        ),
        (
            '"at 20, 2 min: turn"',
            '"20, 2 min: turn"',
            'Line 34, dish pie, step bake, touches, number 1: "20, 2 min: turn" does not begin with its time;',
        ),
        (
            'quantity = "150 g"',
            'quantity = "150 grms"',
            'Line 21, dish pie, ingredients, number 2, quantity: "grms" is not',
        ),
        (
            'oven = "180',
            'ovn = "180',
            "Line 32, dish pie, step bake, ovn: The key ovn is not known here; did you mean oven?",
        ),
        (
            'kind = "oven"',
            'kind = "ofen"',
            'Line 6, station oven, kind: "ofen" is not a kind of place; did you mean oven?',
        ),
        ("takes = 5\n", "", "Line 24, dish pie, step fill: The key takes (length, of one load"),
        (
            "serves = 4",
            'serves = "4"',
            'Line 18, dish pie, serves: "4" does not fit here; write a whole number, without quotes.',
        ),
        (
            "serves = 4",
            "serves = 4.5",
            "Line 18, dish pie, serves: 4.5 does not fit here; write a whole number",
        ),
        (
            "serves = 4",
            "served = 4",
            "Line 18, dish pie, served: 4 does not fit here; write true or false, without quotes.",
        ),
        (
            "serves = 4",
            "code = 4",
            'Line 18, dish pie, code: 4 does not fit here; write text in quotes, such as "text".',
        ),
        (
            "units = 2\n",
            'units = 2\nnot_with = ["grille"]\n',
            'Line 8, station oven, not_with, number 1: There is no station "grille"; take it out.',
        ),
        (
            "units = 2\n",
            'units = 2\nfirs = 2\n',
            "Line 8, station oven, firs: The key firs is not known here; did you mean fires?",
        ),
        (
            "units = 2\n",
            'units = 2\nlaying = "soon"\n',
            'Line 8, station oven, laying: "soon" is not a length of time',
        ),
        (
            "units = 2\n",
            'units = 2\nnot_with = "oven"\n',
            "Line 4, station oven: Oven is never to be used at the same time as itself; name another station.",
        ),
        (
            "units = 2\n",
            'units = 2\nheater = { full = "some" }\n',
            'Line 8, station oven, heater, full: "some" is not a number of per cent; write 10.',
        ),
        (
            "units = 2\n",
            'units = 2\nheater = { full = 200 }\n',
            "Line 4, station oven: Oven takes 200 % longer when it is full; give 0 to 100.",
        ),
        (
            'tin = { name = "Tin" }',
            'tin = { name = "Tin", by_hand = "no" }',
            'Line 10, vessel tin, by_hand: "no" does not fit here; write true or false, without quotes.',
        ),
        (
            'tin = { name = "Tin" }',
            'tin = { name = "Tin", by_hnd = true }',
            "Line 10, vessel tin, by_hnd: The key by_hnd is not known here; did you mean by_hand?",
        ),
        (
            'name = "Supper"\n',
            'name = "Supper"\nwalk = "far"\n',
            'Line 2, walk: "far" is not a length of time',
        ),
        (
            'name = "Supper"\n',
            'name = "Supper"\ndecisions = { wishes = { sleep_until = "8 h" } }\n',
            'Line 2, decisions, wishes, sleep_until: "8 h" could be morning or evening; write 08:00',
        ),
        (
            'name = "Supper"\n',
            'name = "Supper"\ndecisions = { wishes = { sleep_until = 480 } }\n',
            'Line 2, decisions, wishes, sleep_until: "480" is not a time of day in quotes; write "08:00".',
        ),
        (
            'name = "Supper"\n',
            'name = "Supper"\ndecisions = { wishes = { sleep_until = "24:00" } }\n',
            "The time until which the cooks may sleep is not a time of day; give 00:00 to 23:59.",
        ),
        (
            "takes = 5\n",
            'takes = 5\nyields = "whey"\n',
            'Line 27, dish pie, step fill, yields: "whey": write what it yields and how much as "buttermilk: 450 ml".',
        ),
        (
            "takes = 5\n",
            'takes = 5\nyields = "whey: to taste"\n',
            'Line 27, dish pie, step fill, yields: How much whey comes to cannot be "to taste"; write an amount',
        ),
        (
            "takes = 5\n",
            'takes = 5\nyields = "whey: 4 buckets"\n',
            'Line 27, dish pie, step fill, yields: "buckets" is not',
        ),
        (
            'vessels = "tin"',
            "vessels = [true]",
            "Line 27, dish pie, step fill, vessels, number 1: true does not fit here; write it as",
        ),
        (
            'vessels = "tin"',
            'vessels = "tinn"',
            "Line 24, dish pie, step fill: Pie: Fill uses the vessel “tinn”",
        ),
        (
            'vessels = "tin"',
            'after = ["bke"]',
            'Line 27, dish pie, step fill, after, number 1: There is no step "bke"; did you mean bake?',
        ),
        (
            'vessels = "tin"',
            'wait = "5 min"',
            'Line 27, dish pie, step fill, wait: "5 min": write "up to 5 min", "at least 5 min"',
        ),
        ('name = "Supper"', "name = Supper", "This is not well-formed TOML: "),
        ("2026-09-26 19:30 Europe/London", "2026-09-26 19:30", "Line 2, plating: "),
        ('"2026-09-26 19:30 Europe/London"', "2026-09-26T19:30:00", "Line 2, plating: "),
        ("[cook.ann]", "[cok.ann]", "Line 12, cok: The key cok is not known here; did you mean cook?"),
        ('skills = ["able"]', "night = 7", "Line 14, cook ann, night: "),
        (
            'skills = ["able"]',
            'zzz = "x"',
            "Line 14, cook ann, zzz: The key zzz is not known here; take it out, or use name,",
        ),
    ],
)
def test_one_fault(old, new, sentence):
    text = told((old, new))
    text = text.replace('"tinn"', "“tinn”")  # whichever quotes the check uses
    assert text.startswith(sentence), text
    assert "\n" not in text


def test_a_syntax_fault_names_line_and_column_in_one_sentence():
    assert told(("serves = 4", "serves = ")) == (
        "This is not well-formed TOML: invalid value (line 18, column 10). Mend it there and read it again."
    )
    assert told(text='{"name": "x",\n "plating": }', form="json") == (
        "This is not well-formed JSON: expecting value (line 2, column 13). Mend it there and read it again."
    )


def test_all_faults_at_once_in_the_order_of_the_text():
    changes = (
        ("serves = 4", 'serves = "four"'),
        ('oven = "180 C', 'oven = "hot'),
        ("units = 2", "unit = 2"),
        ('skills = ["able"]', 'skills = ["able", 3]'),
    )
    lines = told(*changes).splitlines()
    assert lines[0] == "4 things to mend in this plan:"
    assert [line.partition(",")[0] for line in lines[1:]] == ["Line 7", "Line 14", "Line 18", "Line 32"]


def test_a_misspelt_key_is_told_once():
    assert told(('does = "Fill"', 'dose = "Fill"')) == (
        "Line 25, dish pie, step fill, dose: The key dose is not known here; did you mean does?"
    )


def test_a_wait_that_leads_nowhere_is_told():
    text = told(('oven = "180', 'wait = "up to 5 min"\noven = "180'))
    assert text.startswith(
        "Line 32, dish pie, step bake, wait: The wait leads nowhere: no step comes below it;"
    )
    text = told(
        ("takes = 5\n", 'takes = 5\nwait = "up to 5 min"\n'), ('does = "Bake"', 'does = "Bake"\nafter = []')
    )
    assert "bake, the step below, says itself what it follows" in text


def test_faults_found_by_the_check_are_placed():
    text = told(("2 racks", "3 racks"), ("at 20, 2 min", "at 39, 2 min"))
    assert text.splitlines()[0] == "2 things to mend in this plan:"
    assert all(line.startswith("Line 29, dish pie, step bake: ") for line in text.splitlines()[1:])


def test_links_and_choices_are_placed():
    more = '\n[decisions]\nchoices = ["pie.bake: slow"]\n[[link]]\nbefore = "pie.bake"\nafter = "pie.cut"\n'
    text = told(text=PLAN + more)
    assert 'decisions, choices, number 1: "slow" is no way to do pie.bake;' in text
    assert 'link, number 1, after: There is no step "pie.cut";' in text


def test_json_faults_have_lines_too():
    plan = {
        "name": "Supper",
        "plating": "2026-09-26 19:30 Europe/London",
        "dish": {"pie": {"name": "Pie", "step": {"bake": {"does": "Bake", "takes": [1]}}}},
    }
    text = json.dumps(plan, indent=1)
    assert told(text=text, form="json").startswith(
        "Line 10, dish pie, step bake, takes: A list is not a length;"
    )


def test_json_keys_given_twice_are_refused():
    assert told(text='{"name": "x", "name": "y"}', form="json") == (
        'The key "name" stands twice in the same table; keep one of them.'
    )


@pytest.mark.parametrize("text", ["[]", "3", '"x"', "null"])
def test_what_is_no_plan_at_all(text):
    assert told(text=text, form="json").endswith("is not a plan; begin with its name and plating.")


@pytest.mark.parametrize("form", ["toml", "json"])
def test_deep_brackets_and_long_texts_are_refused(form):
    deep = "[" * 100_000 + "]" * 100_000
    assert told(text=f"a = {deep}" if form == "toml" else deep, form=form).startswith(
        "The brackets of this text"
    )
    assert told(text=" " * 5_000_001, form=form).startswith("The text is longer than five million")


def test_brackets_too_deep_for_lines_only():
    text = '{"name": ' + "[" * 700 + "]" * 700 + "}"
    assert "name" in told(text=text, form="json")


def test_the_faults_can_be_had_one_by_one():
    with pytest.raises(TextRefusal) as caught:
        read_text(PLAN.replace("serves = 4", 'serves = "4"'))
    assert [fault.place for fault in caught.value.faults] == [("dish", "pie", "serves")]
    assert caught.value.named("supper.toml").text.startswith("supper.toml: Line 18")


def test_a_station_misspelt_in_another_is_told_with_the_one_meant():
    grill = '[station.grill]\nname = "Grill"\nkind = "grill"\nnot_with = ["ofen"]\n\n[vessel]'
    assert told(("[vessel]", grill)) == (
        'Line 12, station grill, not_with, number 1: There is no station "ofen"; did you mean oven?'
    )
