"""The views that are looked at: three plans, three readings, three zooms, and what stands where in each."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

from PySide6.QtCore import QLocale, QPointF, QRectF, Qt
from PySide6.QtGui import QImage, QPainter

from app.look.colours import palette_named
from app.timeline import Timeline
from app.timeline.kit import Kit
from app.timeline.paint import paint, paint_over
from core.intake.text_plan import read_file
from core.plan.plan import Plan
from core.timetable.as_text import read_timetable
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable

PLANS = {"supper": "weeknight_supper", "feast": "harvest_supper", "celebration": "hall_celebration"}
READINGS = ("station", "dish", "cook")
ZOOMS = {"all": None, "day": (-9 * 60, 30), "end": (-120, 15)}
WIDE, HIGH = 1600, 900
HERE = Path(__file__).parent

Structure = dict[str, list[list[Any]]]
"""`bars`: lane, step or kind, load, and the box (x, y, w, h); `texts`: what is written, with its left foot (x, y)."""


@dataclass(frozen=True, slots=True)
class View:
    """One thing to look at."""

    plan: str
    reading: str
    zoom: str

    @property
    def name(self) -> str:
        """Return the name of its files."""
        return f"{self.plan}-{self.reading}-{self.zoom}"


def views() -> Iterator[View]:
    """Give all of them."""
    for plan in PLANS:
        for reading in READINGS:
            for zoom in ZOOMS:
                yield View(plan, reading, zoom)


@cache
def day_of(plan: str) -> tuple[Plan, Timetable]:
    """Return a demo plan with the timetable that is kept for it here."""
    with as_file(files("demo_data") / f"{PLANS[plan]}.toml") as path:
        found = read_file(path)
    text = (HERE / "timetables" / f"{PLANS[plan]}.json").read_text(encoding="utf-8")
    return found, read_timetable(text)


def shown(view: View, timeline: Timeline, theme: str = "light") -> None:
    """Bring a view onto a timeline of WIDE by HIGH points."""
    plan, timetable = day_of(view.plan)
    QLocale.setDefault(QLocale(QLocale.Language.English, QLocale.Country.UnitedKingdom))
    timeline.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)  # its width is the platform's
    timeline.resize(WIDE, HIGH)
    timeline.now.clock = lambda: datetime(2020, 1, 1, tzinfo=UTC)  # long before, so that no line moves about
    timeline.kit = Kit(palette_named(theme), points=10.0)
    timeline.set_plan(plan, timetable, clashes(plan, timetable))
    timeline.set_reading(view.reading)  # type: ignore[arg-type]  # one of the readings
    span = ZOOMS[view.zoom]
    if span is None:
        timeline.fit_all()
    else:
        timeline.sight.fit(*span, 0.0)
    timeline.glide.finish()


def structure(timeline: Timeline) -> Structure:
    """Return what stands where in the view."""
    inside = QRectF(timeline.viewport().rect())
    bars = [
        [lane, bar.step or bar.kind.value, bar.load, *(round(each, 1) for each in (box.x, box.y, box.w, box.h))]
        for lane, bar, box in timeline.bar_rects()
        if box.right > timeline.scene.gutter and box.x < inside.width() and box.bottom > 0 and box.y < inside.height()
    ]
    return {"bars": sorted(bars), "texts": sorted(_texts(timeline))}


def _texts(timeline: Timeline) -> list[list[Any]]:
    """Paint the view with a kit that notes where each text goes."""
    image = QImage(timeline.viewport().size(), QImage.Format.Format_RGB32)
    painter = QPainter(image)
    found: list[list[Any]] = []
    write = timeline.kit.write

    def noting(to: QPainter, where: QRectF, text: str, *rest: Any, **how: Any) -> None:
        at = to.combinedTransform().map(QPointF(where.left(), where.bottom()))
        found.append([text, round(at.x(), 1), round(at.y(), 1)])
        write(to, where, text, *rest, **how)

    timeline.kit.write = noting  # type: ignore[method-assign]  # for as long as this painting takes
    try:
        paint(painter, timeline.scene, timeline.kit, QRectF(image.rect()))
        paint_over(painter, timeline.scene, timeline.kit, QRectF(image.rect()))
    finally:
        del timeline.kit.write
        painter.end()
    return found


def approved(view: View) -> Path:
    """Return where the approved structure of a view is kept."""
    return HERE / "approved" / f"{view.name}.json"


def write_structure(found: Structure, path: Path) -> None:
    """Write a structure, one row a line, so that a change can be read."""
    path.parent.mkdir(parents=True, exist_ok=True)
    parts = [
        f"{json.dumps(name)}: [\n" + ",\n".join(json.dumps(row, ensure_ascii=False) for row in rows) + "\n]"
        for name, rows in found.items()
    ]
    path.write_text("{\n" + ",\n".join(parts) + "\n}\n", encoding="utf-8")


def read_structure(path: Path) -> Structure:
    """Read what was approved."""
    found: Structure = json.loads(path.read_text(encoding="utf-8"))
    return found
