"""Heat flow by the first term of the series: quick, and near the truth once the Fourier number is above 0.2.

The middle: (around - T) / (around - start) = A exp(-lambda^2 tau), tau the Fourier number alpha t / R^2, lambda the
first root of lambda F'(lambda) + Bi F(lambda) = 0 (Cengel, Heat Transfer, table of one-term coefficients). F is cos
for a slab, J0 for a cylinder, sin(x)/x for a sphere: one power series in x with beta as its parameter.
"""

from __future__ import annotations

from functools import cache
from math import exp, log

from core.measures.refusal import Refusal

MARGINAL = 0.2
"""The Fourier number below which one term alone is off by more than about 2 % (Cengel)."""


def shape_function(beta: float, x: float) -> float:
    """Return F: cos(x), J0(x) or sin(x)/x at beta 0, 1 and 2."""
    return _series((beta + 1) / 2, x)


def _series(order: float, x: float) -> float:
    """Return the sum of (-x^2/4)^n / (n! (order)_n): good to 1e-12 for x up to 5."""
    term = total = 1.0
    number = 0
    while abs(term) > 1e-17 or number < x * x / 4:
        term *= -x * x / 4 / ((number + 1) * (order + number))
        total += term
        number += 1
    return total


@cache
def first_root(beta: float, biot: float) -> float:
    """Return the first root lambda for a shape and a Biot number; both without a unit."""
    if biot <= 0:
        raise Refusal(
            "Without any heat at the surface nothing warms; write a heat transfer coefficient above 0."
        )

    def over(x: float) -> float:
        return x * x / (beta + 1) * _series((beta + 3) / 2, x) - biot * shape_function(beta, x)

    low, high = 0.0, 0.1
    while over(high) < 0:
        low, high = high, high + 0.1
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if over(middle) < 0 else (low, middle)
    return (low + high) / 2


def first_weight(beta: float, biot: float) -> float:
    """Return A, the first term's weight: 2 Bi / ((lambda^2 + Bi^2 + (1 - beta) Bi) F(lambda))."""
    root = first_root(beta, biot)
    return 2 * biot / ((root**2 + biot**2 + (1 - beta) * biot) * shape_function(beta, root))


def fourier_for(beta: float, biot: float, missing: float) -> float:
    """Return tau at which the middle still misses that share (0 to 1) of the way to what is around it."""
    if not 0 < missing < 1:
        raise Refusal(
            "The middle can only reach what lies between its start and what is around it; correct the three."
        )
    return max(0.0, log(first_weight(beta, biot) / missing)) / first_root(beta, biot) ** 2


def missing_at(beta: float, biot: float, fourier: float, place: float = 0.0) -> float:
    """Return what share of the way is missing at tau, at `place` from 0 (the middle) to 1 (the surface)."""
    root = first_root(beta, biot)
    return first_weight(beta, biot) * exp(-(root**2) * fourier) * shape_function(beta, root * place)
