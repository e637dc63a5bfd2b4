"""What the tests of one rule at a time share: whether a plan fits, by both ways of asking, and shorthands."""

from __future__ import annotations

from dataclasses import replace

from core.arrange import Fit
from core.arrange.possible import possible
from core.plan.kitchen import Cook, Kitchen, Station, Window
from core.plan.plan import Plan
from core.timetable.timetable import Hand, Timetable
from tests.core.arrange.arranged import answer
from tests.support.builders import PLATING, a_cook, a_kitchen

_CLOCK = int(PLATING[11:13]) * 60 + int(PLATING[14:16])


def fits(plan: Plan) -> bool:
    """Return whether a plan can meet: proven either way by arranging, and not gainsaid by the quick question."""
    outcome = answer(plan)
    assert outcome.fit is not Fit.NOT_FOUND, [each.sentence for each in outcome.clashes]
    assert (possible(plan).fit is Fit.MEETS) == (outcome.fit is Fit.MEETS)
    return outcome.fit is Fit.MEETS


def kitchen(*stations: Station, walk: int = 1, **fields) -> Kitchen:
    """Return a kitchen of these stations alone."""
    return replace(a_kitchen(stations=stations, **fields), walk=walk)


def there(begins: int, ends: int, name: str = "ann", *skills: str) -> Cook:
    """Return a cook who is there between two offsets from the builders' plating only, on that day."""
    return a_cook(name, *skills, present=(between(begins, ends),))


def between(begins: int, ends: int) -> Window:
    """Return the clock time between two offsets of one day from the builders' plating."""
    return Window(0, _CLOCK + begins, _CLOCK + ends)


def spans(hands: tuple[Hand, ...]) -> list[tuple[int, int]]:
    """Return when hands begin and end, in order of time."""
    return sorted((each.start, each.start + each.minutes) for each in hands)


def worked(timetable: Timetable, step: str, load: int = 0) -> list[tuple[int, int]]:
    """Return when hands are at a load, from and to."""
    return spans(timetable.at[step, load].hands)
