import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.contour import Contour, FloatArray, circle, polygon, rectangle
from geometry.plane.edges import bulge_from_angle
from geometry.plane.sample import chord_counts, sample, sample_with_counts
from tests.geometry.shapes import contours
from tests.geometry.validity import problems

radii = st.floats(0.5, 2000.0)
firsts = st.floats(0.0, 6.3)
sweeps = st.one_of(st.floats(0.001, 6.2), st.floats(-6.2, -0.001))
deviations = st.floats(1e-4, 1.0)


def arc_and_chord(radius: float, first: float, sweep: float) -> Contour:
    """An arc about the origin and the straight way back."""
    turned = np.array((first, first + sweep))
    bulges = bulge_from_angle(sweep), 0.0
    return Contour(np.column_stack((radius * np.cos(turned), radius * np.sin(turned), bulges)))


def sampled_arc(contour: Contour, deviation: float) -> FloatArray:
    """The vertices of edge 0 with both its ends."""
    chords = chord_counts(contour, deviation)[0]
    return sample(contour, deviation)[: chords + 1]


@given(radii, firsts, sweeps, deviations)
def test_vertices_and_whole_chords_stay_within_the_deviation(
    radius: float, first: float, sweep: float, deviation: float
) -> None:
    vertices = sampled_arc(arc_and_chord(radius, first, sweep), deviation)
    along = np.linspace(0.0, 1.0, 25)[:, None, None]
    chords = vertices[:-1] + along * np.diff(vertices, axis=0)
    off = np.abs(np.hypot(chords[..., 0], chords[..., 1]) - radius)
    assert off.max() <= deviation * (1.0 + 1e-6) + 1e-12 * radius


@given(radii, firsts, sweeps, deviations)
def test_the_ends_of_arcs_stay_exact(radius: float, first: float, sweep: float, deviation: float) -> None:
    c = arc_and_chord(radius, first, sweep)
    vertices = sampled_arc(c, deviation)
    assert np.array_equal(vertices[[0, -1]], c.points)


@given(radii, firsts, st.floats(0.5, 6.2))
def test_the_chords_of_one_arc_use_the_deviation_on_both_sides(
    radius: float, first: float, sweep: float
) -> None:
    deviation = 1e-4 * radius
    vertices = sampled_arc(arc_and_chord(radius, first, sweep), deviation)
    out = np.hypot(*vertices[1:-1].T) - radius
    middles = np.hypot(*((vertices[1:-2] + vertices[2:-1]) / 2.0).T) - radius
    assert np.allclose(out, out[0], atol=1e-9 * radius)
    assert np.allclose(middles, -out[0], rtol=1e-3)
    assert out[0] > 0.6 * deviation


def test_sharing_the_deviation_takes_seven_tenths_of_the_chords_of_an_inscribed_polygon() -> None:
    half_turn = arc_and_chord(38.0, 0.0, math.pi)
    inscribed = math.ceil(math.pi / (2.0 * math.acos(1.0 - 0.01 / 38.0)))
    assert inscribed == 69
    assert chord_counts(half_turn, 0.01).tolist() == [math.ceil(inscribed / math.sqrt(2.0)), 1]


@given(contours(), st.floats(0.001, 0.05))
def test_a_sampled_contour_stays_simple_and_keeps_its_area(c: Contour, deviation: float) -> None:
    p = polygon(sample(c, deviation))
    assert not problems(p)
    assert p.area == pytest.approx(c.area, abs=deviation * c.length)


@given(contours(), st.integers(1, 20))
def test_given_counts_are_kept_and_vertices_stay_in_place(c: Contour, chords: int) -> None:
    counts = np.arange(len(c)) % 3 + chords
    vertices = sample_with_counts(c, counts)
    starts = np.cumsum(counts) - counts
    assert len(vertices) == counts.sum()
    assert np.array_equal(vertices[starts], c.points)


def test_straight_edges_are_split_evenly_when_told_to() -> None:
    vertices = sample_with_counts(rectangle(0.0, 0.0, 6.0, 4.0), [3, 1, 2, 1])
    assert vertices == pytest.approx(
        np.array([(0, 0), (2, 0), (4, 0), (6, 0), (6, 4), (3, 4), (0, 4)], dtype=float)
    )


def test_straight_edges_are_left_whole() -> None:
    square = rectangle(0.0, 0.0, 4.0, 4.0)
    assert np.array_equal(sample(square, 0.01), square.points)


def test_the_coarsest_circle_still_has_an_inside() -> None:
    assert polygon(sample(circle((0.0, 0.0), 1.0), 100.0)).area == pytest.approx(math.pi, rel=0.1)


def test_the_samples_of_a_contour_run_the_other_way_are_the_same_places() -> None:
    c = circle((1.0, 2.0), 10.0)
    there, back = sample(c, 0.01), sample(c.reversed(), 0.01)
    assert np.abs(there[:, None] - back).sum(axis=-1).min(axis=1).max() < 1e-9


def test_what_cannot_be_sampled_is_refused() -> None:
    c = circle((0.0, 0.0), 1.0)
    for deviation in (0.0, -1.0, math.nan):
        with pytest.raises(ValueError, match="deviation"):
            sample(c, deviation)
    for counts in ([3], [3, 0], [1, 2, 3]):
        with pytest.raises(ValueError, match="2 edges"):
            sample_with_counts(c, counts)
