"""Which sets of food rules there are: those shipped, and a user's own in a folder that the caller gives."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from core.measures.refusal import Refusal, quoted
from core.measures.words import join_words
from core.safety.rules import RuleSet
from core.safety.rules_reading import read_rules
from resources import shipped

USUAL = "us-home"
_SHIPPED = (USUAL, "us-establishment", "uk")


@cache
def shipped_rules() -> tuple[RuleSet, ...]:
    """Return the sets that come with the program, that of home cooks first."""
    return tuple(read_rules(shipped("rules", f"{each}.toml")) for each in _SHIPPED)


def rules_in_folder(folder: Path) -> tuple[RuleSet, ...]:
    """Return a user's own sets: every .toml file of the folder, by name; refuse the first that is none.

    A set that bears the id of a shipped one or of another file is refused: nobody should think it is that one.
    """
    found: list[RuleSet] = []
    for path in sorted(folder.glob("*.toml")) if folder.is_dir() else ():
        rules = read_rules(path)
        if rules.id in {*(each.id for each in found), *_SHIPPED}:
            raise Refusal(f"“{path.name}”, the head: the id {quoted(rules.id)} is taken; give it another.")
        found.append(rules)
    return tuple(found)


def chosen_rules(rules: str, own: tuple[RuleSet, ...] = ()) -> RuleSet:
    """Return the set of an id (none: the usual one), among the shipped and the user's own; refuse an unknown one."""
    there = {each.id: each for each in (*shipped_rules(), *own)}
    found = there.get(rules or USUAL)
    if found is None:
        names = join_words(list(there)).replace(" and ", " or ")
        raise Refusal(
            f"There are no food rules {quoted(rules)}; choose {names}, or put their file where it was."
        )
    return found


def rules_beside(rules: str, folder: Path | None) -> RuleSet:
    """Return the set of an id, where it is no shipped one among the user's own in a folder.

    Refuse an id that is not there, and a file of the folder that holds no rules.
    """
    shipped = rules in {"", *(each.id for each in shipped_rules())}
    return chosen_rules(rules, () if shipped or folder is None else rules_in_folder(folder))


def rules_at_hand(rules: str, folder: Path | None) -> RuleSet | None:
    """Return what `rules_beside` does; None where it is not there, for those that say so themselves."""
    try:
        return rules_beside(rules, folder)
    except Refusal:
        return None
