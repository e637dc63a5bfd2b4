"""The picture of a dish's flow, in pixels: where boxes, arrows and their words lie, and what is under a point."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics

from app.places.menu.flow_layout import FlowLayout, Sizes, laid_out
from app.places.menu.flow_words import wait_words
from core.plan.edits.parts import LinkKey
from core.plan.ids import StepId
from core.plan.menu import Dish, Link
from core.plan.plan import Plan

MARGIN = 14
"""Pixels around the picture."""
_WIDEST, _NARROWEST = 176.0, 124.0  # px of a box
_EDGE = 12.0  # px at the upper and lower edge of a box from which links are drawn
_REACH = 7.0  # px beside an arrow that still hit it
_LABEL = 190  # px that the words of an arrow may take


def links_of(plan: Plan, dish: Dish) -> tuple[Link, ...]:
    """Return the links of a dish's steps, within it and to other dishes."""
    own = {step.id for step in dish.steps}
    return tuple(link for link in plan.menu.links if link.before in own or link.after in own)


@dataclass(frozen=True)
class FlowPicture:
    """The steps of a dish and those of other dishes that they are linked to, laid out in a width."""

    plan: Plan
    dish: Dish
    links: tuple[Link, ...]
    layout: FlowLayout
    sizes: Sizes
    metrics: QFontMetrics

    @classmethod
    def of(cls, plan: Plan, dish: Dish, metrics: QFontMetrics, room: int) -> FlowPicture:
        """Lay a flow out; its boxes are narrower where that lets the whole be seen in `room` pixels."""
        links = links_of(plan, dish)
        ends = [end for link in links for end in (link.before, link.after)]
        nodes = list(dict.fromkeys([*(step.id for step in dish.steps), *ends]))
        arrows = [(link.before, link.after) for link in links]
        for width in (_WIDEST, (_WIDEST + _NARROWEST) / 2, _NARROWEST):
            sizes = Sizes(width, 2 * metrics.lineSpacing() + 10, below=metrics.height() + 22)
            layout = laid_out(nodes, arrows, sizes)
            if layout.width + 2 * MARGIN <= room:
                break
        return cls(plan, dish, links, layout, sizes, metrics)

    @property
    def size(self) -> QSize:
        """Return how large the whole is."""
        return QSize(round(self.layout.width) + 2 * MARGIN, round(self.layout.height) + 2 * MARGIN)

    @cached_property
    def steps(self) -> tuple[StepId, ...]:
        """Return all steps shown, the dish's own first."""
        return tuple(StepId(step) for step in self.layout.boxes)

    def number(self, step: StepId) -> int:
        """Return a step's number in the dish, 0 for a step of another one."""
        ids = [each.id for each in self.dish.steps]
        return ids.index(step) + 1 if step in ids else 0

    def link(self, key: LinkKey | None) -> Link | None:
        """Return the link that a key names, if it is shown."""
        return next((link for link in self.links if link.key == key), None)

    def box(self, step: str) -> QRectF | None:
        """Return the box of a step."""
        corner = self.layout.boxes.get(step)
        if corner is None:
            return None
        return QRectF(corner[0] + MARGIN, corner[1] + MARGIN, self.sizes.width, self.sizes.height)

    def step_at(self, point: QPointF) -> StepId | None:
        """Return the step under a point."""
        return next((step for step in self.steps if (box := self.box(step)) and box.contains(point)), None)

    def draws_up(self, step: StepId, point: QPointF) -> bool:
        """Tell whether a link drawn from a point of a step's box leads to what comes before it."""
        box = self.box(step)
        return box is not None and point.y() < box.top() + _EDGE

    def way(self, link: Link) -> tuple[QPointF, ...]:
        """Return the bends of a link's arrow, from the box before to the box after."""
        points = self.layout.arrows.get((link.before, link.after), ())
        return tuple(QPointF(x + MARGIN, y + MARGIN) for x, y in points)

    def words(self, link: Link) -> str:
        """Return the words at a link's arrow, cut short when long: no wider than a box where arrows meet."""
        alone = self._beginning(link) == self._ending(link) == 1
        room = _LABEL if alone else int(self.sizes.width) - 8
        return self.metrics.elidedText(wait_words(link), Qt.TextElideMode.ElideRight, room)

    def label(self, link: Link) -> QRectF | None:
        """Return where the words of a link stand, those of links between the same steps below each other."""
        way = self.way(link)
        if len(way) < 2:
            return None
        height = self.metrics.height()
        area = QRectF(0, 0, max(22, self.metrics.horizontalAdvance(self.words(link)) + 8), height + 2)
        same = [each for each in self.links if (each.before, each.after) == (link.before, link.after)]
        place = self._label_place(link, way) + QPointF(0, (same.index(link) - (len(same) - 1) / 2) * height)
        area.moveCenter(place)
        area.moveLeft(max(0.0, min(area.left(), self.size.width() - area.width())))
        return area

    def link_at(self, point: QPointF) -> Link | None:
        """Return the link whose words or arrow are under a point, the nearest of several."""
        for link in self.links:
            area = self.label(link)
            if wait_words(link) and area is not None and area.contains(point):
                return link
        near = [(away, at) for at, link in enumerate(self.links) if (away := self._away(link, point)) <= _REACH]
        return self.links[min(near)[1]] if near else None

    def _away(self, link: Link, point: QPointF) -> float:
        return min((_from_line(point, one, other) for one, other in pairwise(self.way(link))), default=_REACH + 1)

    def _label_place(self, link: Link, way: tuple[QPointF, ...]) -> QPointF:
        """Return where an arrow's words stand apart from those of the arrows that begin or end with it."""
        begin, end = self._beginning(link), self._ending(link)
        away = (self.metrics.height() + 2) / 2 + 4
        if begin == 1 and end > 1:
            return way[0] + QPointF(0, away)  # right under the box where it begins
        if begin > 1 and end == 1:
            return way[-1] - QPointF(0, away + 8)  # above the head, over the box where it ends
        return (way[-2] + way[-1]) / 2

    def _beginning(self, link: Link) -> int:
        return len({each.after for each in self.links if each.before == link.before})

    def _ending(self, link: Link) -> int:
        return len({each.before for each in self.links if each.after == link.after})


def _from_line(point: QPointF, one: QPointF, other: QPointF) -> float:
    """Return how far a point is from a stretch of line."""
    along = other - one
    length = QPointF.dotProduct(along, along)
    share = 0.0 if not length else max(0.0, min(1.0, QPointF.dotProduct(point - one, along) / length))
    gap = point - (one + along * share)
    return float(QPointF.dotProduct(gap, gap) ** 0.5)
