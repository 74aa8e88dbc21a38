"""Channel, retainer and their forces, held against sampled circles, vectors and clipped polygons."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.bodies.tube import tube_of
from geometry.lathe.turning import (
    TAIL,
    Channel,
    Retainer,
    bearing_forces,
    rim_speed_limits,
    rough_speed_limits,
    sticks,
    unbalance,
)

tubes = st.floats(10.0, 60.0)
ratios = st.floats(1.3, 6.0)
linings = st.sampled_from((0.0, 0.5, 2.0))
contacts = st.floats(math.radians(30), math.radians(65))
slopes = st.floats(math.radians(5), math.radians(70))
frictions = st.floats(0.0, 0.8)


def circle(x: float, radius: float) -> shapely.Polygon:
    """A section of the torus (or of what is a lining outside it), its centre at height 0."""
    angles = np.linspace(0.0, 2 * math.pi, 36001)
    return shapely.Polygon(np.column_stack((x + radius * np.cos(angles), radius * np.sin(angles))))


def level(z: float) -> shapely.LineString:
    return shapely.LineString([(-1000.0, z), (1000.0, z)])


def below(z: float) -> shapely.Polygon:
    return shapely.box(-1000.0, -1000.0, 1000.0, z)


@given(tubes, ratios, linings, contacts)
def test_the_channel_is_what_the_lined_tube_leaves_in_the_board(
    tube: float, ratio: float, lining: float, contact: float
) -> None:
    channel = Channel(ratio * tube, tube_of(tube), lining, contact, (8.0, 1.0))
    board = -channel.centre_height
    groove = circle(channel.major, tube + lining) & below(board)
    x0, z0, x1, z1 = groove.bounds
    assert channel.width == pytest.approx(x1 - x0, rel=1e-6)
    assert channel.depth == pytest.approx(z1 - z0, rel=1e-6)
    assert (x0 + x1) / 2 == pytest.approx(channel.major)
    assert channel.half_angle == pytest.approx(math.atan2(x1 - channel.major, -z1), rel=1e-6)
    # The bare tube keeps the lining's thickness from the groove all along.
    wall = np.array(groove.exterior.coords)[::300]
    arc = shapely.points(wall[wall[:, 1] < z1 - 1e-6])
    assert len(arc) > 5
    gaps = shapely.distance(shapely.linestrings(circle(channel.major, tube).exterior.coords[18000:]), arc)
    assert gaps == pytest.approx(lining, abs=1e-4)


@given(tubes, ratios, contacts, st.floats(1.0, 50.0))
def test_a_bare_tube_touches_both_flanks_up_to_the_contact_angle(
    tube: float, ratio: float, contact: float, relief: float
) -> None:
    channel = Channel(ratio * tube, tube_of(tube), 0.0, contact, (relief, 1.0))
    assert channel.half_angle == pytest.approx(contact)
    assert channel.depth == pytest.approx(tube * (1 - math.cos(contact)))
    assert 0 < channel.relief_width <= min(relief, channel.width / 3)  # two flanks are left to seat on
    assert channel.relief_depth == 1.0
    # The first mounting turned the tube to 35 degrees past its equator: the seat lies within that part.
    assert channel.half_angle < math.pi / 2 + TAIL


@given(tubes, ratios, linings, st.floats(0.0, 0.85))
def test_the_retainer_meets_the_lined_hole_all_the_way(
    tube: float, ratio: float, lining: float, share: float
) -> None:
    retainer = Retainer(ratio * tube, tube_of(tube), lining, math.radians(50), 1.5, 3.0)
    z = share * tube
    hole = circle(retainer.major, tube + lining).intersection(level(z)).bounds[0]
    assert retainer.radius_at(z) == pytest.approx(hole, abs=1e-4)
    assert retainer.radius_at(-z) == pytest.approx(hole, abs=1e-4)
    bare = shapely.Point(retainer.radius_at(z), z).distance(circle(retainer.major, tube))
    assert bare == pytest.approx(lining, abs=1e-4)


@given(tubes, ratios, linings, contacts, st.floats(0.5, 3.0), st.floats(1.0, 4.0))
def test_the_retainer_clears_neck_and_board(
    tube: float, ratio: float, lining: float, contact: float, neck: float, board: float
) -> None:
    channel = Channel(ratio * tube, tube_of(tube), lining, contact, (8.0, 1.0))
    retainer = Retainer(ratio * tube, tube_of(tube), lining, contact, neck, board)
    narrowest = circle(retainer.major, tube).bounds[0]
    assert narrowest - retainer.neck_radius == pytest.approx(neck)
    assert retainer.bottom + channel.centre_height == pytest.approx(board)
    assert retainer.bottom < retainer.band_low < retainer.band_high < tube
    assert retainer.height == pytest.approx(retainer.band_high + 2 - retainer.bottom)
    # It flares: drawn down it bears, and it comes out upwards.
    band = [retainer.radius_at(z) for z in np.linspace(retainer.band_low, retainer.band_high, 20)]
    assert np.all(np.diff(band) > 0)
    assert band[-1] == retainer.top_radius


def balanced(slope: float, friction: float) -> tuple[float, float]:
    """Normal force and outward push for a unit of pull, by vectors (in, up) at one place of the hole.

    There the torus's surface normal points in and up; the plug is drawn down along it.
    """
    normal = np.array((math.cos(slope), math.sin(slope)))
    surface = np.array((-math.sin(slope), math.cos(slope)))  # up along the surface, away from the axis
    each = normal + friction * surface  # on the plug, for each unit of normal force
    force = 1.0 / each[1]  # vertical balance with the pull
    return force, float(force * each[0])


@given(slopes, frictions)
def test_bearing_forces_balance_the_pull(slope: float, friction: float) -> None:
    assert bearing_forces(slope, friction) == pytest.approx(balanced(slope, friction))


@given(slopes, frictions)
def test_a_plug_sticks_where_friction_outlasts_the_bolt(slope: float, friction: float) -> None:
    normal = np.array((math.cos(slope), math.sin(slope)))
    surface = np.array((-math.sin(slope), math.cos(slope)))
    lift = normal[1] - friction * surface[1]  # the bolt slack, all friction holding the plug down
    assume(abs(lift) > 1e-9)
    assert sticks(slope, friction) == (lift < 0)


@given(st.floats(50.0, 800.0))
def test_rim_speeds_stay_within_8_and_12_metres_a_second(diameter: float) -> None:
    slow, fast = rim_speed_limits(diameter)
    rim = math.pi * diameter / 60_000
    assert (slow + 1) * rim > 7.97
    assert fast * rim < 11.98
    assert slow < fast


def test_small_rough_wood_is_not_spun_as_fast_as_its_rim_allows():
    assert rim_speed_limits(36.8) == (4141, 6211)  # a foot 34 mm across, eight-sided as sawn
    assert rough_speed_limits(36.8) == (1000, 1500)
    assert rough_speed_limits(300.0) == rim_speed_limits(300.0)


@given(st.floats(50.0, 5000.0), st.floats(0.01, 5.0), st.floats(50.0, 3000.0))
def test_an_unbalance_pulls_with_its_mass_times_the_acceleration_on_its_circle(grams, offset, rpm):
    turn, step = 2 * math.pi * rpm / 60, 1e-4 / rpm  # of a second: a small part of a turn
    places = [offset / 1000 * np.array((math.cos(turn * t), math.sin(turn * t))) for t in (-step, 0.0, step)]
    acceleration = np.linalg.norm(places[0] - 2 * places[1] + places[2]) / step**2
    assert unbalance(grams, offset, rpm) == pytest.approx(grams / 1000 * acceleration, rel=1e-3)
