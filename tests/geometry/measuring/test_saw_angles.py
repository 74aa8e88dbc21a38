"""Blade lean and segment tilt: scrap and rings as polygons, read with noise, set, and tried again."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import affinity

from geometry.bodies.torus import Blank
from geometry.measuring.blade_lean import blade_lean, over_ring
from geometry.measuring.estimate import Estimate
from geometry.measuring.segment_angle import DryRing, light_of, tilt_from_half, tilt_from_ring
from tests.geometry.tori_blanks import blanks

seeds = st.integers(0, 2**32 - 1)


@given(st.floats(30, 120), st.floats(-0.02, 0.02).filter(lambda lean: abs(lean) > 1e-4))
def test_scrap_cut_and_half_turned_over_shows_twice_the_lean(height: float, lean: float):
    """Seen from the operator: x to the right, the blade's top to the left by `lean`."""
    at_top = -height * math.tan(lean)
    right = shapely.Polygon(((0, 0), (50, 0), (50, height), (at_top, height)))
    turned = affinity.scale(
        right, yfact=-1, origin=(0, height / 2)
    )  # its top down, its cut face still to the left
    left_edge = {0: 0.0, height: at_top}
    right_edge = {y: min(x for x, v in turned.exterior.coords if abs(v - y) < 1e-9) for y in (0.0, height)}
    gaps = {y: right_edge[y] - left_edge[y] for y in (0, height)}
    touch = min(gaps.values())
    bottom, top = gaps[0] - touch, gaps[height] - touch
    found = blade_lean(Estimate(height, 0.05), Estimate(top, 0.03), Estimate(bottom, 0.03))
    assert found.value == pytest.approx(lean, rel=1e-3)


def test_the_lean_counts_over_the_height_of_a_ring():
    blank = Blank(16, 8, 37.75, 10, 114.6)
    lean = blade_lean(Estimate(60, 0.5), Estimate(0.4, 0.03), None)
    assert over_ring(blank, lean).value == pytest.approx(0.4 / 120 * 75.5)
    assert over_ring(blank, lean).value > 0.1
    with pytest.raises(ValueError, match="no gap"):
        blade_lean(Estimate(60, 0.5), None, None)


def dry(blank: Blank) -> DryRing:
    return DryRing(blank.segments, blank.apothem - blank.core_apothem)


def ring_light(blank: Blank, tilt: float) -> tuple[float, float]:
    """Light at rim and core, all joints together, of segments drawn where a band pushes them."""
    n, mitre = blank.segments, blank.mitre
    touch = blank.core_apothem if tilt < 0 else blank.apothem  # the edge at which joints stay tight
    lights = []
    for at in (blank.apothem, blank.core_apothem):
        half = touch * math.tan(mitre) + (at - touch) * math.tan(mitre + tilt)
        corner = np.array(
            (at, half)
        )  # of one segment; its neighbour's is its mirror image in the joint's plane
        lights.append(n * 2 * abs(corner @ (-math.sin(mitre), math.cos(mitre))))
    return lights[0], lights[1]


def half_light(blank: Blank, tilt: float) -> tuple[float, float]:
    """Light at rim and core between a straight edge and both ends, joints tight."""
    lean = blank.segments * tilt / 2
    rise = dry(blank).length * math.sin(abs(lean))
    return (2 * rise, 0.0) if tilt < 0 else (0.0, 2 * rise)


tilts = st.floats(-0.004, 0.004).filter(lambda tilt: abs(tilt) > 2e-5)


@given(blanks(), tilts)
def test_both_ways_tell_the_tilt(blank: Blank, tilt: float):
    assume(blank.segments * abs(tilt) < 0.3)
    rim, core = (Estimate(light, 0.03) for light in ring_light(blank, tilt))
    assert tilt_from_ring(dry(blank), rim, core).value == pytest.approx(tilt, rel=0.02)
    rim, core = (Estimate(light, 0.03) for light in half_light(blank, tilt))
    assert tilt_from_half(dry(blank), rim, core).value == pytest.approx(tilt, rel=1e-6)


@given(blanks(), tilts, seeds)
def test_a_new_setting_leaves_no_more_than_the_feeler(blank: Blank, tilt: float, seed: int):
    noise = np.random.default_rng(seed)
    rim, core = ring_light(blank, tilt)
    read = [Estimate(max(0, light + np.clip(noise.normal(0, 0.015), -0.03, 0.03)), 0.03) if light > 1e-9 else None
            for light in (rim, core)]  # fmt: skip
    found = tilt_from_ring(dry(blank), *read)
    assume(found.sure)
    after = light_of(dry(blank), tilt - found.value)
    assert after < 0.035 + 0.02 * max(rim, core)


def test_no_light_was_read():
    blank = Blank(16, 8, 37.75, 10, 114.6)
    for way in (tilt_from_ring, tilt_from_half):
        with pytest.raises(ValueError, match="no gap"):
            way(dry(blank), None, None)
