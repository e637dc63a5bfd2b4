"""The finite differences against a solution of another kind, made with numpy: Chebyshev collocation and eigenvectors.

With x = r^2 the equation is T_t = 4 x T_xx + 2 (1 + beta) T_x on 0..1, smooth for every beta; the film is 2 T_x + Bi T
= 0 at x = 1. Its collocation matrix is diagonalised, so that time is exact. That reference is itself held against the
closed series of slab and sphere, whose roots are found by numpy alone. (Trefethen, Spectral Methods in MATLAB.)
"""

import numpy as np
import pytest

from core.food.heat_flow import Around, Piece, Thermal, warming
from core.food.heat_flow_series import MARGINAL, first_root, missing_at

STUFF = Thermal(0.5, 1000, 4000, "round numbers")
HALF = 0.1
TIMES = (0.1, 0.2, 0.4, 0.8)
BETAS = (0.0, 0.28, 1.0, 2.0)
BIOTS = (0.1, 1.0, 3.0, 10.0, 100.0)


def collocation(beta, biot, times, degree=28):
    """What the middle still misses at each Fourier number, and the lowest root."""
    index = np.arange(degree + 1)
    x = (1 - np.cos(np.pi * index / degree)) / 2
    weights = np.where((index == 0) | (index == degree), 0.5, 1.0) * (-1.0) ** index
    apart = x[:, None] - x[None, :]
    np.fill_diagonal(apart, 1.0)
    slopes = weights[None, :] / weights[:, None] / apart
    np.fill_diagonal(slopes, 0.0)
    np.fill_diagonal(slopes, -slopes.sum(axis=1))
    heat = 4 * x[:, None] * (slopes @ slopes) + 2 * (1 + beta) * slopes
    film = 2 * slopes[-1]
    film[-1] += biot
    inner = heat[:-1, :-1] - np.outer(heat[:-1, -1], film[:-1] / film[-1])
    rates, shapes = np.linalg.eig(inner)
    parts = np.linalg.solve(shapes, np.ones(degree))
    missing = [float((shapes[0] * parts * np.exp(rates * time)).sum().real) for time in times]
    return missing, float(np.sqrt(-rates.real.max()))


def closed(beta, biot, time, terms=30):
    """The series of a slab (zeta tan zeta = Bi) or a sphere (1 - zeta cot zeta = Bi), its roots by bisection."""
    starts = np.arange(terms) * np.pi
    low, high = starts + 1e-12, starts + (np.pi / 2 if beta == 0 else np.pi) - 1e-12

    def over(z):
        return z * np.sin(z) - biot * np.cos(z) if beta == 0 else (1 - biot) * np.sin(z) - z * np.cos(z)

    signs = np.sign(over(high))
    for _ in range(100):
        middle = (low + high) / 2
        same = np.sign(over(middle)) == signs
        low, high = np.where(same, low, middle), np.where(same, middle, high)
    z = (low + high) / 2
    if beta == 0:
        weights = 4 * np.sin(z) / (2 * z + np.sin(2 * z))
    else:
        weights = 4 * (np.sin(z) - z * np.cos(z)) / (2 * z - np.sin(2 * z))
    return float((weights * np.exp(-(z**2) * time)).sum())


def by_differences(beta, biot, times, nodes):
    piece = Piece(HALF, beta, STUFF, 0.0)
    a_unit = HALF**2 / STUFF.diffusivity / 60
    film = biot * STUFF.conductivity / HALF
    curve = warming(piece, (Around(100, film, max(times) * 1.01 * a_unit),), nodes=nodes)
    return [1 - curve.core_at(time * a_unit) / 100 for time in times]


@pytest.mark.parametrize("biot", BIOTS)
@pytest.mark.parametrize("beta", [0.0, 2.0])
def test_the_reference_is_the_closed_series(beta, biot):
    ours, _ = collocation(beta, biot, TIMES)
    assert ours == pytest.approx([closed(beta, biot, time) for time in TIMES], abs=1e-7)


@pytest.mark.parametrize("biot", BIOTS)
@pytest.mark.parametrize("beta", BETAS)
def test_the_differences_are_the_reference(beta, biot):
    """To 0.15 % of the whole way (0.2 °C in an oven of 163 °C) with the 20 nodes in use; more nodes come nearer.

    At Bi 0.1 the steps of time, not the nodes, are what is left.
    """
    reference, _ = collocation(beta, biot, TIMES)
    coarse, usual, fine = (
        np.abs(np.subtract(by_differences(beta, biot, TIMES, nodes), reference)).max()
        for nodes in (10, 20, 40)
    )
    assert usual < 1.5e-3
    if biot >= 3:
        assert fine < 0.7 * usual < 0.35 * coarse
        assert fine < 4e-4


@pytest.mark.parametrize("biot", BIOTS)
@pytest.mark.parametrize("beta", BETAS)
def test_the_first_term_is_the_reference_once_it_may_be(beta, biot):
    reference, root = collocation(beta, biot, TIMES)
    assert first_root(beta, biot) == pytest.approx(root, abs=1e-8)
    for time, missing in zip(TIMES, reference, strict=True):
        if time >= MARGINAL:
            assert missing_at(beta, biot, time) == pytest.approx(missing, abs=0.02)
        if time >= 4 * MARGINAL:
            assert missing_at(beta, biot, time) == pytest.approx(missing, abs=1e-4)


def test_the_first_term_alone_is_wrong_early():
    """Below tau 0.2 the check above must see a difference: one term overshoots the start by a quarter in a slab."""
    (missing,), _ = collocation(0.0, 100.0, (0.02,))
    assert missing_at(0.0, 100.0, 0.02) - missing > 0.1
