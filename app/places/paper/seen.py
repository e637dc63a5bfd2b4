"""What of the sheets is seen: one alone or those ticked together, of the plan as it is now."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from PySide6.QtCore import QCoreApplication

from app.bridge import OpenPlan
from app.places.food import watch_of
from app.places.lists.typesetting import Setting
from app.places.paper.choice import Choice
from app.places.paper.copies import options_of, wanted_of
from app.places.paper.words import title_of
from core.safety import rules_at_hand
from core.sheets.bundle import Wanted, sheets_pdf
from core.sheets.kinds import TIMELESS, SheetKind


class Seen:
    """The cook's choice beside the open plan."""

    def __init__(self, opened: OpenPlan, choice: Choice) -> None:
        self._opened = opened
        self.choice = choice

    @property
    def together(self) -> bool:
        """Tell whether those ticked are seen, not the one that is looked at."""
        return self.choice.bundled and bool(self.choice.together)

    @property
    def kinds(self) -> tuple[SheetKind, ...]:
        """Return the kinds whose pages are seen; without a timetable only those that need none."""
        wanted = self.choice.in_order if self.together else (self.choice.shown,)
        timetable = self._opened.timetable
        if timetable is not None and timetable.placed:
            return wanted
        return tuple(kind for kind in wanted if kind in TIMELESS)

    @property
    def copies(self) -> list[tuple[str, str]]:
        """Return what copies there may be of the one that is looked at."""
        return options_of(self._opened.plan, self._opened.timetable, self.choice.shown)

    @property
    def what(self) -> str:
        """Return what is seen in a sentence: "run sheet"."""
        kinds = self.kinds
        return title_of(kinds[0]).lower() if len(kinds) == 1 else QCoreApplication.translate("Paper", "sheets")

    @property
    def name(self) -> str:
        """Return what a file of it is called."""
        return f"{self._opened.plan.name} - {self.what}"

    def wanted(self, kinds: Iterable[SheetKind], printed: str = "") -> tuple[Wanted, ...]:
        """Return the sheets of some kinds as they are chosen, with every copy."""
        return wanted_of(self.choice, kinds, self._opened.plan, self._opened.timetable, printed)

    def setting(self, now: datetime) -> Setting | None:
        """Return what makes the pages of the plan as it is now; None: there is nothing to put on them."""
        plan, timetable, clashes = self._opened.plan, self._opened.timetable, self._opened.clashes
        kinds = self.kinds
        if not kinds:
            return None
        wanted = self.wanted(kinds, f"made {now.day} {now:%b %Y, %H:%M}")
        folder = watch_of(self._opened).folder
        return lambda: sheets_pdf(wanted, plan, timetable, clashes, rules=rules_at_hand(plan.decisions.rules, folder))
