"""Staves held against vectors, convex hulls and dense sampling."""

import math
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from geometry.blanks.staves import SLACK, SLICES, STEEPEST, StaveBand, blade_tilt, fit_staves, gauge_angle
from geometry.plane.edges import FloatArray

counts = st.integers(3, 32)
leans = st.floats(math.radians(-40), math.radians(40))


@st.composite
def bands(draw: st.DrawFn) -> StaveBand:
    """Whole bands: the inner face keeps off the axis at both ends."""
    count, lean = draw(counts), draw(leans)
    low, height = draw(st.floats(0.0, 50.0)), draw(st.floats(20.0, 150.0))
    thickness = draw(st.floats(5.0, 40.0))
    room = thickness / math.cos(lean) + max(0.0, -height * math.tan(lean))
    return StaveBand(count, low, low + height, lean, room + draw(st.floats(1.0, 100.0)), thickness)


def on_board(lean: float) -> FloatArray:
    """Rows: across the stave whose middle is at +x, up its middle line, out of its outer face."""
    s, c = math.sin(lean), math.cos(lean)
    return np.array(((0.0, 1.0, 0.0), (s, 0.0, c), (c, 0.0, -s)))


def ring_corners(apothem: float, count: int, z: float) -> FloatArray:
    """The n-gon's corners (n, 3); the first two are those of the side whose middle is at +x."""
    angles = math.pi / count * (2 * np.arange(count) - 1)
    radius = apothem / math.cos(math.pi / count)
    return np.column_stack((radius * np.cos(angles), radius * np.sin(angles), np.full(count, z)))


def stave_corners(band: StaveBand) -> FloatArray:
    """Eight corners of the stave at +x as (across, along, out) of its board."""
    faces = [(at(z), z) for z in (band.low, band.high) for at in (band.outer_at, band.inner_at)]
    corners = np.concatenate([ring_corners(apothem, band.count, z)[:2] for apothem, z in faces])
    return np.asarray(corners @ on_board(band.lean).T)


@given(leans, counts)
def test_the_saws_plane_is_the_joints(lean: float, count: int) -> None:
    mitre = math.pi / count
    tilt, gauge = blade_tilt(lean, mitre), gauge_angle(lean, mitre)
    # The board lies on its inner face. Across the cut, level; then the blade tilted under the outer face.
    level = np.array((math.cos(gauge), -math.sin(gauge), 0.0))
    saw = math.cos(tilt) * level - math.sin(tilt) * np.array((0.0, 0.0, 1.0))
    joint = np.array((-math.sin(mitre), math.cos(mitre), 0.0))
    assert saw @ on_board(lean) == pytest.approx(joint, abs=1e-12)


@given(bands())
def test_every_edge_of_a_stave_lies_in_its_joints_plane(band: StaveBand) -> None:
    corners = stave_corners(band)[1::2]  # the far end of each of four edges, as wide as half of the stave
    level = np.array((math.cos(band.gauge_angle), -math.sin(band.gauge_angle), 0.0))
    saw = math.cos(band.blade_tilt) * level - (0.0, 0.0, math.sin(band.blade_tilt))
    assert np.ptp(corners @ saw) < 1e-9


def test_an_upright_stave_is_cut_at_the_mitre_and_square() -> None:
    assert blade_tilt(0.0, math.pi / 8) == pytest.approx(math.pi / 8)
    assert gauge_angle(0.0, math.pi / 8) == 0.0


def test_a_stave_that_narrows_upward_tapers_the_other_way() -> None:
    lean, mitre = math.radians(20), math.pi / 12
    assert gauge_angle(-lean, mitre) == -gauge_angle(lean, mitre) < 0
    assert blade_tilt(-lean, mitre) == blade_tilt(lean, mitre) > 0


@given(bands())
def test_the_stave_just_fits_its_board(band: StaveBand) -> None:
    across, along, out = np.ptp(stave_corners(band), axis=0)
    assert band.stock_width == pytest.approx(across)
    assert band.stock_length == pytest.approx(along)
    assert band.thickness == pytest.approx(out)


