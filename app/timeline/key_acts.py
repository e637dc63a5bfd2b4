"""What the keys do, one method for each line of the table of keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.timeline import offers, spoken, walk
from app.timeline.bar_facts import pin_on
from app.timeline.bars import Bar, Key
from app.timeline.drag_length import Sizes, edit_for, note_for, stretches, wish_for
from app.timeline.drag_plating import timetable_at
from app.timeline.drag_wish import Done, Wish
from app.timeline.key_marks import Marks
from app.timeline.lanes import READINGS
from app.timeline.menu import length_menu, way_menu
from app.timeline.scene import Scene
from app.timeline.sight import STEP
from app.timeline.stations import beside
from core.plan.edits import Edit, PinStep, PinSteps, ServeLater
from core.timetable.timetable import Placed, Timetable

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


class Going:
    """Goes from bar to bar, and chooses several."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline

    def along(self, by: int) -> None:
        """Go along the lane."""
        self._go(walk.along, by)

    def across(self, by: int) -> None:
        """Go to the next lane up or down."""
        self._go(walk.across, by)

    def linked(self, by: int) -> None:
        """Go to what the step hangs on, or to what hangs on it."""
        self._go(walk.linked, by)

    def in_time(self, by: int) -> None:
        """Go to the next bar in time, or to the one before."""
        self._to(walk.in_time(self._timeline.scene, self._timeline.focused, by))

    def first(self) -> None:
        """Go to the first bar of the day."""
        self._to(walk.first(self._timeline.scene))

    def last(self) -> None:
        """Go to the last bar of the day."""
        self._to(walk.last(self._timeline.scene))

    def more_along(self, by: int) -> None:
        """Go along the lane and keep what is chosen."""
        self._go(walk.along, by, more=True)

    def more_across(self, by: int) -> None:
        """Go to another lane and keep what is chosen."""
        self._go(walk.across, by, more=True)

    def chain(self, by: int) -> None:
        """Choose along all that the step hangs on (-1), or all that hangs on it."""
        scene, here = self._timeline.scene, self._timeline.focused
        if here is None or here[1].step is None:
            return
        steps = walk.chain(scene, here[1].step, before=by < 0)
        scene.also |= frozenset(key for key in scene.timetable.at if key[0] in steps)
        spoken.say(self._timeline, offers.translated("{count} chosen").format(count=len(scene.also) + 1))
        self._timeline.viewport().update()

    def clash(self, by: int) -> None:
        """Go to the next clash in time after the focused bar, or to the one before; round again at the end."""
        scene, here = self._timeline.scene, self._timeline.focused
        known = sorted(scene.clashes, key=lambda clash: (clash.start, clash.end, clash.sentence))
        if not known:
            spoken.say(self._timeline, offers.translated("nothing clashes"))
            return
        now = self._timeline.keys.clash
        if now in known:
            at = (known.index(now) + by) % len(known)
        else:
            minute = here[1].start if here is not None else scene.axis.low
            later = [number for number, clash in enumerate(known) if clash.start >= minute]
            at = (later[0] if later else 0) if by > 0 else (later[0] - 1 if later else -1)
        self._timeline.keys.clash = known[at]
        self._timeline.show_clash(known[at])
        spoken.say(self._timeline, known[at].sentence)

    def open(self) -> None:
        """Open the focused step in the Menu place."""
        here = self._timeline.focused
        if here is not None and here[1].step is not None:
            self._timeline.step_opened.emit(here[1].step)

    def let_go(self) -> bool:
        """Let go of a drag, else of the mark, else of what is chosen along; tell whether there was anything."""
        scene = self._timeline.scene
        if self._timeline.pointer.let_go():
            return True
        if scene.marked is None and not scene.also:
            return False
        if scene.marked is not None:
            scene.marked = None
        else:
            scene.also = frozenset()
        self._timeline.viewport().update()
        return True

    def _go(self, way: walk.Way, by: int, *, more: bool = False) -> None:
        here = self._timeline.focused
        scene = self._timeline.scene
        self._to(walk.first(scene) if here is None else way(scene, here, by), more=more and here is not None)

    def _to(self, place: walk.Place | None, *, more: bool = False) -> None:
        if place is not None:
            self._timeline.focus_on(*place, chosen=True, more=more)


