"""Resting: how far the middle still climbs off the heat, when, and how the piece cools. A model of a moist roast.

Trade and textbooks: about 3 °C for small cuts, 6 to 8 °C for average roasts, up to 14 °C for very large ones (common
practice; a professional-cookery textbook). Conduction into a dry surface gives twice that; with the drying chosen here
the model has 7 to 11 °C for 0.25 to 5 kg at 163 °C, still high for small cuts. What carries over never counts towards a
published minimum: the rest that USDA asks for begins when the middle has reached it off the heat.
"""

from __future__ import annotations

from dataclasses import dataclass

from core.food.heat_flow import Around, Piece, Warming, warming
from core.food.heat_flow_foods import DRYING, OVEN, ROOM, roasting_at
from core.measures.refusal import Refusal

COOLEST_PULL = 40.0
"""°C below which nothing is pulled to be served warm."""
_WATCHED = 120
_LONGEST = 24 * 60
_WETTEST = 1.0
"""Drying at the surface of what is to rest: chosen, held against the trade's figures above."""
_HOTTER = 8
"""°C that the surface must feel above the middle's target, else a drier one is taken."""


@dataclass(frozen=True, slots=True)
class Rest:
    """A rest: when it was pulled (minutes after it went in), at which °C; its peak, minutes after; the whole curve.

    `curve` counts minutes from going in; `least` and `most` are the peaks in draughty and in sheltered air.
    """

    pulled: float
    pulled_at: float
    peak: float
    peak_after: float
    least: float
    most: float
    curve: Warming

    @property
    def climbs(self) -> float:
        """Return by how many °C the middle still climbs."""
        return self.peak - self.pulled_at

    def falls_to(self, celsius: float) -> float | None:
        """Return how many minutes after it was pulled the middle has cooled to that; None: not while watched."""
        top = self.pulled + self.peak_after
        for minutes, core in zip(self.curve.minutes, self.curve.core, strict=True):
            if minutes >= top and core <= celsius:
                return minutes - self.pulled
        return None


def resting(piece: Piece, oven: float, pull_at: float, room: float = 22.0, watched: float = _WATCHED) -> Rest:
    """Return the rest of a piece pulled from an oven in °C with its middle at `pull_at`, so many minutes watched."""
    _refuse_odd(piece, oven, pull_at, room, watched)
    heated = _heated(piece, oven, pull_at)
    curves = [_rested(piece, heated, (room, film, watched)) for film in (ROOM.likely, ROOM.high, ROOM.low)]
    pulled = heated.minutes or 0.0
    peaks = [max(each.peak[0], pull_at) for each in curves]
    after = max(0.0, curves[0].peak[1] - pulled)
    return Rest(pulled, pull_at, peaks[0], after, peaks[1], peaks[2], curves[0])


def pull_for(piece: Piece, oven: float, peak: float, room: float = 22.0) -> Rest:
    """Return the rest that climbs to `peak` °C, with the °C to pull at in it; to within 0.2 °C."""
    _refuse_odd(piece, oven, peak, room, _WATCHED)
    pull_at = peak - 5
    for _ in range(8):
        pull_at = max(COOLEST_PULL, pull_at)
        curve = _rested(piece, _heated(piece, oven, pull_at), (room, ROOM.likely, _WATCHED))
        over = max(curve.peak[0], pull_at) - peak
        if pull_at == COOLEST_PULL and over > 0:
            raise Refusal(
                f"Out of {oven:g} °C this piece climbs past {peak:g} °C even if pulled at {pull_at:g} °C;"
                " set the oven lower."
            )
        if abs(over) < 0.1:
            break
        pull_at -= over
    return resting(piece, oven, pull_at, room)


def said_rest(rest: Rest) -> str:
    """Return what the model says of a rest."""
    low, high = round(rest.least), round(rest.most)
    to = f"{low} °C" if low == high else f"{low} to {high} °C"
    return (
        f"Pulled at {rest.pulled_at:.0f} °C the middle climbs to {to}, the most about {rest.peak_after:.0f} min later:"
        " an estimate, for common practice has 3 to 14 °C by size and oven; a probe left in tells."
        " What carries over does not count towards a published minimum."
    )


def _heated(piece: Piece, oven: float, pull_at: float) -> Around:
    """Return the oven as the piece feels it, until it is pulled."""
    hot = next(
        (
            felt
            for drying in (_WETTEST, DRYING.likely, DRYING.low)
            if (felt := roasting_at(oven, OVEN.likely, drying)).celsius >= pull_at + _HOTTER
        ),
        Around(oven, OVEN.likely),
    )
    pulled = warming(piece, (hot,), until=pull_at, longest=_LONGEST).reaches(pull_at)
    if pulled is None:
        raise Refusal(
            f"The middle does not reach {pull_at:g} °C in a day at {oven:g} °C; set the oven hotter."
        )
    return Around(hot.celsius, hot.film, pulled)


def _rested(piece: Piece, heated: Around, rest: tuple[float, float, float]) -> Warming:
    return warming(piece, (heated, Around(*rest)), longest=2 * _LONGEST)


def _refuse_odd(piece: Piece, oven: float, pull_at: float, room: float, watched: float) -> None:
    if not COOLEST_PULL <= pull_at <= 98:
        raise Refusal(f"Nothing is pulled at {pull_at:g} °C; write from {COOLEST_PULL:g} to 98 °C.")
    if not pull_at + 2 <= oven <= 300:
        raise Refusal(
            f"An oven at {oven:g} °C does not bring the middle to {pull_at:g} °C; set it hotter, to 300 °C."
        )
    if piece.start >= pull_at:
        raise Refusal(
            f"It is at {piece.start:g} °C before it goes in; write a higher temperature to pull it at."
        )
    if not -10 <= room < pull_at:
        raise Refusal(
            f"In a room at {room:g} °C nothing rests at {pull_at:g} °C; write the room's temperature."
        )
    if not 0 < watched <= _LONGEST:
        raise Refusal(f"A rest of {watched:g} min is none; write from 1 min to 24 h.")
