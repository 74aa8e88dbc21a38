"""Rings pushed dry into a corner: simulated as polygons, read with noise, corrected, and tried again."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.bodies.torus import Blank, least_apothem, rings_in_check
from geometry.bodies.tube import tube_of
from geometry.measuring.estimate import Estimate, agree
from geometry.measuring.wedge_angle import (
    chord,
    error_from_chord,
    error_from_gap,
    face_length,
    face_taper,
    wedge_shim,
)
from tests.geometry.tori_blanks import blanks

FEELER, CALLIPER = 0.03, 0.05
errors = st.floats(-0.02, 0.02).filter(lambda error: abs(error) > 2e-4)


def ring(thick: float, deep: float, included: float) -> np.ndarray:
    """One ring seen along the axis, its outer edge on the x axis, its hole side up: outer and inner corners, (4, 2)."""
    short = thick / 2 - deep * math.tan(included / 2)
    return np.array(((-thick / 2, 0.0), (thick / 2, 0.0), (short, deep), (-short, deep)))


def stack(thick: float, deep: float, included: float, rings: int) -> tuple[np.ndarray, np.ndarray]:
    """Rings face to face, outer edges meeting: the first face and the last, each hole then rim, (2, 2), the first on
    the x axis with its rim away from the origin, the rings above it."""
    half = included / 2
    outer = [np.zeros(2)]
    for k in range(rings):
        turn = math.pi / 2 + (2 * k + 1) * half
        outer.append(outer[-1] + thick * np.array((math.cos(turn), math.sin(turn))))
    length = deep / math.cos(half)
    inward = math.pi + rings * included
    last = outer[-1] + length * np.array((math.cos(inward), math.sin(inward)))
    return np.array(((-length, 0.0), (0.0, 0.0))), np.array((last, outer[-1]))


def in_corner(thick: float, blank: Blank, included: float, rings: int) -> tuple[float, float]:
    """Light at the hole and at the rim of the last face, the stack pushed along the first arm until it touches."""
    _, last = stack(thick, 2 * blank.half_width, included, rings)
    angle = rings * 2 * blank.half_wedge
    square = np.array((math.sin(angle), -math.cos(angle)))  # from the second arm into the corner
    off = last @ square
    return tuple(off - off.min())  # moved along the first arm, both corners move alike


def trial_rings(blank: Blank) -> int:
    return max(2, rings_in_check(blank.wedge_rings))


@given(blanks(), errors)
def test_the_light_in_the_corner_tells_the_error(blank: Blank, error: float):
    assume(blank.inner_radius > 1)
    rings = trial_rings(blank)
    included = 2 * blank.half_wedge + error / rings
    hole, rim = in_corner(blank.thick_edge, blank, included, rings)
    found = error_from_gap(blank, Estimate(rim, FEELER), Estimate(hole, FEELER))
    assert found.value == pytest.approx(error, rel=0.02)  # the face as cut is a little longer or shorter
    assert min(hole, rim) == 0
    assert (rim > hole) == (error < 0)


@given(blanks(), errors, st.floats(-0.5, 0.5))
def test_a_chord_with_the_thick_edge_tells_the_error_whatever_the_size(
    blank: Blank, error: float, off: float
):
    assume(blank.inner_radius > 1)
    rings = trial_rings(blank)
    included, thick = 2 * blank.half_wedge + error / rings, blank.thick_edge + off
    first, last = stack(thick, 2 * blank.half_width, included, rings)
    over = float(np.linalg.norm(last[1] - first[1]))
    assert over == pytest.approx(chord(thick, rings, included))
    found = error_from_chord(blank, rings, Estimate(over, CALLIPER), Estimate(thick, CALLIPER))
    assert found.value == pytest.approx(error, abs=1e-6)


def test_the_worked_ring_needs_a_larger_second_cut():
    """N = 16, 300 across, tube 70, n = 8, allowance 2: worked by hand from the drawing of the corner."""
    apothem, centre = least_apothem(115, tube_of(37), 16, 8)
    blank = Blank(16, 8, apothem, 10, centre)
    assert 2 * apothem == pytest.approx(75.5, abs=0.05)
    hole, rim = in_corner(blank.thick_edge, blank, math.radians(89.4 / 4), 4)
    assert hole == 0
    assert rim == pytest.approx(0.81, abs=0.005)
    found = error_from_gap(blank, Estimate(0.81, FEELER), None)
    assert math.degrees(found.value) == pytest.approx(-0.6, abs=0.005)
    assert -math.degrees(found.value) / 4 == pytest.approx(0.15, abs=0.001)


def cut(blank: Blank, thick_at_stop: float, wedge: float, stop: float) -> tuple[float, float]:
    """Thick edge and included angle of a ring cut on a wedge: the fence is the x axis, the apex the origin, the blade
    at w above it; the stop touches the ring at `stop` from the apex along the fence, on the wedge's face."""
    w = blank.half_wedge
    at = np.array((stop, thick_at_stop))  # the ring's outer corner, on the wedge's face
    included = w + wedge
    square = at[0] * math.sin(w) - at[1] * math.cos(w)  # from the blade
    return square / math.cos(included / 2), included


