import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.plane.edges import bulge_from_angle
from geometry.plane.sample import chord_counts, sample, sample_with_counts
from geometry.readback.measure import (
    edge_angle,
    edge_gap,
    edge_length,
    extent,
    hole_diameter,
    radius_at,
    straight_edge,
)
from tests.geometry.shapes import angles, contours, lengths, rotated


def as_mesh(c: Contour, deviation: float = 0.01, split: int = 1) -> Contour:
    """A contour as a mesh's bottom face gives it back: chords (straight edges split), single precision."""
    counts = np.where(c.vertices[:, 2] == 0.0, split, chord_counts(c, deviation))
    return polygon(sample_with_counts(c, counts).astype(np.float32))


def cheek(radius: float, first: float, sweep: float, centre: tuple[float, float]) -> Contour:
    """A plate with one working arc about `centre`, its back 20 mm outside it."""
    turned = np.array((first + sweep, first))
    inner = centre + radius * np.column_stack((np.cos(turned), np.sin(turned)))
    outer = centre + (radius + 20.0) * np.column_stack((np.cos(turned), np.sin(turned)))
    rows = [(*inner[0], bulge_from_angle(-sweep)), (*inner[1], 0.0)]
    rows += [(*outer[1], bulge_from_angle(sweep)), (*outer[0], 0.0)]
    return Contour(np.array(rows))


@given(st.floats(5.0, 200.0), angles, st.floats(0.8, 5.8), lengths, lengths)
def test_an_exact_arc_measures_exactly(radius: float, first: float, sweep: float, x: float, y: float) -> None:
    c = cheek(radius, first, sweep, (x, y))
    fit = radius_at([c], (x, y), first, first + sweep, radius)
    assert fit.radius == pytest.approx(radius, rel=1e-9)
    assert fit.worst < 1e-9


@given(st.floats(5.0, 200.0), angles, st.floats(0.8, 5.8), lengths, lengths)
def test_a_sampled_arc_measures_within_its_deviation(
    radius: float, first: float, sweep: float, x: float, y: float
) -> None:
    fit = radius_at([as_mesh(cheek(radius, first, sweep, (x, y)))], (x, y), first, first + sweep, radius)
    assert 0.003 < fit.worst < 0.0101
    assert fit.radius == pytest.approx(radius, abs=0.004)


@given(st.floats(10.0, 100.0), angles, st.floats(-0.15, 0.15))
def test_an_arc_of_another_size_shows(radius: float, first: float, larger: float) -> None:
    c = cheek(radius + larger, first, math.pi, (0.0, 0.0))
    fit = radius_at([c], (0.0, 0.0), first, first + math.pi, radius)
    assert fit.radius == pytest.approx(radius + larger)
    assert fit.worst == pytest.approx(abs(larger), abs=1e-9)


@given(st.floats(10.0, 100.0), angles, st.floats(0.0, 0.15), angles)
def test_an_arc_in_another_place_shows(radius: float, first: float, off: float, way: float) -> None:
    c = cheek(radius, first, math.pi, (off * math.cos(way), off * math.sin(way)))
    fit = radius_at([c], (0.0, 0.0), first, first + math.pi, radius)
    assert 0.7 * off - 1e-9 <= fit.worst <= off + 1e-9


def test_a_chord_too_long_for_the_tolerance_shows_in_its_middle() -> None:
    c = cheek(38.0, 0.0, math.pi, (0.0, 0.0))
    coarse = polygon(sample_with_counts(c, [40, 1, 40, 1]))
    on_curve = np.hypot(*coarse.points[:41].T)
    inscribed = polygon(
        coarse.points * np.where(np.arange(len(coarse)) < 41, 38.0 / np.hypot(*coarse.points.T), 1.0)[:, None]
    )
    assert np.abs(on_curve - 38.0).max() > 0.01
    fit = radius_at([inscribed], (0.0, 0.0), 0.0, math.pi, 38.0)
    assert fit.worst == pytest.approx(38.0 * (1.0 - math.cos(math.pi / 80.0)), rel=0.1)


