"""Words that hang below the bars of a lane on thin lines, where a lane has room for them: what hands do, by cook."""

from __future__ import annotations

from bisect import bisect, insort
from collections.abc import Sequence
from typing import NamedTuple

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.timeline.bars import Bar, BarKind, Lane
from app.timeline.kit import Kit
from app.timeline.scene import Scene

MOST = 200
"""Bars of a lane around what is in sight beyond which none has a text: there would be no room for them."""
_GAP = 10.0
"""Points between two texts on one level."""
_LONGEST = "Whisk the batter for the fritters"
"""A text as long as the longest that hangs; longer ones are cut at a word."""


class Hung(NamedTuple):
    """A text below a bar: where it begins and ends (points on the axis), its level from the bar down."""

    bar: Bar
    text: str
    left: float
    right: float
    level: int


_KEPT = 32
_KNOWN: dict[int, tuple[Lane, tuple[object, ...], list[Hung]]] = {}
"""The texts found last for each of some lanes, and for what: a scroll asks for the same again and again."""


def hung(scene: Scene, kit: Kit, at: int) -> list[Hung]:
    """Return the texts of the bars of a lane that are too narrow for them, level by level so that none meet.

    A text goes as far down as no other text lies between it and its bar: so its line crosses none. The first of
    several close ones therefore hangs lowest. Where there is no level left there is no text; a walk has one only
    where there is little else to tell.
    What lies a view's width around the view counts, so that texts stay where they are while one scrolls a little.
    """
    field = max(scene.width - scene.gutter, 50.0)
    first = scene.left // field
    lane, now = scene.lanes[at], (scene.axis, scene.layout, kit, first, field)
    known = _KNOWN.get(id(lane))
    if known is not None and known[0] is lane and known[1] == now:
        return known[2]
    low, high = (scene.axis.time(page * field) for page in (first - 1, first + 3))
    bars = scene.layout.between(at, low, high)
    found = [] if len(bars) > MOST else _hung(scene, kit, at, bars)
    if len(_KNOWN) >= _KEPT:
        _KNOWN.clear()
    _KNOWN[id(lane)] = (lane, now, found)
    return found


def _hung(scene: Scene, kit: Kit, at: int, bars: Sequence[Bar]) -> list[Hung]:
    taken: list[list[tuple[float, float]]] = [[] for _ in range(_levels(scene, kit, at))]
    found: list[Hung] = []
    edges = sorted(scene.axis.x(bar.start) for bar in bars)
    for bar in sorted(bars, key=lambda bar: bar.start):
        box = scene.layout.box(at, bar, scene.axis)
        coded = bool(bar.code) and box.w >= kit.tab + 3
        inside = box.w - (kit.tab if coded else 0.0) - 14.0
        if not bar.says or any(kit.width(text, kit.text_face) <= inside for text in bar.says):
            continue
        text = _text(kit, bar, coded=coded)
        left, right = box.x + 4.0, box.x + 4.0 + kit.width(text, kit.small_face)
        level = _level(taken, left, right)
        around = bisect(edges, right) - bisect(edges, 2 * left - right)
        if bar.kind is BarKind.WALK and around > len(taken):
            continue
        if text and level >= 0:
            insort(taken[level], (left - 4.0, right + _GAP))
            found.append(Hung(bar, text, left, right, level))
    return found


def hang(painter: QPainter, scene: Scene, kit: Kit, at: int, texts: list[Hung], area: QRectF) -> None:
    """Paint texts below their bars inside an area, each on a line from its bar."""
    shift, line = scene.gutter - scene.left, kit.metrics(kit.small_face).height()
    top = scene.y(scene.layout.row_top(at, scene.lanes[at].rows - scene.lanes[at].words)) + 2
    for each in texts:
        left, right = each.left + shift, each.right + shift
        text = kit.shortened(each.text, kit.small_face, scene.width - left - 4)
        if right < area.left() or left - 4 > area.right() or left < scene.gutter or not text:
            continue
        y = round(top + each.level * line)
        foot = scene.box(at, each.bar).bottom
        painter.fillRect(QRectF(round(left - 4), foot, 1, y + line / 2 - foot), kit.rail)
        painter.fillRect(QRectF(round(left - 4), round(y + line / 2), 3, 1), kit.rail)
        for minute, _word in scene.courses:
            if left - 4 < scene.x(minute) + 4 and scene.x(minute) - 4 < right:
                painter.fillRect(QRectF(left - 1, y, right - left + 2, line), kit.lane)
        kit.write(painter, QRectF(left, y, right - left, line), text, kit.small_face, kit.ink)


def _levels(scene: Scene, kit: Kit, at: int) -> int:
    room = scene.lanes[at].words * scene.layout.row_height(at) - 2
    return max(0, int(room / kit.metrics(kit.small_face).height()))


def _level(taken: list[list[tuple[float, float]]], left: float, right: float) -> int:
    """Return the lowest free level that is reached without crossing a text, or -1."""
    found = -1
    for level, spans in enumerate(taken):
        if _meets(spans, left - 4.0, left):
            break
        if not _meets(spans, left - 4.0, right + _GAP):
            found = level
    return found


def _meets(spans: list[tuple[float, float]], left: float, right: float) -> bool:
    """Tell whether a stretch meets one of several that are in order and apart."""
    at = bisect(spans, (left, left))
    return any(start < right and left < end for start, end in spans[max(at - 1, 0) : at + 1])


def _text(kit: Kit, bar: Bar, *, coded: bool) -> str:
    """Return the longest text of a bar that is not too long to hang, with the code where the bar does not bear it."""
    longest = kit.width(_LONGEST, kit.small_face)
    says = bar.says[1:] if len(bar.says) > 1 and bar.kind is BarKind.HAND else bar.says  # its dish comes first
    code = f"{bar.code} " if bar.code and not coded else ""
    for text in says:
        if kit.width(code + text, kit.small_face) <= longest:
            return code + text
    short = kit.shortened(says[-1], kit.small_face, longest - kit.width(code, kit.small_face))
    return (code + short).strip()
