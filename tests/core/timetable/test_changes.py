"""What is different between two timetables."""

from dataclasses import replace

from core.plan.ids import CookId
from core.timetable.changes import Moved, changes
from core.timetable.timetable import Hand, Timetable
from tests.core.timetable.laid import laid, spot
from tests.support.builders import a_dish, a_plan, a_step, a_use

PLAN = a_plan(
    a_dish("soup", a_step("soup.boil", minutes=20, uses=(a_use("burner"),))),
    a_dish("tart", a_step("tart.roll", minutes=10)),
)
BEFORE = laid(PLAN, {"soup.boil": -60, "tart.roll": -30})


def changed(**fields) -> Moved:
    soup, tart = BEFORE.placed
    (found,) = changes(BEFORE, Timetable((tart, replace(soup, **fields))))
    assert (found.step, found.load, found.before) == ("soup.boil", 0, soup)
    assert not found.new
    assert not found.gone
    return found


def kinds(moved: Moved) -> set[str]:
    words = ("other_length", "other_place", "other_setting", "other_hands", "other_way")
    return {word for word in words if getattr(moved, word)}


def test_nothing_changed():
    assert changes(BEFORE, BEFORE) == ()
    assert changes(BEFORE, Timetable(BEFORE.placed[::-1])) == ()


def test_each_way_of_being_different():
    soup = BEFORE.placed[0]
    moved = changed(start=-55, hands=(Hand(-55, 20, CookId("ann")),))
    assert (moved.minutes, kinds(moved)) == (5, set())
    moved = changed(start=-70)
    assert (moved.minutes, kinds(moved)) == (-10, {"other_hands"})
    assert kinds(changed(length=21)) == {"other_length"}
    assert kinds(changed(spots=(spot("burner-2"),))) == {"other_place"}
    assert kinds(changed(setting=180)) == {"other_setting"}
    assert kinds(changed(hands=(replace(soup.hands[0], cook=CookId("ben")),))) == {"other_hands"}


def test_new_and_gone_come_in_order_of_time():
    soup, tart = BEFORE.placed
    second = replace(soup, load=1, start=-20)
    found = changes(BEFORE, Timetable((second, replace(soup, start=-61))))
    assert found == (
        Moved(soup.step, 0, soup, replace(soup, start=-61)),
        Moved(tart.step, 0, tart, None),
        Moved(soup.step, 1, None, second),
    )
    assert [(each.new, each.gone, each.minutes) for each in found] == [
        (False, False, -1),
        (False, True, 0),
        (True, False, 0),
    ]
    assert not kinds(found[1])
    assert not kinds(found[2])
