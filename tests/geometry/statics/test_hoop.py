"""The pull round a wall whose edge is pressed outward, against a beam on its springs solved by small steps."""

from math import pi

import numpy as np
import pytest

from geometry.statics.hoop import edge_hoop


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
