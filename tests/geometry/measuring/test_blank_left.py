"""The torus that a measured blank holds, against points on it."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.bodies.torus import Blank, flat_normals
from geometry.bodies.tube import tube_of
from geometry.measuring.blank_left import BlankMeasured, apothems, largest_torus, margin, thickest_at
from tests.geometry.tori_blanks import blanks


def as_planned(blank: Blank) -> BlankMeasured:
    c = math.cos(blank.half_wedge)
    return BlankMeasured(2 * blank.outer_radius, 2 * blank.inner_radius / c, 2 * blank.apothem)


def least_wood(blank: Blank, wood: np.ndarray, major: float, tube: float) -> float:
    """By points all over one ring's slice of the torus."""
    phi = np.linspace(-blank.half_wedge, blank.half_wedge, 41)[:, None]
    theta = np.linspace(0, 2 * math.pi, 721)[None, :]
    x = (major + tube * np.cos(theta)) * np.cos(phi) - blank.centre
    z = tube * np.sin(theta) * np.ones_like(phi)
    return min(
        float((apothem - (x * math.cos(a) + z * math.sin(a))).min())
        for a, apothem in zip(flat_normals(blank.segments), wood, strict=True)
    )


@given(blanks(), st.floats(0, 2), st.floats(0, 2), st.floats(0, 2), st.floats(0, 1))
def test_the_largest_torus_fits_and_none_larger_does(
    blank: Blank, rim: float, hole: float, top: float, offset: float
):
    assume(blank.inner_radius > 4)
    plan = as_planned(blank)
    read = BlankMeasured(plan.across - rim, plan.hole + hole, plan.height - top, offset)
    wood = apothems(blank, read)
    major, tube = largest_torus(blank, wood)
    assume(tube > 0)
    assert least_wood(blank, wood, major, tube) == pytest.approx(0, abs=2e-3 * tube)
    assert float(margin(blank, wood, major, tube_of(tube)).min()) == pytest.approx(0, abs=1e-6)
    for other in np.linspace(major - 1, major + 1, 5):
        assert thickest_at(blank, wood, float(other)) <= tube + 1e-6


@given(blanks())
def test_a_blank_as_planned_has_its_planned_apothems(blank: Blank):
    assume(blank.inner_radius > 1)
    assert apothems(blank, as_planned(blank)) == pytest.approx(np.full(blank.segments, blank.apothem))