def test_a_sector_measures_that_part_of_a_longer_arc() -> None:
    fit = radius_at([circle((5.0, 6.0), 30.0)], (5.0, 6.0), -0.5, 1.0, 30.0)
    assert fit.radius == pytest.approx(30.0)


def test_the_straight_side_that_closes_a_half_disc_does_not_count() -> None:
    half = Contour(np.array(((30.0, 0.0, 1.0), (-30.0, 0.0, 0.0))))
    assert radius_at([half, circle((0.0, 10.0), 3.0)], (0.0, 0.0), 0.0, math.pi, 30.0).worst < 1e-9


def test_an_arc_that_is_not_there_is_refused() -> None:
    quarter = cheek(30.0, 0.0, math.pi / 2, (0.0, 0.0))
    with pytest.raises(ValueError, match="fills only"):
        radius_at([quarter], (0.0, 0.0), 0.0, math.pi, 30.0)
    with pytest.raises(ValueError, match="fills only 0 of 90"):
        radius_at([quarter], (0.0, 0.0), 0.0, math.pi / 2, 25.0)
    with pytest.raises(ValueError, match="fills only 0"):
        radius_at([], (0.0, 0.0), 0.0, 1.0, 30.0)


@given(st.floats(3.0, 170.0), angles, st.integers(1, 5), st.booleans())
def test_the_angle_of_a_wedge_is_measured(degrees: float, turned: float, split: int, mesh: bool) -> None:
    wedge = math.radians(degrees)
    tip = (120.0 * math.cos(wedge), 120.0 * math.sin(wedge))
    c = rotated(polygon([(0.0, 0.0), (150.0, 0.0), tip]), turned)
    p, q = c.edges()[0].midpoint, c.edges()[2].midpoint
    read = as_mesh(c, split=split) if mesh else c
    assert edge_angle([read], p, q) == pytest.approx(wedge, abs=2e-6 if mesh else 1e-12)


def test_the_angle_is_seen_towards_the_points() -> None:
    cross = polygon([(-10.0, 0.0), (10.0, 0.0), (16.0, 8.0), (-16.0, 8.0)])
    slope = math.atan2(8.0, 6.0)
    assert edge_angle([cross], (0.0, 0.0), (13.0, 4.0)) == pytest.approx(math.pi - slope)
    assert edge_angle([cross], (0.0, 8.0), (13.0, 4.0)) == pytest.approx(slope)


def test_lines_that_cross_outside_both_edges_make_an_angle_too() -> None:
    blunt = polygon([(10.0, 0.0), (60.0, 0.0), (60.0, 30.0), (20.0, 10.0)])
    assert edge_angle([blunt], (30.0, 0.0), (40.0, 20.0)) == pytest.approx(math.atan2(1.0, 2.0))


def test_parallel_edges_make_no_angle() -> None:
    with pytest.raises(ValueError, match="parallel"):
        edge_angle([rectangle(0.0, 0.0, 4.0, 3.0)], (2.0, 0.0), (2.0, 3.0))


@given(st.floats(5.0, 300.0), st.floats(5.0, 300.0), angles, lengths, st.integers(1, 7), st.integers(0, 3))
def test_gap_and_length_of_a_rectangle_are_its_sides(
    w: float, h: float, turned: float, shift: float, split: int, first: int
) -> None:
    c = rotated(rectangle(0.0, 0.0, w, h), turned).moved(shift, -shift)
    low, _, high, left = (edge.midpoint for edge in c.edges())
    read = as_mesh(Contour(np.roll(c.vertices, first, axis=0)), split=split)
    read = Contour(np.roll(read.vertices, first, axis=0))  # the loop may start in the middle of a side
    assert edge_length([read], low) == pytest.approx(w, abs=2e-4)
    assert edge_gap([read], low, high) == pytest.approx(h, abs=2e-4)
    assert edge_gap([read], left, low) == pytest.approx(w / 2.0, abs=2e-4)


