"""The timeline as a picture file, PNG or SVG, painted without a window."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QGuiApplication, QImage, QPainter
from PySide6.QtSvg import QSvgGenerator

from app.look.colours import palette_named
from app.look.words import clock_text, day_text
from app.timeline.bars import BarKind, Lane, LaneKind
from app.timeline.geometry import Axis, Layout
from app.timeline.kit import Kit
from app.timeline.lanes import Reading
from app.timeline.paint import paint
from app.timeline.scene import Scene
from app.timeline.staging import events, stage
from core.measures.words import plural
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.timetable import Timetable

POINTS = 9.5
_MARGIN = 18.0
_DOTS_PER_INCH = 96
_LONGEST_DAY = 9 * 60
_SHORTEST_DAY = 2 * 60
_SHORTEST_SPLIT = 12 * 60
_PAUSE = 2 * 60
_BEFORE = 20


def paint_picture(
    plan: Plan,
    timetable: Timetable,
    clashes: Iterable[Clash],
    path: Path,
    *,
    width: int = 1800,
    reading: Reading = "station",
    theme: str = "light",
) -> None:
    """Write the whole feast as a picture; the end of `path`'s name, .png or .svg, says which kind.

    A feast that begins days before is shown in two panels, long quiet stretches folded, so that the last hours
    keep their width. Raises OSError where the file cannot be written.
    """
    _application()
    kit = Kit(palette_named(theme), points=POINTS)
    found = tuple(clashes)
    panels = _panels(plan, timetable, found, reading, kit, float(width))
    top = _heading_height(kit) + _legend_height(plan, kit, width - 2 * _MARGIN)
    height = top + sum(panel.height + _MARGIN for panel in panels)
    size = QSize(width, round(height))
    if path.suffix.lower() == ".svg":
        _svg(panels, kit, path, size)
        return
    image = QImage(size, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    _paint(painter, panels, kit, size)
    painter.end()
    if not image.save(str(path)):
        raise OSError(None, "the picture could not be written", str(path))


def split_at(plan: Plan, timetable: Timetable) -> int | None:
    """Return the minute at which the day itself begins, or None where all of it is one day.

    That is shortly before what comes after the last pause of two hours in the last nine, else after the longest.
    """
    moments = sorted({each for each in events(plan, timetable) if each <= 0})
    if not moments or moments[0] > -_SHORTEST_SPLIT:
        return None
    pauses = [
        (after - before, after)
        for before, after in pairwise(moments)
        if -_LONGEST_DAY <= after <= -_SHORTEST_DAY
    ]
    long = [after for minutes, after in pauses if minutes >= _PAUSE]
    if long:
        return max(long) - _BEFORE
    return max(pauses)[1] - _BEFORE if pauses else -_LONGEST_DAY


_kept: list[QGuiApplication] = []
"""The application made here, where the program has none: Qt's faces and drawings need it to stay."""


def _application() -> None:
    if QGuiApplication.instance() is None:
        _kept.append(QGuiApplication(["cookday", "-platform", "offscreen"]))


def _panels(
    plan: Plan, timetable: Timetable, clashes: tuple[Clash, ...], reading: Reading, kit: Kit, width: float
) -> list[Scene]:
    whole = stage(plan, timetable, clashes, reading, row=kit.row)
    split = split_at(plan, timetable)
    spans = [(whole.axis.low, whole.axis.high)]
    if split is not None and whole.axis.low < split < whole.axis.high:
        spans = [(whole.axis.low, split), (split, whole.axis.high)]
    return [_panel(whole, kit, width, start, end, first=start == whole.axis.low) for start, end in spans]


def _panel(whole: Scene, kit: Kit, width: float, start: int, end: int, *, first: bool) -> Scene:
    """Return the part of a scene between two minutes, at the width of the picture, unused lanes left out."""
    lanes = tuple(_between(lane, start, end) for lane in whole.lanes)
    lanes = tuple(lane for lane in lanes if lane.bars)
    lanes = tuple(replace(lane, joined=lane.joined and at > 0) for at, lane in enumerate(lanes))
    folds = [(low, high) for low, high in whole.axis.folds if low >= start and high <= end]
    gutter = round(kit.width("Burner at the back, wide", kit.text_face) + 40)
    axis = Axis(start, end, 1.0, folds)
    axis = axis.zoomed(axis.scale_for(width - 2 * _MARGIN - gutter))
    layout = Layout(lanes, kit.row)
    ruler = round(3 * (kit.metrics(kit.small_face).height() + 4))
    return replace(
        whole,
        still=True,
        lanes=lanes,
        layout=layout,
        axis=axis,
        gutter=gutter,
        ruler=ruler,
        width=width - 2 * _MARGIN,
        height=ruler + layout.height + (22 if whole.nights and first else 10),
        left=0.0,
        top=0.0,
    )


