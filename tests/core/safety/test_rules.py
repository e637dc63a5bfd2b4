from __future__ import annotations

from pathlib import Path

import pytest

from core.measures.refusal import Refusal
from core.safety.rules import Family
from core.safety.rules_reading import read_rules, rules_in
from core.safety.rules_there import chosen_rules, rules_in_folder, shipped_rules

ROW = """
id = "mine"
name = "Mine"

[[rule]]
id = "out"
family = "between"
measure = "out"
foods = ["perishable"]
minutes = 90
publisher = "My inspector"
document = "a letter"
read = 2026-01-05
tag = "read"
"""


def test_a_users_own_set_is_read_and_chosen(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(ROW, encoding="utf-8")
    own = rules_in_folder(tmp_path)
    assert chosen_rules("mine", own).rule("out").values.minutes == 90
    assert str(chosen_rules("mine", own).rule("out").source) == "My inspector, a letter"
    assert chosen_rules("").id == "us-home"
    with pytest.raises(Refusal, match='no food rules "mine"; choose us-home, us-establishment or uk'):
        chosen_rules("mine")


def test_no_folder_is_no_own_set(tmp_path: Path) -> None:
    assert rules_in_folder(tmp_path / "nowhere") == ()


def test_an_id_that_is_taken_is_refused(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(ROW.replace('"mine"', '"uk"'), encoding="utf-8")
    with pytest.raises(Refusal, match=r'mine\.toml”, the head: the id "uk" is taken'):
        rules_in_folder(tmp_path)


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (
            'family = "between"',
            'family = "sideways"',
            'row 1 .out.: family "sideways" is not known; write between',
        ),
        ('measure = "out"', 'measure = "core"', "core is no measure of the family between; write out"),
        ("minutes = 90", "", "the measure out needs minutes; write it"),
        ("minutes = 90", "minutes = -1", "minutes must be a whole number from 0 to"),
        ("minutes = 90", "minutes = 1.5", "minutes must be a whole number"),
        ("minutes = 90", "minutes = true", "minutes must be a whole number"),
        ("minutes = 90", "minutes = 90\nhours = 2", "the key hours is not known; take it out"),
        ('foods = ["perishable"]', 'foods = ["dragon"]', 'the food "dragon" is not known; write perishable'),
        ('foods = ["perishable"]', "foods = []", "foods is missing"),
        ('publisher = "My inspector"', "", "publisher is missing or no text; write one in quotes"),
        (
            'tag = "read"',
            'tag = "heard"',
            'tag "heard" is not known; write read, second-hand, memory or practice',
        ),
        ("read = 2026-01-05", "", "read is missing or no date"),
        ("read = 2026-01-05", 'read = "in May"', "read is missing or no date"),
        ('id = "out"', "", "row 1: id is missing"),
        (
            "minutes = 90",
            "minutes = 90\nroom_above = { celsius = 32, fahrenheit = 60 }",
            "room_above: 32 °C is not 60 °F; correct one of them",
        ),
        ("minutes = 90", "minutes = 90\nroom_above = 32", "room_above must be a temperature in both scales"),
        ('name = "Mine"', 'name = "Mine"\ncolour = 3', "the head: the key colour is not known"),
        ("[[rule]]", "[[rule]", "mend that line"),
    ],
)
def test_a_refusal_names_the_file_the_row_and_the_mend(old: str, new: str, sentence: str) -> None:
    with pytest.raises(Refusal, match=sentence) as refused:
        rules_in(ROW.replace(old, new), "mine.toml")
    assert refused.value.text.startswith("“mine.toml”")


def test_two_rows_of_one_id_are_refused() -> None:
    with pytest.raises(Refusal, match=r"row 2 \(out\): an earlier row bears the same id"):
        rules_in(ROW + ROW[ROW.index("[[rule]]") :], "mine.toml")


def test_stages_out_of_order_are_refused() -> None:
    cool = ROW.replace('family = "between"\nmeasure = "out"', 'family = "cooling"\nmeasure = "cool"').replace(
        "minutes = 90",
        "from = { celsius = 57, fahrenheit = 135 }\nstages = [{ minutes = 120, celsius = 21, fahrenheit = 70 },"
        " { minutes = 60, celsius = 5, fahrenheit = 41 }]",
    )
    with pytest.raises(Refusal, match="stages must come later and colder"):
        rules_in(cool, "mine.toml")


def test_what_is_no_text_and_what_is_not_there_is_refused(tmp_path: Path) -> None:
    (tmp_path / "odd.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(Refusal, match=r"odd\.toml” is no text in UTF-8"):
        read_rules(tmp_path / "odd.toml")
    with pytest.raises(Refusal, match="cannot be read"):
        read_rules(tmp_path / "no.toml")


def test_the_home_set_has_rows_for_every_family() -> None:
    assert {rule.family for rule in shipped_rules()[0].rules} == set(Family)