@given(bands())
def test_the_faces_are_as_wide_and_long_as_their_corners_are_apart(band: StaveBand) -> None:
    corners = stave_corners(band).reshape(2, 2, 2, 3)  # end, outer or inner, side
    widths = np.linalg.norm(corners[:, :, 1] - corners[:, :, 0], axis=-1)
    for end, z in zip(widths, (band.low, band.high), strict=True):
        inner = band.outer_width(z) * band.inner_at(z) / band.outer_at(z)
        assert (band.outer_width(z), inner) == pytest.approx(tuple(end))
    middles = corners.mean(axis=2)
    assert band.slant_length == pytest.approx(np.linalg.norm(middles[1, 0] - middles[0, 0]))


@given(bands())
def test_the_volume_is_that_of_two_hulls(band: StaveBand) -> None:
    ends = (band.low, band.high)
    outer = np.concatenate([ring_corners(band.outer_at(z), band.count, z) for z in ends])
    inner = np.concatenate([ring_corners(band.inner_at(z), band.count, z) for z in ends])
    assert band.volume == pytest.approx(ConvexHull(outer).volume - ConvexHull(inner).volume, rel=1e-9)


@dataclass(frozen=True, eq=False)
class Wall:
    """Straight from height to height, so that its extremes lie at these or at the ends of a span."""

    z: FloatArray
    inner: FloatArray
    outer: FloatArray

    def needs(self, low: float, high: float) -> tuple[float, float]:
        z = np.concatenate(((low, high), self.z[(self.z > low) & (self.z < high)]))
        return (float(np.interp(z, self.z, self.inner).min()), float(np.interp(z, self.z, self.outer).max()))

    def fitted(self, count: int) -> StaveBand:
        return fit_staves(self.needs, float(self.z[0]), float(self.z[-1]), count)

    def thickness(self, lean: float, mitre: float) -> float:
        """Of the thinnest staves of one lean; infinite where they come within a slice's slant of the axis."""
        rise = self.z * math.tan(lean)
        outer, inner = (self.outer - rise).max(), (self.inner * math.cos(mitre) - rise).min()
        near = inner + rise[[0, -1]].min() < abs(rise[-1] - rise[0]) / SLICES
        return math.inf if near else float(outer - inner) * math.cos(lean)


@st.composite
def walls(draw: st.DrawFn) -> Wall:
    """Five corners or a curve of forty chords; leaning, bellied or waisted."""
    height, lean = draw(st.floats(10.0, 150.0)), draw(st.floats(-1.2, 1.2))
    knots = np.linspace(0.0, 1.0, draw(st.sampled_from((5, 40))))
    bend = draw(st.floats(-40.0, 40.0)) * np.sin(np.pi * knots) + draw(st.floats(-9.0, 9.0)) * np.cos(
        9 * knots
    )
    shape = lean * height * knots + bend
    inner = shape - shape.min() + draw(st.floats(5.0, 60.0))
    thick = draw(st.floats(3.0, 60.0)) + draw(st.floats(0.0, 10.0)) * knots**2
    return Wall(10.0 + height * knots, inner, inner + thick)


@given(walls(), counts)
def test_the_staves_hold_the_whole_wall(wall: Wall, count: int) -> None:
    band = wall.fitted(count)
    normals = 2 * np.pi / count * np.arange(count)
    turns = np.linspace(0.0, 2 * np.pi / count, 41)  # one stave's share, from a middle to the next
    reach = np.cos(turns[:, None] - normals).max(
        axis=1
    )  # distance of the unit circle along its nearest normal
    assert reach.min() == pytest.approx(math.cos(math.pi / count))
    for z in np.union1d(np.linspace(band.low, band.high, 301), wall.z):
        least, largest = wall.needs(z, z)
        assert (largest * reach).max() <= band.outer_at(z) + 1e-9
        assert (least * reach).min() >= band.inner_at(z) - 1e-9


@given(walls(), counts)
def test_no_lean_gives_thinner_staves(wall: Wall, count: int) -> None:
    band = wall.fitted(count)
    mitre = math.pi / count
    thinnest = min(wall.thickness(lean, mitre) for lean in np.linspace(-STEEPEST, STEEPEST, 721))
    assert band.thickness <= thinnest + 2 * SLACK
    assert abs(band.lean) <= STEEPEST + 1e-12
    assert min(band.inner_at(band.low), band.inner_at(band.high)) >= -1e-9


