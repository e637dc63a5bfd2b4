"""Where the boxes of a flow lie: layers from top to bottom, few crossings, long arrows led around boxes.

Layers by longest path, order by barycentres, as in Sugiyama, Tagawa and Toda (1981), in their simplest form.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field

Point = tuple[float, float]
Node = str
Arrow = tuple[Node, Node]

_SWEEPS = 4


@dataclass(frozen=True, slots=True)
class Sizes:
    """Measures in pixels: width and height of a box, gaps between boxes and layers, the lane of a passing arrow."""

    width: float = 168
    height: float = 42
    beside: float = 16
    below: float = 34
    lane: float = 18


@dataclass(frozen=True, slots=True)
class FlowLayout:
    """Upper left corners of the boxes, the points of each arrow, and the size of the whole."""

    boxes: dict[Node, Point]
    arrows: dict[Arrow, tuple[Point, ...]]
    width: float
    height: float


@dataclass(slots=True)
class _Grid:
    """Layers of boxes and of the bends of arrows that pass them (a bend is named by its arrow and layer)."""

    layers: list[list[Node]] = field(default_factory=list)
    bends: set[Node] = field(default_factory=set)
    ups: dict[Node, list[Node]] = field(default_factory=dict)
    downs: dict[Node, list[Node]] = field(default_factory=dict)
    ways: dict[Arrow, list[Node]] = field(default_factory=dict)


def laid_out(nodes: Sequence[Node], arrows: Sequence[Arrow], sizes: Sizes) -> FlowLayout:
    """Return where boxes and arrows lie; arrows in a circle are led back somehow."""
    arrows = [each for each in dict.fromkeys(arrows) if each[0] != each[1]]
    grid = _grid(nodes, arrows, _layers(nodes, arrows))
    for sweep in range(_SWEEPS):
        _order(grid, down=sweep % 2 == 0)
    centres = _centres(grid, sizes)
    boxes: dict[Node, Point] = {}
    depth = sizes.height + sizes.below
    tops = {node: at * depth for at, layer in enumerate(grid.layers) for node in layer}
    for node in nodes:
        boxes[node] = (centres[node] - sizes.width / 2, tops[node])
    lines = {
        arrow: _points(way, centres, tops, sizes, grid.bends) for arrow, way in grid.ways.items() if len(way) > 1
    }
    wide = max((centres[node] + _half(node, grid, sizes) for node in centres), default=0)
    return FlowLayout(boxes, lines, wide, max(0, len(grid.layers) * depth - sizes.below))


def _layers(nodes: Sequence[Node], arrows: Sequence[Arrow]) -> dict[Node, int]:
    layer = dict.fromkeys(nodes, 0)
    for _round in nodes:  # as many rounds as there are nodes settle every chain, and end every circle
        moved = False
        for one, other in arrows:
            if layer[other] < layer[one] + 1 <= len(nodes):
                layer[other] = layer[one] + 1
                moved = True
        if not moved:
            break
    for node in nodes:  # what follows nothing stands right above what it leads to
        after = [layer[other] for one, other in arrows if one == node]
        if after and not any(other == node for _one, other in arrows):
            layer[node] = max(0, min(after) - 1)
    used = sorted(set(layer.values()))
    return {node: used.index(at) for node, at in layer.items()}


def _grid(nodes: Sequence[Node], arrows: Sequence[Arrow], layer: dict[Node, int]) -> _Grid:
    grid = _Grid([[] for _at in range(max(layer.values(), default=-1) + 1)])
    for node in nodes:
        grid.layers[layer[node]].append(node)
    for one, other in arrows:
        way = [one]
        for at in range(layer[one] + 1, layer[other]):
            bend = f"{one}>{other}@{at}"
            grid.layers[at].append(bend)
            grid.bends.add(bend)
            way.append(bend)
        way.append(other)
        grid.ways[one, other] = way
        for up, down in itertools.pairwise(way):
            grid.downs.setdefault(up, []).append(down)
            grid.ups.setdefault(down, []).append(up)
    return grid


def _order(grid: _Grid, down: bool) -> None:
    """Sort each layer by the mean place of its neighbours in the layer before it."""
    layers = grid.layers if down else grid.layers[::-1]
    beside = grid.ups if down else grid.downs
    for before, layer in itertools.pairwise(layers):
        place = {node: at for at, node in enumerate(before)}
        own = {node: at for at, node in enumerate(layer)}

        def mean(node: Node, place: dict[Node, int] = place, own: dict[Node, int] = own) -> float:
            places = [place[each] for each in beside.get(node, ()) if each in place]
            return sum(places) / len(places) if places else own[node]

        layer.sort(key=mean)


def _half(node: Node, grid: _Grid, sizes: Sizes) -> float:
    return (sizes.lane if node in grid.bends else sizes.width) / 2


def _centres(grid: _Grid, sizes: Sizes) -> dict[Node, float]:
    """Return the middle of each box and bend: under its neighbours where there is room."""
    centre: dict[Node, float] = {}
    for layer in grid.layers:
        _spread(layer, dict.fromkeys(layer, 0.0), centre, grid, sizes)
    for sweep in range(_SWEEPS):
        beside = grid.ups if sweep % 2 == 0 else grid.downs
        for layer in grid.layers if sweep % 2 == 0 else grid.layers[::-1]:
            wanted = {}
            for node in layer:
                near = [centre[each] for each in beside.get(node, ())]
                wanted[node] = sum(near) / len(near) if near else centre[node]
            _spread(layer, wanted, centre, grid, sizes)
    left = min((at - _half(node, grid, sizes) for node, at in centre.items()), default=0)
    return {node: at - left for node, at in centre.items()}


def _spread(
    layer: list[Node], wanted: dict[Node, float], centre: dict[Node, float], grid: _Grid, sizes: Sizes
) -> None:
    """Give each node of a layer the place it wants, or the next one that is free to its right."""
    free = float("-inf")
    for node in layer:
        half = _half(node, grid, sizes)
        centre[node] = max(wanted[node], free + half)
        free = centre[node] + half + sizes.beside


def _points(
    way: list[Node], centres: dict[Node, float], tops: dict[Node, float], sizes: Sizes, bends: set[Node]
) -> tuple[Point, ...]:
    points = [(centres[way[0]], tops[way[0]] + sizes.height)]
    for node in way[1:-1]:
        if node in bends:
            points += [(centres[node], tops[node]), (centres[node], tops[node] + sizes.height)]
    points.append((centres[way[-1]], tops[way[-1]]))
    return tuple(points)
