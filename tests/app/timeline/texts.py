"""What is written on a timeline and where, and what of it is wrong: cut short, out of its place, overlapping."""

from __future__ import annotations

import re
from dataclasses import dataclass

from PySide6.QtCore import QRectF

from app.look.words import word
from app.timeline import Timeline
from app.timeline.bars import Bar, BarKind
from app.timeline.geometry import Box
from app.timeline.kit import Written
from app.timeline.paint_density import thinned
from core.measures.heat import show_heat

HALF = frozenset({"the", "and", "with", "for", "from", "into", "not", "off", "then", "than", "over", "on"})
"""Words after which nobody would stop."""
SIGNS = (r"\d{1,2}:\d\d", r"T(-|\+)?(\d+d )?(\d+:\d\d)?", r"\d+ h", r"−?\d+ °C", r"[\d,.]+ / [\d,.]+ cm²")


@dataclass(frozen=True)
class Page:
    """Everything that was written, the bars in sight with their boxes, and the sides of the lanes."""

    written: list[Written]
    bars: list[tuple[Bar, Box]]
    left: float
    right: float
    top: float


def read(timeline: Timeline) -> Page:
    """Paint the view and return what was written."""
    timeline.kit.written = []
    timeline.drawn_texts()
    written, timeline.kit.written = timeline.kit.written, None
    scene = timeline.scene
    bars = []
    for lane, bar, box in timeline.bar_rects():
        at = next(number for number, each in enumerate(scene.lanes) if each.id == lane)
        there = box.right > scene.gutter and box.x < scene.width and box.bottom > scene.ruler and box.y < scene.height
        if there and not scene.lanes[at].line and not thinned(scene, at):
            bars.append((bar, box))
    return Page(written, bars, scene.gutter, scene.width, scene.ruler)


def nonsense(written: Written, timeline: Timeline) -> bool:
    """Tell whether a text is neither whole nor ends after a telling word."""
    text = written.text
    if text.endswith("…"):
        last = re.sub(r"\W+$", "", text[:-1].split()[-1])
        return len(last) < 3 or last.casefold() in HALF or not written.whole.startswith(text[:-1])
    return text not in wholes(timeline) and not any(re.fullmatch(sign, text) for sign in SIGNS)


def wholes(timeline: Timeline) -> set[str]:
    """Return all that may be written uncut on the lanes."""
    scene = timeline.scene
    found = {word("night"), word("empty")}
    for lane in scene.lanes:
        found |= {shade.says for shade in lane.shades}
        for bar in lane.bars:
            found |= {bar.code, *bar.says}
            found |= {f"{bar.code} {says}" for says in bar.says}
            if bar.kind is BarKind.HEATING and bar.setting is not None and bar.says:
                found.add(f"{bar.says[0]} {show_heat(bar.setting)}")
    return found


def on_lanes(page: Page) -> list[Written]:
    """Return what is written right of the lanes' names and below the ruler."""
    return [each for each in page.written if each.box.right() > page.left and each.box.center().y() > page.top]


def ink(written: Written) -> QRectF:
    """Return the box of a text without the room above and below its letters."""
    box = written.box
    return QRectF(box.left(), box.top() + 0.28 * box.height(), box.width(), 0.5 * box.height())


def outside(page: Page) -> list[str]:
    """Return the texts that are cut by the sides, or lie partly on a bar."""
    found = []
    for each in on_lanes(page):
        box = ink(each)
        if box.left() < page.left - 0.5 or box.right() > page.right + 0.5:
            found.append(f"{each.text!r} is cut at the side: {box}")
        for bar, place in page.bars:
            if bar.kind in (BarKind.HEATING, BarKind.FIRE) or place.w < 1.5:
                continue  # things stand in front of these
            across = place.x + 1 < box.right() and box.left() < place.right - 1
            meets = across and place.y < box.bottom() and box.top() < place.bottom
            if meets and (box.left() < place.x - 1 or box.right() > place.right + 1):
                found.append(f"{each.text!r} lies half on {bar.says[-1] if bar.says else bar.kind!r}: {box} {place}")
    return found


def overlapping(page: Page) -> list[tuple[str, str]]:
    """Return the texts on the lanes that lie on each other."""
    texts = sorted(on_lanes(page), key=lambda each: each.box.left())
    found = []
    for at, one in enumerate(texts):
        box = ink(one)
        for other in texts[at + 1 :]:
            if other.box.left() >= box.right() - 0.5:
                break
            if other.text == one.text and other.box == one.box:
                continue  # written again in the other colour
            there = ink(other)
            if there.top() < box.bottom() and box.top() < there.bottom():
                found.append((one.text, other.text))
    return found
