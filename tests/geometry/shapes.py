"""Random contours for the property tests, and the dense polygons they are held against."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import assume
from hypothesis import strategies as st

from geometry.plane.contour import Contour, FloatArray
from tests.geometry.validity import problems

angles = st.floats(-7.0, 7.0)
lengths = st.floats(-60.0, 60.0)
points = st.tuples(lengths, lengths)


@st.composite
def contours(draw: st.DrawFn, arcs: bool = True) -> Contour:
    """A simple counter-clockwise contour about the origin, 3 to 9 edges, straight ones and arcs both ways."""
    n = draw(st.integers(3, 9))
    radii = draw(st.lists(st.floats(12.0, 50.0), min_size=n, max_size=n))
    shifts = draw(st.lists(st.floats(-0.3, 0.3), min_size=n, max_size=n))
    bends = st.one_of(st.just(0.0), st.floats(0.05, 0.5), st.floats(-0.5, -0.05)) if arcs else st.just(0.0)
    bulges = draw(st.lists(bends, min_size=n, max_size=n))
    turned = (np.arange(n) + np.array(shifts)) * (2.0 * np.pi / n)
    contour = Contour(np.column_stack((radii * np.cos(turned), radii * np.sin(turned), bulges)))
    assume(contour.area > 0.0 and not problems(contour))
    return contour


def rotated(contour: Contour, angle: float, about: tuple[float, float] = (0.0, 0.0)) -> Contour:
    """Turned counter-clockwise by an angle in radians about a point."""
    c, s = np.cos(angle), np.sin(angle)
    points = (contour.points - about) @ np.array(((c, s), (-s, c))) + about
    return Contour(np.column_stack((points, contour.vertices[:, 2])))


def rounded(polygon: Contour, radius: float) -> Contour:
    """A polygon whose corners are arcs tangent to their sides. Raises ValueError where they do not fit on these."""
    here = polygon.points
    ahead = polygon.ends - here
    sides = np.linalg.norm(ahead, axis=1)
    heading = np.arctan2(ahead[:, 1], ahead[:, 0])
    turn = (heading - np.roll(heading, 1) + np.pi) % (2 * np.pi) - np.pi
    cut = radius * np.tan(np.abs(turn) / 2)
    if np.any(cut + np.roll(cut, -1) > sides + 1e-9):
        raise ValueError("the arcs do not fit on the sides")
    along = ahead / sides[:, None]
    arcs = np.column_stack((here - cut[:, None] * np.roll(along, 1, axis=0), np.tan(turn / 4)))
    lines = np.column_stack((here + cut[:, None] * along, np.zeros(len(here))))
    left = ~np.isclose(cut + np.roll(cut, -1), sides)  # a side that its arcs use up is none
    kept = np.column_stack((np.ones_like(left), left))
    return Contour(np.stack((arcs, lines), axis=1)[kept])


def dense(contour: Contour, chords: int = 400) -> FloatArray:
    """Points on the contour itself, `chords` to an arc, found from each arc's centre and angles."""
    runs = []
    for edge in contour.edges():
        if not edge.is_arc:
            runs.append(np.array([edge.start]))
            continue
        start, centre = np.array(edge.start), np.array(edge.centre)
        first = np.arctan2(*(start - centre)[::-1])
        turned = first + edge.angle * np.arange(chords) / chords
        runs.append(centre + edge.radius * np.column_stack((np.cos(turned), np.sin(turned))))
    return np.concatenate(runs)


def shape(contour: Contour, chords: int = 400) -> shapely.Polygon:
    """The inside of a contour as a polygon of many chords."""
    return shapely.Polygon(dense(contour, chords))
