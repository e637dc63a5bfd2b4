"""The page of the advice: its sections one under the other, of which those are shown that there is a day for."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields.reading_order import in_reading_order
from app.places.advice.good_section import GoodSection
from app.places.advice.late_section import LateSection
from app.places.advice.others_section import OthersSection
from app.places.advice.section import Section, words_of
from app.places.advice.sure_section import SureSection
from app.places.advice.ways_section import WaysSection
from app.places.advice.why_section import WhySection
from core.arrange.apart import Ask


class AdvicePage(QScrollArea):
    """`news` says what was done, `empty` why there is nothing to tell."""

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.news = words_of("news")
        self.empty = words_of("soft")
        self.why = WhySection()
        self.ways = WaysSection()
        self.sure = SureSection()
        self.late = LateSection(opened)
        self.good = GoodSection()
        self.others = OthersSection()
        self.sections: dict[Ask, Section] = {
            Ask.WHY: self.why,
            Ask.WAYS: self.ways,
            Ask.CHANCES: self.sure,
            Ask.LATE: self.late,
            Ask.QUALITY: self.good,
            Ask.SEVERAL: self.others,
        }
        paper = QWidget()
        paper.setObjectName("advicePage")
        rows = QVBoxLayout(paper)
        rows.setContentsMargins(14, 0, 12, 12)
        rows.setSpacing(8)
        for widget in (self.news, self.empty, *self.sections.values()):
            rows.addWidget(widget)
            widget.hide()
        rows.addStretch(1)
        self.setWidget(paper)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    @property
    def offering(self) -> tuple[WaysSection | SureSection | GoodSection | OthersSection, ...]:
        """Return the sections that offer days to look at and take."""
        return self.ways, self.sure, self.good, self.others

    def show_only(self, *asks: Ask, words: str = "") -> None:
        """Show the sections of these questions, or only words."""
        self.empty.setText(words)
        self.empty.setVisible(bool(words))
        for ask, section in self.sections.items():
            section.setVisible(ask in asks)
        if Ask.CHANCES not in asks:
            self.sure.clear()

    def say(self, words: str) -> None:
        """Say what was done."""
        self.news.setText(words)
        self.news.setVisible(bool(words))

    def first(self) -> QWidget | None:
        """Return the first thing that can be chosen."""
        return next((each for each in in_reading_order(self.widget()) if each.isVisible()), None)