@given(blanks(), st.floats(-0.01, 0.01))
def test_a_shim_turns_the_cut_and_a_moved_stop_keeps_the_size(blank: Blank, error: float):
    """With paper at either end; the thick edge is then as planned."""
    w, bearing = blank.half_wedge, face_length(blank)
    length, b = bearing + 10, 4.0
    stop = (blank.thick_edge + b) / math.tan(w)
    right = wedge_shim(blank, length, error)
    assert cut(blank, b, w - error + math.atan(right.thick_end / length), stop)[1] == pytest.approx(2 * w)
    if error < 0:
        turned = w - error - math.atan(right.thin_end / length)
        # A V's edges lean: seen along the arris, what comes off square to them is less than along the fence.
        lean = math.pi / blank.segments if blank.segments % 4 == 2 else 0.0
        way = right.stop / math.cos(lean)
        moved = np.array((stop, b + right.thin_end)) + way * np.array((1, -math.tan(w)))  # along the wedge
        again, angle = cut(blank, moved[1], turned, moved[0])
        assert angle == pytest.approx(2 * w)
        assert again == pytest.approx(blank.thick_edge)


@given(blanks(), errors)
def test_sanding_faces_to_a_taper_makes_rings_that_fill_the_corner(blank: Blank, error: float):
    assume(blank.inner_radius > 1)
    rings = trial_rings(blank)
    half = blank.half_wedge + error / rings / 2
    deep, thick = 2 * blank.half_width, blank.thick_edge
    off = face_taper(blank, -error / rings)
    before = shapely.Polygon(ring(thick, deep, 2 * half))
    thin = thick - 2 * deep * math.tan(half)
    assume(thin > 0)
    lost = max(off.at_hole, off.at_rim) / math.cos(half)  # along the ring, at that edge
    after = np.array((thick - 2 * lost * (off.at_rim > 0), thin - 2 * lost * (off.at_hole > 0)))
    assert math.atan2((after[0] - after[1]) / 2, deep) == pytest.approx(
        blank.half_wedge, abs=1e-2 * abs(error)
    )
    assert after[0] == pytest.approx(
        2 * (off.centre + blank.half_width) * math.tan(blank.half_wedge), abs=0.02
    )
    corners = np.array(((-after[0] / 2, 0), (after[0] / 2, 0), (after[1] / 2, deep), (-after[1] / 2, deep)))
    assert before.buffer(1e-9).covers(shapely.Polygon(corners))  # nothing is put on


@given(blanks(), errors, st.integers(0, 2**32 - 1))
def test_correcting_leaves_less_than_the_readings_accuracy(blank: Blank, error: float, seed: int):
    """Cut, read with noise, shimmed, cut again: never worse than the feeler explains, and better than uncorrected."""
    assume(blank.inner_radius > 5)
    noise = np.random.default_rng(seed)
    rings = trial_rings(blank)
    hole, rim = in_corner(blank.thick_edge, blank, 2 * blank.half_wedge + error / rings, rings)
    read = [Estimate(max(0, gap + np.clip(noise.normal(0, FEELER / 2), -FEELER, FEELER)), FEELER) if gap else None
            for gap in (rim, hole)]  # fmt: skip
    found = error_from_gap(blank, *read)
    assume(found.sure)
    left = error - found.value
    assert abs(left) <= found.accuracy * 1.001 + 0.02 * abs(error)
    if abs(error) > 2.1 * found.accuracy:
        assert abs(left) < abs(error)


def test_a_chord_that_disagrees_with_the_gap_is_seen():
    blank = Blank(16, 8, 37.75, 10, 114.6)
    gap = error_from_gap(blank, Estimate(0.8, FEELER), None)
    included = 2 * blank.half_wedge - gap.value / 4
    thick = Estimate(blank.thick_edge, CALLIPER / 2)
    wrong = error_from_chord(blank, 4, Estimate(chord(thick.value, 4, included), CALLIPER), thick)
    assert not agree(gap, wrong)
    right = error_from_chord(
        blank, 4, Estimate(chord(thick.value, 4, 2 * blank.half_wedge + gap.value / 4), CALLIPER), thick
    )
    assert agree(gap, right)


def test_gaps_that_cannot_be_are_refused():
    blank = Blank(16, 8, 37.75, 10, 114.6)
    with pytest.raises(ValueError, match="no gap"):
        error_from_gap(blank, None, None)
    with pytest.raises(ValueError, match="thick edge"):
        error_from_chord(blank, 1, Estimate(50, 0.05), Estimate(50, 0.05))
    with pytest.raises(ValueError, match="more than nothing"):
        error_from_chord(blank, 4, Estimate(50, 0.05), Estimate(0.0, 0.05))
    assert error_from_gap(blank, Estimate(900, 0.03), None).value == pytest.approx(-math.pi / 2)
