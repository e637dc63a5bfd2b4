"""The menu of a bar: everything a drag can do, and all that may be decided about the step, by single clicks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu

from app.look.words import word
from app.timeline import offers, walk
from app.timeline.bars import Bar
from app.timeline.offers import Offer
from app.timeline.stations import other_stations
from core.plan.ids import StepId
from core.plan.kitchen import Station
from core.timetable.timetable import Placed

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


def bar_menu(timeline: Timeline, lane: int, bar: Bar) -> QMenu:
    """Return the menu of a bar; the caller shows it."""
    menu = _menu(timeline, "bar menu")
    placed = timeline.scene.timetable.at.get(bar.key) if bar.key is not None else None
    if bar.step is None or placed is None:
        return menu
    step = bar.step
    menu.addAction(word("open")).triggered.connect(lambda: timeline.step_opened.emit(step))
    menu.addSeparator()
    if bar.moves:
        _add_moves(timeline, menu, bar, placed)
        menu.addSeparator()
    _add_pins(timeline, menu, bar, placed)
    menu.addSeparator()
    _add_choices(timeline, menu.addMenu(word("way")), offers.way_offers(timeline.scene, bar))
    _add_choices(timeline, menu.addMenu(word("length")), offers.length_offers(timeline.scene, bar))
    for first, name in ((True, "order before"), (False, "order after")):
        found = offers.order_offers(timeline.scene, lane, bar, first=first)
        _add_choices(timeline, menu.addMenu(word(name)), found, one=False)
    menu.addSeparator()
    _add_goes(timeline, menu.addMenu(word("hangs on")), step, before=True)
    _add_goes(timeline, menu.addMenu(word("hang on it")), step, before=False)
    return menu


def way_menu(timeline: Timeline, bar: Bar) -> QMenu:
    """Return the ways of a step to choose from; the caller shows it."""
    return _choices(timeline, "way menu", offers.way_offers(timeline.scene, bar))


def length_menu(timeline: Timeline, bar: Bar) -> QMenu:
    """Return how cautiously a step's length may be reserved; the caller shows it."""
    return _choices(timeline, "length menu", offers.length_offers(timeline.scene, bar))


def _menu(timeline: Timeline, name: str) -> QMenu:
    """Return an empty menu that goes for good when it is shut."""
    menu = QMenu(timeline)
    menu.setObjectName(name)
    menu.aboutToHide.connect(menu.deleteLater)
    return menu


def _choices(timeline: Timeline, name: str, found: Sequence[Offer]) -> QMenu:
    menu = _menu(timeline, name)
    _add_choices(timeline, menu, found)
    return menu


def _add_moves(timeline: Timeline, menu: QMenu, bar: Bar, placed: Placed) -> None:
    scene, start = timeline.scene, placed.start
    for name, by in (("earlier", -5), ("later", 5)):
        menu.addAction(word(name)).triggered.connect(
            lambda _checked=False, by=by: timeline.step_dropped.emit(placed.step, placed.load, start + by, None)
        )
    others = other_stations(scene, bar)
    if others:
        move = menu.addMenu(word("move to"))
        for station in others:
            _add_move(timeline, move, placed, station)
    cooks = offers.cook_offers(scene, bar)
    if cooks:
        give = menu.addMenu(word("move to cook"))
        for offer in cooks:
            give.addAction(plain(offer.words)).triggered.connect(
                lambda _checked=False, offer=offer: timeline.keys.deciding.give(placed, offer)
            )


def _add_move(timeline: Timeline, menu: QMenu, placed: Placed, station: Station) -> None:
    menu.addAction(plain(station.name)).triggered.connect(
        lambda: timeline.step_dropped.emit(placed.step, placed.load, placed.start, station.id)
    )


def _add_pins(timeline: Timeline, menu: QMenu, bar: Bar, placed: Placed) -> None:
    pin = timeline.scene.plan.pins.get(placed.key)
    if pin is None or pin.start is None:
        menu.addAction(word("pin")).triggered.connect(
            lambda: timeline.step_dropped.emit(placed.step, placed.load, placed.start, None)
        )
    if pin is not None:
        menu.addAction(word("unpin")).triggered.connect(lambda: timeline.pin_lifted.emit(placed.step, placed.load))
    for offer in offers.pin_offers(timeline.scene, bar):
        if not offer.so:
            _add(timeline, menu, offer)


def _add_choices(timeline: Timeline, menu: QMenu, found: Sequence[Offer], *, one: bool = True) -> None:
    """Fill a menu with what to choose from, `one` of them; where there is nothing it cannot be opened."""
    group = QActionGroup(menu)
    group.setExclusive(one)
    for offer in found:
        action = _add(timeline, menu, offer)
        action.setCheckable(True)
        action.setChecked(offer.so)
        group.addAction(action)
    menu.setEnabled(bool(found))


def _add(timeline: Timeline, menu: QMenu, offer: Offer) -> QAction:
    action = menu.addAction(plain(offer.words))
    action.triggered.connect(lambda _checked=False: timeline.edit_wanted.emit(offer.edit))
    return action


def _add_goes(timeline: Timeline, menu: QMenu, step: StepId, *, before: bool) -> None:
    """Fill a menu with the steps linked to one, to go to, and to choose together with it."""
    scene = timeline.scene
    steps = walk.neighbours(scene, step, before=before)
    for other in steps:
        menu.addAction(plain(offers.step_text(scene, other))).triggered.connect(
            lambda _checked=False, other=other: go_to(timeline, other)
        )
    menu.setEnabled(bool(steps))
    if steps:
        menu.addSeparator()
        menu.addAction(word("choose all")).triggered.connect(lambda: choose_chain(timeline, step, before=before))


def go_to(timeline: Timeline, step: StepId) -> None:
    """Put the focus on a step as the cook's own choice."""
    place = walk.find(timeline.scene, step)
    if place is not None:
        timeline.focus_on(*place, chosen=True)


def choose_chain(timeline: Timeline, step: StepId, *, before: bool) -> None:
    """Choose a step along with all that it hangs on (`before`), or with all that hangs on it."""
    scene = timeline.scene
    steps = walk.chain(scene, step, before=before)
    scene.also = frozenset(key for key in scene.timetable.at if key[0] in steps)
    timeline.viewport().update()


def plain(text: str) -> str:
    """Return a text for a menu in which no letter is taken for a key."""
    return text.replace("&", "&&")