def test_the_nearest_edge_of_all_contours_is_the_one_measured() -> None:
    plate, window = rectangle(0.0, 0.0, 100.0, 50.0), rectangle(40.0, 20.0, 60.0, 30.0).cw()
    assert edge_length([plate, window], (50.0, 22.0)) == 20.0
    assert edge_length([window, plate], (50.0, 3.0)) == 100.0
    assert edge_gap([plate, window], (50.0, 0.0), (50.0, 20.0)) == 20.0


def test_the_chords_of_an_arc_beside_a_straight_edge_are_not_part_of_it() -> None:
    rounded = Contour(np.array(((0, 0, 0), (30, 0, 1.0), (30, 40, 0), (0, 40, 0)), dtype=float))
    assert edge_length([as_mesh(rounded, 0.002, 4)], (15.0, 0.0)) == pytest.approx(30.0, abs=1e-5)
    run = straight_edge([rounded], (31.0, 0.0))
    assert run.start == (0.0, 0.0)
    assert run.end == (30.0, 0.0)


def test_an_edge_that_turns_back_is_not_one_with_the_one_before() -> None:
    spike = polygon([(0.0, 0.0), (10.0, 0.0), (6.0, 0.0), (6.0, 5.0)])
    assert edge_length([spike], (2.0, -0.1)) == 10.0


@given(contours(), st.integers(0, 3))
def test_every_straight_edge_of_a_contour_is_found_by_its_middle(c: Contour, split: int) -> None:
    read = as_mesh(c, split=split + 1)
    straight = [edge for edge in c.edges() if not edge.is_arc]
    turns = [abs(edge.heading(0.0)) for edge in straight]
    assume(all(turn_at_ends(c, k) for k in range(len(c))) and len(turns) > 0)
    for edge in straight:
        assert edge_length([read], edge.midpoint) == pytest.approx(edge.length, abs=1e-4)


def turn_at_ends(c: Contour, k: int) -> bool:
    a, b = c.edges()[k - 1], c.edges()[k]
    return abs((b.heading(0.0) - a.heading(1.0) + math.pi) % (2 * math.pi) - math.pi) > 0.2


@given(st.floats(0.5, 40.0), lengths, lengths, st.booleans())
def test_a_hole_is_measured_among_other_holes(radius: float, x: float, y: float, mesh: bool) -> None:
    plate = rectangle(-200.0, -200.0, 200.0, 200.0)
    holes = [circle((x, y), radius).cw(), circle((x + 2.0 * radius + 1.0, y), radius / 2.0).cw()]
    read = [as_mesh(c) for c in (plate, *holes)] if mesh else [plate, *holes]
    found = hole_diameter(read, (x + 0.1 * radius, y))
    assert found == pytest.approx(2.0 * radius, abs=0.01 if mesh else 1e-9)


def test_where_there_is_no_round_hole_none_is_measured() -> None:
    plate = rectangle(0.0, 0.0, 40.0, 40.0)
    with pytest.raises(ValueError, match="no round hole"):
        hole_diameter([plate], (20.0, 20.0))
    with pytest.raises(ValueError, match="nothing surrounds"):
        hole_diameter([plate], (50.0, 20.0))


def test_extent_is_over_all_contours_and_their_arcs() -> None:
    both = [circle((0.0, 0.0), 5.0), rectangle(2.0, 1.0, 9.0, 2.0)]
    assert extent(both, "x") == pytest.approx(14.0)
    assert extent(both, "y") == pytest.approx(10.0)
    assert extent([polygon(sample(both[0], 0.01))], "x") == pytest.approx(10.0, abs=0.02)


def test_nothing_cannot_be_measured() -> None:
    with pytest.raises(ValueError, match="nothing to measure"):
        extent([], "x")
    with pytest.raises(ValueError, match="no straight edge"):
        edge_length([circle((0.0, 0.0), 5.0)], (5.0, 0.0))
    with pytest.raises(ValueError, match="no straight edge"):
        edge_length([], (5.0, 0.0))
