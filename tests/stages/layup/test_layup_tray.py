"""The glue-up tray's lines against the pattern as the finished work shows it, by sampling."""

from __future__ import annotations

from math import cos, hypot, pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.pattern import Pattern, ply_at
from geometry.bodies.places import Places
from jigs.stages.layup.layout.tray import LayupTrayLayout

HAIR = 1e-4  # mm


@st.composite
def trays(draw):
    """A tray, and the pattern that its segment shows on an outer flat."""
    mirrored = draw(st.sampled_from(["none", "left and right", "up and down", "both"]))
    columns, rows = 1 + (mirrored in ("left and right", "both")), 1 + (mirrored in ("up and down", "both"))
    plies = tuple(draw(st.lists(st.floats(0.5, 4), min_size=2, max_size=4)))
    angle, turned = draw(st.floats(0.02, pi / 2 - 0.02) | st.sampled_from([0.0, pi / 2])), draw(st.booleans())
    a, b, sanding = draw(st.floats(10, 40)), draw(st.floats(10, 40)), draw(st.floats(0, 0.6))
    across, up = a - (columns - 1) * sanding, b - (rows - 1) * sanding
    tray = LayupTrayLayout(plies, angle, a, b, across, up, columns, rows, turned, 20.0, 12.0, 0.15)
    return tray, Pattern(plies, angle, "flat", mirrored, a, b, sanding, turned)


def plies_at(tray, pattern, points):
    """The ply at places on the tray."""
    points = np.asarray(points, dtype=np.float64)
    wide, tall = tray.size
    zeros = np.zeros(len(points), dtype=np.intp)
    places = Places(zeros, zeros, points[:, 0] - wide / 2, zeros.astype(float), points[:, 1] - tall / 2)
    return ply_at(places, pattern)


@given(trays())
def test_plies_change_at_every_line_and_nowhere_else(made):
    tray, pattern = made
    lines = tray.lines(tray.boundaries())
    wide, tall = tray.size
    rng = np.random.default_rng(1)
    for start, end in rng.uniform((0, 0), (wide, tall), (6, 2, 2)):
        t = np.linspace(0, 1, 4001)[:, None]
        points = start + t * (end - start)
        changes = int(np.count_nonzero(np.diff(plies_at(tray, pattern, points))))
        crossed = sum(_crosses(start, end, line) for line in lines)
        # A step of the sample may jump a corner of two lines where pieces meet: twice a change, or none.
        assert abs(changes - crossed) <= 2 * (tray.columns + tray.rows - 2)


def _crosses(start, end, line):
    (ax, ay), (bx, by) = line
    side = [(bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in (start, end)]
    (sx, sy), (ex, ey) = start, end
    other = [(ex - sx) * (y - sy) - (ey - sy) * (x - sx) for x, y in line]
    return side[0] * side[1] < 0 and other[0] * other[1] < 0


@given(trays())
def test_on_both_sides_of_a_line_are_neighbouring_plies(made):
    tray, pattern = made
    wide, tall = tray.size
    for (x0, y0), (x1, y1) in tray.lines(tray.boundaries()):
        length = hypot(x1 - x0, y1 - y0)
        if length < 0.1:
            continue
        middle, across = np.array(((x0 + x1) / 2, (y0 + y1) / 2)), np.array((y0 - y1, x1 - x0)) / length
        if min(middle) < 2 * HAIR or middle[0] > wide - 2 * HAIR or middle[1] > tall - 2 * HAIR:
            continue
        seams = [abs(middle[0] - wide / 2)] * (tray.columns == 2) + [abs(middle[1] - tall / 2)] * (
            tray.rows == 2
        )
        if min(seams, default=1.0) < 2 * HAIR:
            continue
        one, other = plies_at(tray, pattern, [middle - HAIR * across, middle + HAIR * across])
        assert (one - other) % len(tray.plies) in (1, len(tray.plies) - 1)


@given(trays())
def test_mirrored_pieces_meet_at_their_seams_ply_to_ply(made):
    tray, _ = made
    wide, tall = tray.size
    ends = np.array([end for line in tray.lines(tray.boundaries()) for end in line]).reshape(-1, 2)
    for count, axis, seam in ((tray.columns, 0, wide / 2), (tray.rows, 1, tall / 2)):
        if count == 2:
            on = np.round(ends[np.abs(ends[:, axis] - seam) < 1e-9][:, 1 - axis], 6)
            assert all(np.count_nonzero(np.abs(on - place) < 1e-5) % 2 == 0 for place in on)


def test_strips_joints_are_a_sheet_apart_square_to_the_plies():
    tray = LayupTrayLayout((3.0, 1.5, 0.5), 0.6, 30.0, 22.0, 29.9, 21.9, 2, 2, False, 20.0, 12.0, 0.15)
    assert tray.joints() == pytest.approx(
        [5.0 * k for k in range(1, 8) if 5.0 * k < 30 * sin(0.6) + 22 * cos(0.6)]
    )
    (x0, y0), (x1, y1) = tray.lines([10.0])[0]
    p = [abs(x - 29.9) + 0.1 for x in (x0, x1)]
    q = [abs(y - 21.9) + 0.1 for y in (y0, y1)]
    assert [u * sin(0.6) + v * cos(0.6) for u, v in zip(p, q, strict=True)] == pytest.approx([10.0, 10.0])


@given(trays())
def test_ticks_are_where_lines_leave_the_segment(made):
    tray, _ = made
    wide, tall = tray.size
    lower, upper, left, right = tray.meetings(tray.boundaries())
    assert all(0 <= x <= wide + 1e-6 for x in (*lower, *upper))
    assert all(0 <= y <= tall + 1e-6 for y in (*left, *right))
    if tray.columns == 2:
        assert np.array(upper) == pytest.approx(wide - np.array(upper[::-1]), abs=2e-6)
        assert left == pytest.approx(right, abs=2e-6)
    if tray.rows == 2:
        assert lower == pytest.approx(upper, abs=2e-6)
