"""Truing halves, by cutting them with planes; and the torus that has to fit what is left."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.blanks.sawing import wedge_ring_cut
from geometry.blanks.truing import (
    Trued,
    end_wedge,
    half_ends,
    half_error,
    largest_error,
    to_line,
    until_clean,
    wood_left,
)
from geometry.bodies.torus import Blank, flat_normals, least_apothem, least_wood
from geometry.bodies.tube import tube_of


@st.composite
def blanks(draw: st.DrawFn) -> Blank:
    n, apothem = draw(st.sampled_from((6, 8, 10, 12))), draw(st.floats(15.0, 50.0))
    centre = draw(st.floats(1.3, 5.0)) * apothem / math.cos(math.pi / n)
    return Blank(2 * draw(st.integers(3, 20)), n, apothem, 5.0, centre)


errors = st.floats(-0.02, 0.02).filter(lambda error: abs(error) > 1e-4)
spares = st.sampled_from((0.0, 0.3, 0.5, 1.5))


def end_face(blank: Blank, error: float, spare: float) -> np.ndarray:
    """The face at +x of a half that spans pi + error, hole then rim, as points (2, 2)."""
    turn = -error / 2
    c = math.cos(blank.half_wedge)
    along = np.array((math.cos(turn), math.sin(turn)))
    out = np.array((along[1], -along[0]))  # out of the half, square to the face
    return np.array([blank.inner_radius / c * along, blank.outer_radius / c * along]) + spare * out


def end_piece(face: np.ndarray) -> shapely.Polygon:
    """The wood behind the face, as a bar that is long enough."""
    along = (face[1] - face[0]) / np.hypot(*(face[1] - face[0]))
    back = 30 * np.array((-along[1], along[0]))
    return shapely.Polygon([face[0], face[1], face[1] + back, face[0] + back])


@given(blanks(), errors, spares)
def test_until_clean_is_the_first_plane_that_meets_wood_from_hole_to_rim(
    blank: Blank, error: float, spare: float
) -> None:
    face, trued = end_face(blank, error, spare), until_clean(blank, error, spare)
    piece = end_piece(face)
    inner, outer = face[:, 0] + np.array((-60, 60))

    def whole(y: float) -> bool:
        cut = shapely.intersection(piece, shapely.LineString([(inner, y), (outer, y)]))
        return cut.length > (face[1, 0] - face[0, 0]) * 0.999

    assert whole(trued.shift + 1e-3)
    assert not whole(trued.shift - 0.01 * trued.most - 1e-6)
    assert (trued.inner, trued.outer) == pytest.approx(trued.shift - face[:, 1], abs=1e-9)


@given(blanks(), errors)
def test_what_comes_off_is_as_the_formulas_for_small_angles(blank: Blank, error: float) -> None:
    trued, c = until_clean(blank, error), math.cos(blank.half_wedge)
    assert trued.most == pytest.approx(2 * blank.half_width / c * abs(error) / 2, rel=1e-3)
    assert min(trued.inner, trued.outer) == pytest.approx(0, abs=1e-9)
    radius = blank.outer_radius if error < 0 else blank.inner_radius
    assert abs(trued.shift) == pytest.approx(radius / c * abs(error) / 2, rel=1e-3)
    assert (trued.shift > 0) == (error < 0)


def test_a_half_has_half_the_rings_errors() -> None:
    blank = Blank(18, 8, 30.0, 5.0, 100.0)
    assert half_error(blank, 0.001) == pytest.approx(9 * 0.001)


@given(blanks(), errors, spares)
def test_sanding_to_the_line_never_stops_before_it_and_leaves_no_hollow(
    blank: Blank, error: float, spare: float
) -> None:
    trued = to_line(blank, error, spare)
    assert trued.shift >= 0
    assert min(trued.inner, trued.outer) >= -1e-12
    assert trued.shift == 0 or min(trued.inner, trued.outer) == pytest.approx(0, abs=1e-12)


def test_spare_wood_takes_a_short_half_to_its_line_at_no_loss() -> None:
    blank = Blank(18, 8, 30.0, 5.0, 100.0)
    assert to_line(blank, -math.radians(0.3), 0.5).shift == 0
    assert to_line(blank, -math.radians(0.3), 0.0).shift > 0.3


@given(
    st.floats(60.0, 200.0),
    st.floats(0.15, 0.45),
    st.floats(2.0, 5.0),
    st.integers(3, 16),
    st.sampled_from((6, 8, 10, 12)),
    st.floats(-1.5, 1.5),
)
def test_the_finished_form_lies_inside_a_half_whose_plane_has_moved(
    major: float, ratio: float, allowance: float, halves: int, n: int, shift: float
) -> None:
    tube = major * ratio
    assume(tube + allowance < 0.9 * major)
    apothem, centre = least_apothem(major, tube_of(tube + allowance), 2 * halves, n)
    blank = Blank(2 * halves, n, apothem, 5.0, centre)
    left = wood_left(least_wood(blank, major, tube_of(tube)), Trued(0.0, 0.0, shift))
    assert depth(blank, major, tube, shift) >= left - 1e-6


def depth(blank: Blank, major: float, tube: float, shift: float) -> float:
    """Least distance of the half torus, moved into the half, from the flats of the ring where it lies."""
    theta, phi = np.meshgrid(np.linspace(0, 2 * np.pi, 90), np.linspace(0, np.pi, 181))
    radius, z = major + tube * np.cos(theta), tube * np.sin(theta)
    x, y = radius * np.cos(phi), radius * np.sin(phi) + shift
    w = blank.half_wedge
    ring = np.clip(np.floor(np.arctan2(np.maximum(y, 0.0), x) / (2 * w)), 0, blank.wedge_rings / 2 - 1)
    middle = (2 * ring + 1) * w
    radial = x * np.cos(middle) + y * np.sin(middle) - blank.centre
    normals = flat_normals(blank.segments)
    reach = radial[..., None] * np.cos(normals) + z[..., None] * np.sin(normals)
    return float(blank.apothem - reach.max())


@given(blanks(), st.floats(1.0, 5.0), spares)
def test_the_largest_error_eats_exactly_the_wood_there_is(blank: Blank, wood: float, spare: float) -> None:
    worst = largest_error(blank, wood, spare)
    assert wood_left(wood, to_line(blank, -worst, spare)) == pytest.approx(0, abs=1e-9)


@given(blanks(), st.floats(2.5, 6.0), st.sampled_from((0.2, 0.5, 1.0)))
def test_the_end_wedge_leaves_the_spare_square_to_the_face(
    blank: Blank, clean_up: float, spare: float
) -> None:
    assume(blank.thin_edge > 2)
    cut = wedge_ring_cut(blank, clean_up, 0.1)

    def thick_edge(at_stop: float) -> float:
        """Second cut: the ring's cut face on the wedge, its outer flat at the stop, the blade beyond."""
        return cut.gap(cut.stop) - at_stop

    more = thick_edge(end_wedge(cut.wedge_at_stop, cut.half_wedge, spare)) - thick_edge(cut.wedge_at_stop)
    assert more * math.cos(cut.half_wedge) == pytest.approx(spare)


@given(half=st.integers(3, 24))
def test_the_ends_of_halves_are_the_faces_that_meet_none_of_their_own_half(half):
    halves = (range(1, half + 1), range(half + 1, 2 * half + 1))
    free = {
        (ring, face)
        for rings in halves
        for ring in rings
        for face, beside in ((1, ring - 1), (2, ring + 1))
        if beside not in rings
    }
    assert set(half_ends(2 * half).items()) == free
