import math

import numpy as np
import pytest

from geometry.bodies.torus import bevel_needed
from geometry.lathe.inside_reach import beyond_back, neck, reach, riding_radius
from geometry.plane.profile import profile

TUB = profile((0.0, 5.0), (40.0, 5.0), (40.0, 60.0))
FLASK = profile((0.0, 5.0), (30.0, 5.0), (50.0, 40.0), (30.0, 70.0), (30.0, 90.0))


def inward(hollow, distance):
    moved = hollow.beside(-distance)
    return moved.spanning(moved.bottom, hollow.top)


def test_a_straight_tub_is_reached_down_to_its_floor_with_the_back_on_the_axis():
    edge = inward(TUB, 0.1)
    found = reach(TUB, edge, 2.0, 12.0)
    assert (found.low, found.back) == (pytest.approx(5.1), 0.0)
    assert found.width == pytest.approx(39.9)


def test_a_flask_keeps_the_back_so_far_off_that_it_passes_the_neck_when_moved_over():
    """Worked by hand: belly 49.9 past a neck of 30 with 2 of play: moved 21.9, its back at 2 + 21.9 - 30."""
    edge = inward(FLASK, 0.1)
    found = reach(FLASK, edge, 2.0, 12.0)
    belly = edge.radii(edge.bottom, edge.top)[1]
    moved = belly - 30.0 + 2.0
    assert found.low == pytest.approx(edge.bottom)
    assert found.back == pytest.approx(max(0.0, 2.0 + moved - 30.0), abs=0.01)
    assert found.width == pytest.approx(29.9 - found.back, abs=0.01)


def test_the_back_of_a_thick_plate_meets_the_neck_with_its_arrises():
    flask = profile((0.0, 5.0), (30.0, 5.0), (50.0, 40.0), (26.0, 70.0), (26.0, 90.0))
    thin, thick = (reach(flask, inward(flask, 0.1), 2.0, 12.0, plate).back for plate in (0.0, 24.0))
    assert thin > 0
    assert thick - thin == pytest.approx(26.0 - math.sqrt(26.0**2 - 12.0**2), abs=0.01)


@pytest.mark.parametrize("neck", [14.0, 18.0, 22.0, 24.0])
def test_a_narrow_neck_lets_a_stiff_plate_only_so_deep(neck):
    hollow = profile((0.0, 5.0), (30.0, 5.0), (60.0, 40.0), (neck, 70.0), (neck, 90.0))
    edge = inward(hollow, 0.1)
    found = reach(hollow, edge, 2.0, 12.0)
    assert 5.2 < found.low < 70.0
    assert found.width >= 12.0
    # As deep as can be: a little deeper the belly is wider, and the neck of the plate too narrow.
    wider = edge.radius_at(found.low - 0.5)
    back = 2.0 + (wider - neck + 2.0) - neck
    assert neck - 0.1 - max(back, -24.0 + neck - 0.1) < 12.0


def test_a_neck_is_the_narrowest_place_over_a_wider_one():
    assert neck(TUB) is None
    assert (
        neck(profile((0.0, 5.0), (20.0, 20.0), (40.0, 60.0))) is None
    )  # a funnel is cut from above all the way
    radius, height = neck(FLASK)
    assert radius == pytest.approx(30.0)
    assert 70.0 - 1e-6 <= height <= 90.0 + 1e-6
    radius, height = neck(profile((0.0, 5.0), (6.0, 10.0), (1.0, 20.0), (30.0, 60.0)))
    assert (radius, height) == (pytest.approx(1.0), pytest.approx(20.0))


def test_nothing_goes_through_a_mouth_narrower_than_a_stiff_plate():
    hollow = profile((0.0, 5.0), (30.0, 5.0), (6.0, 50.0))
    assert reach(hollow, inward(hollow, 0.1), 2.0, 12.0) is None


def test_an_edge_beyond_the_back_starts_on_it():
    bowl = profile((0.0, 5.0, math.tan(math.pi / 8)), (50.0, 55.0))
    cut = beyond_back(bowl, 20.0)
    assert cut.start[0] == pytest.approx(20.0)
    assert math.hypot(cut.start[0], cut.start[1] - 55.0) == pytest.approx(50.0)
    assert cut.end == bowl.end
    assert beyond_back(bowl, -5.0) is bowl


def test_a_plate_rides_on_a_bowl_as_on_its_sphere_and_not_on_a_flat_floor():
    """Meusnier: every section of a sphere square to its surface has the sphere's radius."""
    bowl = profile((0.0, 5.0, math.tan(math.pi / 8)), (50.0, 55.0))
    assert riding_radius(bowl) == pytest.approx(50.0)
    assert riding_radius(TUB) == pytest.approx(40.0)
    assert riding_radius(profile((0.0, 5.0), (40.0, 5.0))) == math.inf
    assert bevel_needed(4.0, math.inf) is None


def test_a_cone_meets_the_plate_in_the_circle_square_to_its_side():
    cone = profile((20.0, 0.0), (60.0, 40.0))
    plate, radius = 4.0, riding_radius(cone)
    assert radius == pytest.approx(20.0 * math.sqrt(2.0))
    # Brute force: how far off the side the arrises of a plate of this thickness stand at the cone's narrow end.
    out = math.hypot(20.0, plate / 2.0) - 20.0
    assert plate**2 / (8.0 * radius) == pytest.approx(out * np.sin(np.pi / 4), rel=0.01)
