"""Where the open plan is kept: a plan file, saved as it is edited, with the timetable last seen beside it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from core.desk import Desk, KeptDays
from core.measures.refusal import Refusal
from core.plan.plan import Plan, new_mark

if TYPE_CHECKING:
    from core.store import PlanFile
    from core.timetable.timetable import Timetable


class PlanPlace:
    """A plan opened from somewhere: its desk, and its file when it has one. Values below, one owner here."""

    def __init__(self, desk: Desk, file: PlanFile | None, name: str) -> None:
        self.desk = desk
        self.file = file
        self.name = name

    @classmethod
    def opened(cls, path: Path) -> PlanPlace:
        """Open a plan file, or read a text plan (which is then kept in a plan file beside it when saved)."""
        if path.suffix == ".cookday":
            from core.store import PlanFile

            file = PlanFile.open(path)
            from app.bridge.kept_days import kept_in

            try:
                desk = Desk(file.held, _Keep(file), _seen_in(file), kept_in(file))
            except BaseException:
                file.close()
                raise
            return cls(desk, file, path.stem)
        from core.intake.text_plan import read_file

        plan = _begun(read_file(path))
        return cls(Desk(plan, None, _first_seen(plan)), None, path.stem)

    @classmethod
    def fresh(cls, plan: Plan) -> PlanPlace:
        """Begin with a plan that is not kept anywhere yet."""
        plan = _begun(plan)
        return cls(Desk(plan, None, _first_seen(plan)), None, plan.name)

    def keep_as(self, path: Path) -> PlanPlace:
        """Write the plan into a new plan file and go on there; return the new place.

        A plan that has a file stays there as it is; what goes on is another plan, with a mark of its own.
        """
        from core.store import PlanFile

        if path.suffix != ".cookday":
            path = path.with_name(path.name + ".cookday")
        if self.file is not None and self.file.path.resolve() == path.resolve():
            return self
        plan = self.desk.plan if self.file is None else replace(self.desk.plan, mark=new_mark())
        file = PlanFile.create(path, plan, replace=True)
        seen, kept = self.desk.timetable, self.desk.kept
        keep = _Keep(file)
        if kept.days:
            keep.keep(KeptDays(), kept)
        self.close()
        return PlanPlace(Desk(file.held, keep, seen, kept), file, path.stem)

    def copy_to(self, path: Path) -> None:
        """Write a copy of the plan file as another plan, with a mark of its own; an older plan file may lie there.

        Do nothing for a plan that has no file.
        """
        if self.file is not None:
            self.file.copy_to(path, replace=True, mark=new_mark())

    def keep_seen(self) -> None:
        """Keep the timetable that is seen beside the plan, to be there when it is opened again."""
        if self.file is None or self.file.read_only:
            return
        from core.timetable.as_text import write_timetable

        seen = self.desk.timetable
        self.file.keep_seen(write_timetable(self.desk.plan, seen) if seen is not None else "")

    def close(self) -> None:
        """Close the file."""
        if self.file is not None:
            self.file.close()


class _Keep:
    """Saves for the desk."""

    def __init__(self, file: PlanFile) -> None:
        self._file = file

    def save(self, before: Plan, after: Plan) -> None:
        """Write what differs."""
        self._file.save(before, after)

    def keep(self, before: KeptDays, after: KeptDays) -> None:
        """Write the days kept by name."""
        from app.bridge.kept_days import texts_of

        self._file.keep(texts_of(self._file.held, before), texts_of(self._file.held, after))


def _seen_in(file: PlanFile) -> Timetable | None:
    """Return the timetable that was seen last, as far as it can be read; else one counted back on paper."""
    from core.timetable.as_text import read_timetable

    text = file.seen()
    if not text:
        return _first_seen(file.held)
    try:
        return read_timetable(text)
    except Refusal:
        return _first_seen(file.held)


def _begun(plan: Plan) -> Plan:
    """Return a plan that begins here: with a mark, given now unless its text tells one."""
    return plan if plan.mark else replace(plan, mark=new_mark())


def _first_seen(plan: Plan) -> Timetable | None:
    """Return the timetable as a cook counts back on paper, so that there is something to look at and to mend."""
    from core.timetable.on_paper import on_paper

    try:
        return on_paper(plan)
    except Refusal:
        return None
