"""Segments cut from a strip, simulated."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.torus import Blank, SegmentCut, segment_cut
from geometry.plane.edges import FloatArray
from tests.geometry.tori_blanks import blanks

kerfs = st.floats(1.0, 4.0)
sandings = st.sampled_from((0.0, 0.1, 0.5))


def sanded_segment(cut: SegmentCut, sanding: float) -> FloatArray:
    """Corners (4, 2) of a segment's section, `sanding` taken off square to each end.

    Its outer edge is up, on y = 0; outer corners first and last, left before right.
    """
    end = np.array((cut.outer_edge / 2 - cut.inner_edge / 2, cut.depth))
    end /= np.hypot(*end)
    on_end = np.array((cut.outer_edge / 2, 0.0)) + sanding * np.array((-end[1], end[0]))
    right = [on_end + end * (y - on_end[1]) / end[1] for y in (-cut.depth, 0.0)]
    left = [corner * (-1, 1) for corner in reversed(right)]
    return np.array([*left, *right])


def spokes(n: int, apothem: float) -> FloatArray:
    """Corners (n, 2) of a polygon about the origin with one flat up, from that flat's left, clockwise."""
    angles = math.pi / 2 + math.pi / n - 2 * math.pi / n * np.arange(n)
    return np.asarray(apothem / math.cos(math.pi / n) * np.column_stack((np.cos(angles), np.sin(angles))))


@given(blanks(), kerfs, sandings)
def test_sanded_segments_close_into_the_planned_ring(blank: Blank, kerf: float, sanding: float) -> None:
    cut = segment_cut(blank, 50.0, kerf, sanding)
    segment = sanded_segment(cut, sanding) + np.array((0.0, blank.apothem))
    outside, inside = spokes(blank.segments, blank.apothem), spokes(blank.segments, blank.core_apothem)
    for k in range(blank.segments):
        angle = -2 * math.pi / blank.segments * k
        c, s = math.cos(angle), math.sin(angle)
        placed = segment @ np.array(((c, s), (-s, c)))
        following = (k + 1) % blank.segments
        planned = (outside[k], inside[k], inside[following], outside[following])
        assert placed == pytest.approx(np.array(planned), abs=1e-9)
    assert cut.length == 50.0


def strip_pieces(cut: SegmentCut, count: int) -> tuple[list[shapely.Polygon], list[shapely.Polygon]]:
    """Segments and kerfs along a strip that lies on y = 0 to depth, turned over after each cut.

    The blade's lean shows as leaning one way, then the other; each kerf is measured square to the blade.
    """
    lean = np.array((math.sin(cut.tilt), math.cos(cut.tilt)))
    square = np.array((lean[1], -lean[0]))
    height = cut.depth

    def crossing(foot: FloatArray, direction: FloatArray) -> list[FloatArray]:
        return [foot + direction * (y - foot[1]) / direction[1] for y in (0.0, height)]

    pieces, kerfs = [], []
    # The first cut just takes the whole of the strip's end: its left face leaves at the lower corner.
    near = crossing(np.array((0.0, 0.0)), lean)
    for k in range(count + 1):
        way = lean * np.array((1 if k % 2 == 0 else -1, 1))
        across = square * np.array((1, 1 if k % 2 == 0 else -1))
        far = crossing(near[0] + cut.kerf * across, way)
        kerfs.append(shapely.Polygon([near[0], far[0], far[1], near[1]]))
        if k == count:
            break
        # The wide edge is below after the first cut, as the blade leant away from it there, then above.
        lengths = (cut.outer_edge, cut.inner_edge) if k % 2 == 0 else (cut.inner_edge, cut.outer_edge)
        near = [far[0] + (lengths[0], 0.0), far[1] + (lengths[1], 0.0)]
        pieces.append(shapely.Polygon([far[0], near[0], near[1], far[1]]))
    return pieces, kerfs


@given(blanks(), kerfs, sandings, st.integers(1, 9))
def test_the_strip_just_holds_its_segments_and_kerfs(
    blank: Blank, kerf: float, sanding: float, count: int
) -> None:
    cut = segment_cut(blank, 50.0, kerf, sanding)
    pieces, cuts = strip_pieces(cut, count)
    assert len(pieces) == count
    everything = shapely.GeometryCollection(pieces + cuts).convex_hull
    x0, _, x1, _ = everything.bounds
    assert cut.strip_length(count) == pytest.approx(x1 - x0)
    assert everything.area == pytest.approx(sum(p.area for p in pieces + cuts))  # no gap, no overlap
    for band in cuts:
        slant = shapely.LineString([band.exterior.coords[0], band.exterior.coords[3]]).length
        assert slant == pytest.approx(cut.depth / math.cos(cut.tilt))
        assert band.area == pytest.approx(kerf * slant)
    assert cut.strip_length(count + 1) - cut.strip_length(count) == pytest.approx(cut.pitch)