class Deciding:
    """Moves what is chosen and decides about it."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline
        self._marks = Marks(timeline)

    def nudge(self, by: int) -> None:
        """Move what is chosen by some minutes."""
        scene = self._timeline.scene
        if not scene.also:
            self._timeline.pointer.nudge(by)
            return
        at = scene.timetable.at
        starts = {key: at[key].start + by for key in sorted(self._chosen()) if key in at}
        own = self._bar()
        if own is None or own.key is None or not starts:
            return
        edit = PinSteps(tuple(PinStep(step, load, start) for (step, load), start in starts.items()))
        wish = Wish(own.key if own.key in starts else next(iter(starts)), starts)
        self._want(edit, self._timeline.thinker.timetable_by(wish))
        spoken.say(self._timeline, edit.label_in(scene.plan))

    def other_lane(self, by: int) -> None:
        """Move the focused step to the next station up or down that may take it, else to the next cook."""
        bar, scene = self._bar(), self._timeline.scene
        placed = scene.timetable.at.get(bar.key) if bar is not None and bar.key is not None else None
        if bar is None or placed is None or not bar.moves:
            return
        station = beside(scene, bar, by)
        if station is not None:
            self._timeline.step_dropped.emit(placed.step, placed.load, placed.start, station.id)
            return
        offer = _cook_beside(scene, bar, by)
        if offer is not None:
            self.give(placed, offer)
            return
        spoken.say(self._timeline, offers.translated("there is no other place for it that way"))

    def give(self, placed: Placed, offer: offers.Offer) -> None:
        """Give a load to the cook that is offered, where it stands."""
        wish = Wish(placed.key, {placed.key: placed.start}, cook=offer.cook)
        self._want(offer.edit, self._timeline.thinker.timetable_by(wish))

    def stretch(self, by: int) -> None:
        """Let the focused step take longer or shorter."""
        bar, scene = self._bar(), self._timeline.scene
        placed = scene.timetable.at.get(bar.key) if bar is not None and bar.key is not None else None
        if bar is None or placed is None:
            return
        if not stretches(scene, bar):
            spoken.say(self._timeline, offers.translated("change its length on the step's own bar"))
            return
        sizes = Sizes.of(scene.plan, placed)
        length = sizes.shown(sizes.minutes_for(max(1, placed.length + by)))
        edit = edit_for(scene.plan, placed, length)
        wish = wish_for(scene.plan, scene.timetable, placed.key, length)
        note = note_for(sizes, edit.minutes)
        label = edit.label_in(scene.plan)
        self._want(edit, self._timeline.thinker.timetable_by(wish))
        spoken.say(self._timeline, f"{label}. {note}".strip())

    def plate(self, by: int) -> None:
        """Plate sooner or later; all stays by the clock."""
        self._plate(by, along=False)

    def plate_all(self, by: int) -> None:
        """Plate sooner or later; what is not pinned comes along."""
        self._plate(by, along=True)

    def _plate(self, by: int, *, along: bool) -> None:
        scene, edit = self._timeline.scene, ServeLater(by)
        self._want(edit, timetable_at(scene.plan, scene.timetable, by, along=along))
        spoken.say(self._timeline, edit.label_in(scene.plan))

    def pin(self) -> None:
        """Pin the focused step where it stands, or lift its pin."""
        bar, scene = self._bar(), self._timeline.scene
        if bar is None or bar.step is None:
            return
        pin = pin_on(scene, bar)
        if pin is not None and pin.start is not None:
            self.lift()
        elif (placed := scene.timetable.at.get((bar.step, bar.load))) is not None:
            self._timeline.step_dropped.emit(bar.step, bar.load, placed.start, None)

    def lift(self) -> None:
        """Lift the pin of the focused step."""
        bar = self._bar()
        if bar is not None and bar.step is not None:
            self._timeline.pin_lifted.emit(bar.step, bar.load)

    def way(self) -> None:
        """Open the ways to do the focused step."""
        bar = self._bar()
        if bar is not None and offers.has_ways(self._timeline.scene, bar):
            self._timeline.pointer.popup(way_menu(self._timeline, bar))
        elif bar is not None:
            spoken.say(self._timeline, offers.translated("there is only one way to do it"))

    def length(self) -> None:
        """Open how long may be reserved for the focused step."""
        bar = self._bar()
        if bar is not None and offers.has_spread(self._timeline.scene, bar):
            self._timeline.pointer.popup(length_menu(self._timeline, bar))
        elif bar is not None:
            spoken.say(self._timeline, offers.translated("it always takes this long"))

    def order(self) -> None:
        """Mark the focused step, or put it after the marked one; where it is so already, lift that order."""
        self._marks.order()

    def join(self) -> None:
        """Mark the focused step, or link it to the marked one; where they are linked already, unlink them."""
        self._marks.join()

    def menu(self) -> None:
        """Open the menu of the focused bar."""
        self._timeline.pointer.menu_at_focus()

    def _bar(self) -> Bar | None:
        return None if self._timeline.focused is None else self._timeline.focused[1]

    def _chosen(self) -> frozenset[Key]:
        bar = self._bar()
        own = frozenset() if bar is None or bar.key is None else frozenset({bar.key})
        return self._timeline.scene.also | own

    def _want(self, edit: Edit, seen: Timetable | None = None) -> None:
        self._timeline.edit_wanted.emit(Done(edit, seen))


def _cook_beside(scene: Scene, bar: Bar, by: int) -> offers.Offer | None:
    """Return the next cook down (`by` 1) or up (-1) in the kitchen's order to whom a bar's step may be given."""
    offered = {offer.cook: offer for offer in offers.cook_offers(scene, bar)}
    if not offered or bar.key is None:
        return None
    cooks = [cook.id for cook in scene.plan.kitchen.cooks]
    own = next((cooks.index(hand.cook) for hand in scene.timetable.at[bar.key].hands if hand.cook in cooks), None)
    if own is None:
        return None
    ahead = cooks[own + 1 :] if by > 0 else cooks[:own][::-1]
    return next((offered[cook] for cook in ahead if cook in offered), None)


class Seeing:
    """Chooses what is in sight."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline

    def zoom(self, by: int) -> None:
        """Go closer (1) or wider (-1)."""
        self._timeline.sight.zoom(STEP**by)

    def fit_all(self) -> None:
        """Show all days."""
        self._timeline.fit_all()

    def fit_last(self) -> None:
        """Show the last two hours."""
        self._timeline.fit_last_hours(2)

    def fit_chosen(self) -> None:
        """Show what is chosen, with its waits, across the whole width; or the clash whose step is chosen."""
        scene, here = self._timeline.scene, self._timeline.focused
        if here is None:
            return
        clash = self._timeline.sight.clash
        if clash in scene.clashes and here[1].step in clash.steps and not scene.also:
            self._timeline.show_clash(clash)
            return
        bars = [bar for lane in scene.lanes for bar in lane.bars if bar.key in scene.also and bar.key is not None]
        bars.append(here[1])
        start, end = min(bar.start for bar in bars), max(bar.reach for bar in bars)
        self._timeline.sight.fit(start, end)
        self._timeline.sight.reveal(*here)

    def page(self, by: int) -> None:
        """Go earlier or later by most of a view."""
        across = self._timeline.horizontalScrollBar()
        self._timeline.sight.moved_by_hand()
        across.setValue(round(across.value() + by * 0.9 * self._timeline.sight.field))

    def reading(self, by: int) -> None:
        """Go to the next reading, or to the one before."""
        now = READINGS.index(self._timeline.reading)
        self._timeline.set_reading(READINGS[(now + by) % len(READINGS)])

    def fold(self) -> None:
        """Fold idle stretches, or show them at their true length."""
        self._timeline.set_folded(not self._timeline.folded)

    def lane(self) -> None:
        """Fold the focused lane to a line, or open it."""
        self._timeline.lines.toggle_focused()

    def page_of_keys(self) -> None:
        """Ask for the page of keys."""
        self._timeline.keys_wanted.emit()
