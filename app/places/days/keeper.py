"""Joins the days kept by name to the desk and the timeline: what the bar and the offers ask is done here."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Slot
from PySide6.QtGui import QKeySequence, QShortcut

from app.look.words import clock_text, day_text
from app.places.advice.look import Look
from app.places.days.day_chip import DayChip
from app.places.days.words import fit_words
from core.desk import Aim, Change, DropDay, KeepAgain, KeepDay, KeptDay, RenameDay, SwitchTo, as_kept, fits
from core.desk.kept import MOST_KEPT, day_name
from core.desk.seen import still_there

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from app.places.timeline_place import TimelinePlace

BY_COMMAND = 3
"""Days that the window's commands go to; the others have keys of the place."""
_BY = "days"


class DayKeeper(QObject):
    """Keeps, renames, drops, compares and goes back to days of a place, each as one undo step."""

    def __init__(self, place: TimelinePlace, opened: OpenPlan) -> None:
        super().__init__(place)
        self._place, self._opened = place, opened
        bar = place.days_bar
        bar.check_by(lambda name, own: day_name(name, opened.kept, own))
        bar.keep_wanted.connect(self.keep)
        bar.rename_wanted.connect(lambda name, new: self._opened.keep(RenameDay(name, new), _BY))
        bar.sure_wanted.connect(self._show_sure)
        place.advice.page.sure.figured.connect(bar.show_sure)
        place.advice.keep_wanted.connect(self.keep_offered)
        place.fit_note.mend.connect(lambda: place.ask(Aim.AROUND))
        for number in range(BY_COMMAND + 1, MOST_KEPT + 1):
            keys = QShortcut(QKeySequence(f"Alt+{number}"), place)
            keys.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            keys.activated.connect(lambda number=number: self.go_to_number(number))
        self.refresh()

    def refresh(self) -> None:
        """Show the days, and which one is the current one."""
        opened, kept = self._opened, self._opened.kept
        bar = self._place.days_bar
        names = [each.name for each in kept.days]
        if [each.name for each in bar.chips] != names:
            bar.show_chips([self._chip(name, at + 1, names) for at, name in enumerate(names)])
        for chip, day in zip(bar.chips, kept.days, strict=True):
            current = day.name == kept.current
            same = current and as_kept(day, opened.plan, opened.timetable)
            chip.show_state(current, same, self._when(day))
        bar.keep.setEnabled(opened.timetable is not None and bool(opened.timetable.placed))

    def hear(self, change: Change) -> None:
        """Put away what was said of a day's fit once something else is done."""
        if change.by != _BY and (change.timetable_changed or change.plan_changed):
            self._place.fit_note.hide()
        if change.kept_changed:
            self._place.days_bar.end_naming()

    @Slot(str)
    def keep(self, name: str) -> None:
        """Keep what is seen under a name."""
        self._opened.keep(KeepDay(name, datetime.now(UTC)), _BY)

    @Slot(object)
    def keep_offered(self, look: Look) -> None:
        """Keep a day that is offered under its own word, with a number where that is taken."""
        kept = self._opened.kept
        taken = {each.casefold() for each in kept.by_name}
        name, number = look.label, 2
        while name.casefold() in taken:
            name, number = f"{look.label} {number}", number + 1
        if self._opened.keep(KeepDay(name, datetime.now(UTC), look.timetable), _BY):
            self._place.advice.say(self.tr("Kept as “{name}”; your day stays as it is.").format(name=name))

    def go_to_number(self, number: int) -> None:
        """Go to the first, second, third day kept."""
        days = self._opened.kept.days
        if number <= len(days):
            self.go_to(days[number - 1].name)

    @Slot(str)
    def go_to(self, name: str) -> None:
        """Go back to a day, and say what of it no longer fits."""
        opened, place = self._opened, self._place
        place.beside.leave()
        place.fit_note.hide()
        if not opened.keep(SwitchTo(name), _BY):
            return
        self.refresh()  # a click on the chip of the day that is seen changes nothing but its mark
        found = fits(opened.kept.day(name), opened.plan)
        if not found.whole:
            place.fit_note.say(fit_words(opened.plan, name, found), mends=bool(found.new or found.clashes))

    @Slot(str, str)
    def compare(self, name: str, other: str) -> None:
        """Look at a day beside what is seen or another kept day."""
        opened = self._opened
        day = opened.kept.day(name)
        left = still_there(day.timetable, opened.plan)
        if left is None:
            return
        before = None if not other else still_there(opened.kept.day(other).timetable, opened.plan)
        words = self.tr("“{name}” against “{other}”").format(name=name, other=other)
        alone = self.tr("“{name}” against what is seen now").format(name=name)
        clashes = fits(day, opened.plan).clashes
        look = Look(words if other else alone, opened.plan, left, before=before, kept=name, clashes=clashes)
        self._place.beside.show_look(look)
        self._place.moved.set_on(True)
        self._place.timeline.setFocus(Qt.FocusReason.OtherFocusReason)

    def _chip(self, name: str, number: int, names: list[str]) -> DayChip:
        chip = DayChip(name, number, tuple(each for each in names if each != name))
        chip.wanted.connect(self.go_to)
        chip.again.connect(lambda name: self._opened.keep(KeepAgain(name, datetime.now(UTC)), _BY))
        chip.rename.connect(self._place.days_bar.ask_name)
        chip.drop.connect(lambda name: self._opened.keep(DropDay(name), _BY))
        chip.compare.connect(self.compare)
        return chip

    def _when(self, day: KeptDay) -> str:
        at = day.at.astimezone()
        return self.tr("Kept {day}, {time}").format(day=day_text(at), time=clock_text(at))

    @Slot()
    def _show_sure(self) -> None:
        self._place.beside.bring()
        self._place.advice.go_to_sure()
