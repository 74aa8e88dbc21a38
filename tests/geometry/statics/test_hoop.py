"""The pull round a wall whose edge is pressed outward, against a beam on its springs solved by small steps."""

from math import pi

import numpy as np
import pytest

from geometry.bodies.tube import tube_of
from geometry.statics.hoop import edge_hoop, ring_hoop, ring_twist


@pytest.mark.parametrize(("radius", "wall"), [(38.0, 4.0), (100.0, 8.0), (60.0, 3.0)])
def test_a_strip_of_the_wall_is_a_beam_on_the_springs_of_its_rings(radius, wall):
    """D w'''' + E t w / R² = 0, its edge loaded and free to turn, its far end clamped; Poisson's ratio 0, E 1."""
    count, long = 1200, 12 * np.sqrt(radius * wall)
    step, spread = long / (count - 1), 700.0
    stiff, spring = wall**3 / 12, wall / radius**2
    curve = (np.eye(count, k=-1) - 2 * np.eye(count) + np.eye(count, k=1)) / step**2
    curve[[0, -1]] = 0.0  # no moment at the edge; the far end hardly moves
    weight = np.full(count, step)
    weight[[0, -1]] /= 2
    energy = stiff * curve.T @ (weight[:, None] * curve) + np.diag(spring * weight)
    load = np.zeros(count)
    load[0] = spread / (2 * pi * radius)
    moved = np.linalg.solve(energy, load)
    assert edge_hoop(spread, radius, wall) == pytest.approx(moved[0] / radius, rel=0.01)


@pytest.mark.parametrize(
    ("major", "tube", "high", "core"),
    [(98.0, 27.0, 27.0, 10.5), (137.5, 12.5, 12.5, 4.6), (60.0, 25.0, 25.0, 0.0), (98.0, 27.0, 20.0, 10.5)],
)
def test_a_closed_ring_carries_its_spread_by_a_tension_that_falls_with_the_radius(major, tube, high, core):
    """Summed over the section cell by cell, the tension that gives is the spread's pull, and it is greatest inside."""
    side = np.linspace(-tube, tube, 1201)
    x, z = np.meshgrid((side[1:] + side[:-1]) / 2, (side[1:] + side[:-1]) / 2)
    away = np.hypot(x, z)
    inside, cell = (np.hypot(x, z * (tube / high)) <= tube) & (away >= core), (side[1] - side[0]) ** 2
    spread = 700.0
    greatest = ring_hoop(spread, major, tube_of(tube, high), core)
    stress = greatest * (major - tube) / (major + x)
    assert (stress[inside] * cell).sum() == pytest.approx(spread / (2 * pi), rel=2e-3)
    assert stress[inside].max() <= greatest


def test_a_slim_ring_is_a_hoop():
    assert ring_hoop(700.0, 1e4, tube_of(10.0), 0.0) == pytest.approx(
        700.0 / (2 * pi) / (pi * 100.0), rel=2e-3
    )


def test_couples_all_round_a_ring_bend_it_over_its_height():
    """Half of the ring is balanced by the bending at its two ends, which the section, cell by cell, gives back."""
    couple, major, wide, high, core = 9000.0, 98.0, 27.0, 20.0, 8.0
    each = couple / (2 * pi * major)  # of each mm round it, about the ring's own direction there
    turn = (np.arange(4000) + 0.5) * pi / 4000
    bending = (each * np.sin(turn) * major * pi / 4000).sum() / 2
    side = np.linspace(-wide, wide, 1601)
    x, z = np.meshgrid((side[1:] + side[:-1]) / 2, (side[1:] + side[:-1]) / 2)
    inside = (np.hypot(x / wide, z / high) <= 1) & (np.hypot(x, z) >= core)
    stress = ring_twist(couple, tube_of(wide, high), core) * z / high
    assert (stress * z)[inside].sum() * (side[1] - side[0]) ** 2 == pytest.approx(bending, rel=2e-3)
