"""Drawings of profiles, as programs write them, and what has to come of them."""

import math
from pathlib import Path

import ezdxf
import numpy as np
import pytest

from geometry.plane.edges import points_along
from jigs.asked.drawn.profile import TOLERANCE, read_drawing
from jigs.asked.key import Wrong

ROOT = Path(__file__).parents[3]
# A foot of 60 mm, a straight side, a quarter circle outwards and a straight neck: x, y, bulge.
CUP = np.array(((30.0, 0.0, 0.0), (40.0, 25.0, math.tan(math.pi / 8)), (50.0, 35.0, 0.0), (50.0, 60.0, 0.0)))
CURVE = ((30.0, 5.0), (45.0, 20.0), (62.0, 45.0), (40.0, 70.0), (44.0, 95.0))


def dxf(folder, draw, units=4, name="drawing.dxf", version="R2010"):
    document = ezdxf.new(version, units=units)
    document.header["$INSUNITS"] = units
    draw(document.modelspace())
    document.saveas(folder / name)
    return folder / name


def cup(rows=CUP, layer="outside", **attributes):
    """Draws the cup as one LWPOLYLINE."""
    return lambda space: space.add_lwpolyline(
        rows, format="xyb", dxfattribs={"layer": layer, **attributes}, close=False
    )


def svg(folder, body, size='width="200mm" height="200mm" viewBox="0 0 200 200"', name="drawing.svg"):
    spaces = 'xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape"'
    (folder / name).write_text(f"<svg {spaces} {size}>{body}</svg>", "utf-8")
    return folder / name


def read(path, layer=None, unit=None, axis=0.0):
    return read_drawing(path, layer, unit, axis)


def refusal(path, layer=None, unit=None, axis=0.0):
    with pytest.raises(Wrong) as caught:
        read_drawing(path, layer, unit, axis)
    return caught.value


def sampled(rows, count=60):
    """Points on every edge of the chain."""
    t = np.linspace(0.0, 1.0, count)
    sweeps = 4.0 * np.arctan(rows[:-1, 2])[:, None]
    return points_along(rows[:-1, None, :2], rows[1:, None, :2], sweeps, t).reshape(-1, 2)


def farthest(points, line):
    """The largest distance from any of the points to a polyline through dense points."""
    a, b = line[:-1], line[1:]
    d = b - a
    length = np.maximum((d**2).sum(axis=1), 1e-30)
    worst = 0.0
    for p in points:
        t = np.clip(((p - a) * d).sum(axis=1) / length, 0.0, 1.0)
        worst = max(worst, float(np.hypot(*(a + t[:, None] * d - p).T).min()))
    return worst


def assert_follows(drawn, points):
    """Both ways, the rows lie within the tolerance of the dense points (whose own chords take the last micron)."""
    assert farthest(sampled(drawn.rows, 11), points) <= TOLERANCE + 1e-4
    assert farthest(points[::13], sampled(drawn.rows)) <= TOLERANCE + 1e-4
    assert 0.0 < drawn.within <= TOLERANCE


def assert_is_the_cup(drawn):
    np.testing.assert_allclose(drawn.rows, CUP, atol=1e-6)
    assert drawn.within == 0.0


# What a DXF may hold
