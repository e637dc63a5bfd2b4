"""Takes what the cook decides by direct means on the timeline: edits of pins, ways, lengths, orders, links, plating."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Slot

from app.bridge import Arranger, OpenPlan
from app.timeline.drag_wish import Done
from core.desk import Aim

if TYPE_CHECKING:
    from app.places.timeline_place import TimelinePlace


class Direct(QObject):
    """Gives the edits that a place's timeline asks for to the open plan; what then clashes is mended nearby."""

    def __init__(self, place: TimelinePlace, opened: OpenPlan, arranger: Arranger) -> None:
        super().__init__(place)
        self._place, self._opened, self._arranger = place, opened, arranger
        place.timeline.edit_wanted.connect(self._take)
        place.timeline.held_moved.connect(self._say)

    def only_a_look(self) -> bool:
        """Tell whether the day in sight is only looked at; then say so and show the day itself."""
        looked = self._place.beside.look is not None
        if looked:
            self._place.refresh()
            self._place.told.setText(self.tr("That was only a look: take it first, then change it."))
        return looked

    @Slot(object)
    def _take(self, wanted: object) -> None:
        """Take an edit, or an edit with the timetable that is seen from then on, as one undo step."""
        if self.only_a_look():
            return
        done = wanted if isinstance(wanted, Done) else Done(wanted)  # type: ignore[arg-type]  # a signal has no types
        if self._opened.apply(done.edit, "timeline", done.seen) and self._opened.clashes:
            self._arranger.ask(Aim.FOLLOW)

    @Slot(str)
    def _say(self, sentence: str) -> None:
        """Say why what was let go of was refused; while something is held the timeline says it itself."""
        scene = self._place.timeline.scene
        if sentence and scene.held is None and scene.gesture is None:
            self._place.told.setText(sentence)