def _between(lane: Lane, start: int, end: int) -> Lane:
    """Return a lane with what it shows between two minutes, rows that stay empty closed up where they may be."""
    bars = tuple(bar for bar in lane.bars if bar.start < end and bar.reach > start)
    if lane.kind is LaneKind.STATION and (lane.room is not None or lane.tracks):
        bars = tuple(bar for bar in bars if bar.kind is not BarKind.HEATING or bar.end > start)
        return replace(lane, bars=bars)
    used = sorted({row for bar in bars for row in range(bar.row, bar.row + bar.rows) if row >= 0})
    rows = {row: number for number, row in enumerate(used)}
    bars = tuple(replace(bar, row=rows.get(bar.row, bar.row)) for bar in bars)
    return replace(lane, bars=bars, rows=max(1, len(used)) + lane.words)


def _svg(panels: list[Scene], kit: Kit, path: Path, size: QSize) -> None:
    with path.open("wb"):  # tells at once, and by its name, where nothing can be written
        pass
    made = QSvgGenerator(QSvgGenerator.SvgVersion.Svg11)  # the older profile does not clip
    made.setFileName(str(path))
    made.setSize(size)
    made.setViewBox(QRectF(0, 0, size.width(), size.height()))
    made.setTitle(panels[0].plan.name)
    made.setResolution(_DOTS_PER_INCH)
    painter = QPainter(made)
    _paint(painter, panels, kit, size)
    painter.end()


def _paint(painter: QPainter, panels: list[Scene], kit: Kit, size: QSize) -> None:
    painter.fillRect(QRectF(0, 0, size.width(), size.height()), kit.ground)
    painter.setRenderHint(QPainter.RenderHint.TextAntialiasing, True)
    y = _heading(painter, panels[0], kit)
    y = _legend(painter, panels[0].plan, kit, y, size.width() - 2 * _MARGIN)
    for panel in panels:
        painter.save()
        painter.translate(_MARGIN, y)
        area = QRectF(0, 0, panel.width, panel.height)
        paint(painter, panel, kit, area)
        painter.restore()
        y += panel.height + _MARGIN


def _heading_height(kit: Kit) -> float:
    return _MARGIN + kit.metrics(kit.bold_face).height() + 10


def _heading(painter: QPainter, scene: Scene, kit: Kit) -> float:
    when = scene.plan.wall(0)
    state = f", {plural(len(scene.clashes), 'clash')}" if scene.clashes else ""
    text = f"{scene.plan.name}: {day_text(when, long=True)}, {clock_text(when)}{state}"
    height = kit.metrics(kit.bold_face).height()
    where = QRectF(_MARGIN, _MARGIN - 4, scene.width, height)
    kit.write(painter, where, text, kit.bold_face, kit.clash if scene.clashes else kit.ink)
    return _heading_height(kit)


def _legend_rows(plan: Plan, kit: Kit, width: float) -> list[list[tuple[str, str, int, float]]]:
    from app.timeline.codes import dish_codes

    rows: list[list[tuple[str, str, int, float]]] = [[]]
    x = 0.0
    for number, (dish, code) in enumerate(dish_codes(plan).items()):
        name = plan.dishes[dish].name
        wide = max(kit.tab, kit.width(code, kit.small_bold) + 8) + 6 + kit.width(name, kit.small_face) + 22
        if x + wide > width and rows[-1]:
            rows.append([])
            x = 0.0
        rows[-1].append((code, name, number, x))
        x += wide
    return rows


def _legend_height(plan: Plan, kit: Kit, width: float) -> float:
    return len(_legend_rows(plan, kit, width)) * (kit.metrics(kit.small_face).height() + 8) + 8


def _legend(painter: QPainter, plan: Plan, kit: Kit, y: float, width: float) -> float:
    """Write each dish's code in its tone with its name; return where the legend ends."""
    line = kit.metrics(kit.small_face).height() + 8
    for row in _legend_rows(plan, kit, width):
        for code, name, number, x in row:
            tone = kit.tone(number)
            tab = QRectF(_MARGIN + x, y, max(kit.tab, kit.width(code, kit.small_bold) + 8), line - 5)
            painter.fillRect(tab, tone.full)
            kit.write(painter, tab, code, kit.small_bold, tone.on_full, centre=True)
            where = QRectF(tab.right() + 6, y, 10, line - 5)
            kit.write(painter, where, name, kit.small_face, kit.ink)
        y += line
    return y + 8