def test_of_two_leans_that_are_nearly_as_good_the_better_is_found() -> None:
    # Slices cost the steeper lean more until they are thin; the other must not be taken for that.
    inner = np.array((306.0, 200.0, 279.0, 293.0))
    wall = Wall(np.array((0.0, 60.0, 140.0, 200.0)), inner, inner + 121.8)
    flatter, steeper = (wall.thickness(math.radians(lean), math.pi / 12) for lean in (-3.726, 32.691))
    assert steeper < flatter < steeper + 1.0
    assert math.degrees(wall.fitted(12).lean) == pytest.approx(32.691, abs=0.1)


def test_a_low_thick_wall_leans_as_far_as_it_may() -> None:
    # Its section's diagonal, not its width, is what leaning staves must be as thick as: no edge of it says so.
    band = fit_staves(lambda low, high: (80.0, 180.0), 0.0, 20.0, 12)
    assert abs(band.lean) == pytest.approx(STEEPEST)
    assert band.thickness < 180.0 - 80.0 * math.cos(math.pi / 12)


def test_a_round_wall_wants_upright_staves_as_thick_as_its_corners() -> None:
    band = fit_staves(lambda low, high: (40.0, 50.0), 5.0, 85.0, 8)
    assert (band.count, band.low, band.high, band.lean) == (8, 5.0, 85.0, 0.0)
    assert band.outer_low == pytest.approx(50.0)
    assert band.thickness == pytest.approx(50.0 - 40.0 * math.cos(math.pi / 8))


@pytest.mark.parametrize("slope", [-0.6, -0.1, 0.3, 0.9])
def test_a_cone_of_many_staves_leans_as_its_wall(slope: float) -> None:
    wall = Wall(
        np.array((0.0, 100.0)), np.array((90.0, 90.0 + 100 * slope)), np.array((98.0, 98.0 + 100 * slope))
    )
    band = wall.fitted(200)
    assert math.tan(band.lean) == pytest.approx(slope, abs=2e-3)
    assert band.thickness == pytest.approx(8.0 * math.cos(band.lean), abs=2 * SLACK + 0.03)


def test_no_stave_leans_more_than_a_saw_tilts() -> None:
    flat = Wall(np.array((0.0, 20.0)), np.array((50.0, 150.0)), np.array((55.0, 155.0)))
    assert flat.fitted(12).lean == pytest.approx(STEEPEST)


def test_a_wall_that_reaches_the_axis_is_refused_with_its_height() -> None:
    with pytest.raises(ValueError, match=r"from 0 to 60 mm from the axis at height 50"):
        fit_staves(lambda low, high: (0.0 if high > 50.0 else 30.0, 60.0), 0.0, 100.0, 12)


def test_a_largest_radius_below_the_least_is_refused() -> None:
    with pytest.raises(ValueError, match="from 30 to 20 mm"):
        fit_staves(lambda low, high: (30.0, 20.0), 0.0, 100.0, 12)


@pytest.mark.parametrize(("low", "high", "count"), [(0.0, 50.0, 2), (50.0, 50.0, 12), (60.0, 50.0, 12)])
def test_two_staves_or_no_height_are_refused(low: float, high: float, count: int) -> None:
    with pytest.raises(ValueError, match="needs 3 or more"):
        fit_staves(lambda low, high: (30.0, 40.0), low, high, count)


@given(st.floats(-0.4, 0.4), st.floats(0, 4), st.floats(0, 1))
def test_a_band_that_is_grown_for_flattening_has_the_same_faces(lean, more, share):
    band = StaveBand(16, 20.0, 90.0, lean, 80.0, 14.0)
    grown = band.grown(more)
    assert grown.height == pytest.approx(band.height + more)
    z = band.low + share * band.height
    assert grown.outer_at(z) == pytest.approx(band.outer_at(z))
    assert grown.inner_at(z) == pytest.approx(band.inner_at(z))
