"""The cards of what is handed out: the phone's page, the calendar, tables, the picture."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from app.places.files import making
from app.places.files.file_card import FileCard
from app.places.files.making import XLSX, ZIP, State
from app.places.paper.choice import ALL, ONLY
from app.places.paper.copies import NAME
from core.hatch.tables import NAMES
from core.measures.words import plural
from core.sheets.words import shortened

People = Callable[[], Sequence[str]]
"""Gives the names of the cooks."""
_LEADS = (10, 0, 5, 15, 30, 60, 120)  # min; ten is usual and stands first


class PhoneCard(FileCard):
    """A page that a phone reads without a network."""

    def __init__(self, people: People) -> None:
        about = self.tr(
            "One file that a phone reads without a network: now and next, ticks that it remembers, timers that count "
            "and sound. Send it to the phone and open it there."
        )
        super().__init__(self.tr("Page for the phone"), about, self.tr("Keep the page…"))
        self.add("for", self.tr("Opens for"), lambda: _people(self.tr("everybody"), people))

    @property
    def what(self) -> str:
        """Return its name in a sentence."""
        return self.tr("The page for the phone")

    @property
    def file(self) -> str:
        """Return what the file is called."""
        return self.tr("phone")

    @property
    def ending(self) -> str:
        """Return the file's ending."""
        return ".html"

    def made(self, state: State) -> bytes:
        """Return the page."""
        return making.phone_page(state, self.value("for"))


class CalendarCard(FileCard):
    """Events with alarms."""

    def __init__(self, people: People) -> None:
        about = self.tr(
            "Events with alarms for any calendar program. Bring a later file in again: the same events move, none "
            "comes twice."
        )
        super().__init__(self.tr("Calendar"), about, self.tr("Keep the calendar…"))
        which = (("ahead", self.tr("what comes before the day")), ("all", self.tr("everything")))
        leads = [(str(each), self._lead(each)) for each in _LEADS]
        self.add("which", self.tr("Events"), lambda: which)
        self.add("for", self.tr("Work of"), lambda: _people(self.tr("everybody"), people))
        self.add("lead", self.tr("Rings"), lambda: leads)

    @property
    def what(self) -> str:
        """Return its name in a sentence."""
        return self.tr("The calendar")

    @property
    def file(self) -> str:
        """Return what the file is called."""
        return self.tr("calendar")

    @property
    def ending(self) -> str:
        """Return the file's ending."""
        return ".ics"

    def made(self, state: State) -> bytes:
        """Return the calendar file."""
        return making.calendar(state, self.value("for"), self.value("which"), self.value("lead"))

    def look(self, state: State | None) -> None:
        """Say how many events there are."""
        events = self.made(state).count(b"BEGIN:VEVENT") if state is not None else 0
        self.state.setText(self.tr("{events} in the file.").format(events=plural(events, "event")) if events else "")

    def _lead(self, minutes: int) -> str:
        return self.tr("{minutes} min before").format(minutes=minutes) if minutes else self.tr("at the time itself")


class TablesCard(FileCard):
    """Everything as rows and columns."""

    def __init__(self) -> None:
        about = self.tr("Everything of the plan as rows and columns, for a table program.")
        super().__init__(self.tr("Tables"), about, self.tr("Keep the tables…"))
        forms = [(XLSX, self.tr("a spreadsheet, a page for each table")), (ZIP, self.tr("all as CSV, in one .zip"))]
        forms += [(name, self.tr("only “{name}”, as CSV").format(name=name)) for name in NAMES]
        self.add("form", self.tr("As"), lambda: forms)

    @property
    def what(self) -> str:
        """Return its name in a sentence."""
        return self.tr("The tables") if self._whole else self.tr("The table")

    @property
    def file(self) -> str:
        """Return what the file is called."""
        return self.tr("tables") if self._whole else self.value("form")

    @property
    def ending(self) -> str:
        """Return the file's ending."""
        return f".{self.value('form')}" if self._whole else ".csv"

    def made(self, state: State) -> bytes:
        """Return the tables."""
        return making.table(state, self.value("form"))

    @property
    def _whole(self) -> bool:
        return self.value("form") in (XLSX, ZIP)


class PictureCard(FileCard):
    """The timeline as it looks."""

    def __init__(self) -> None:
        about = self.tr("The timeline as a picture, to send or to print large.")
        super().__init__(self.tr("Picture"), about, self.tr("Keep the picture…"))
        forms = (("png", self.tr("PNG, for the screen")), ("svg", self.tr("SVG, sharp at any size")))
        readings = (("station", self.tr("station")), ("dish", self.tr("dish")), ("cook", self.tr("cook")))
        themes = (("light", self.tr("light")), ("dark", self.tr("dark")))
        self.add("form", self.tr("As"), lambda: forms)
        self.add("reading", self.tr("Lanes by"), lambda: readings)
        self.add("theme", self.tr("Colours"), lambda: themes)

    @property
    def what(self) -> str:
        """Return its name in a sentence."""
        return self.tr("The picture")

    @property
    def file(self) -> str:
        """Return what the file is called."""
        return self.tr("timeline")

    @property
    def ending(self) -> str:
        """Return the file's ending."""
        return f".{self.value('form')}"

    def made(self, state: State) -> bytes:
        """Return the picture."""
        return making.picture(state, self.value("form"), self.value("reading"), self.value("theme"))


def _people(everybody: str, people: People) -> Sequence[tuple[str, str]]:
    return [(ALL, everybody), *((f"{ONLY}{name}", shortened(name, NAME)) for name in dict.fromkeys(people()))]
