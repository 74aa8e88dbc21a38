"""Statics of a held piece: textbook cases, and another solver's opinion."""

from __future__ import annotations

from itertools import product
from math import cos, inf, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog, nnls

from geometry.statics.contacts import Clamp, Contact, Load, Vector, patch
from geometry.statics.holding import Holding, Motion, cutting_loads, hold
from geometry.statics.holding_program import non_negative

UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
RIGHT, LEFT, AWAY, NEAR = (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0)
FOOT = patch([(x, y, 0.0) for x in (-50.0, 50.0) for y in (-30.0, 30.0)], UP, "table")


def every_push(places: list[Vector]) -> list[Load]:
    return [Load(p, d) for p in places for d in (UP, DOWN, RIGHT, LEFT, AWAY, NEAR)]


BOX = [(float(x), float(y), float(z)) for x, y, z in product((-50, 50), (-30, 30), (0, 20))]


def test_a_block_on_a_table_bears_what_presses_it_down_and_nothing_else():
    assert hold(FOOT, [], [Load((10.0, 5.0, 20.0), DOWN)]).strength == inf
    assert hold(FOOT, [], [Load((0.0, 0.0, 20.0), UP)]).strength == 0.0
    slid = hold(FOOT, [], [Load((0.0, 0.0, 0.0), RIGHT)])
    assert slid.strength == 0.0
    assert slid.motion is not None
    assert (slid.motion.kind, slid.motion.direction) == ("slides", pytest.approx(RIGHT, abs=1e-6))


def test_a_force_outside_its_feet_tips_a_block_about_its_edge():
    tipped = hold(FOOT, [], [Load((60.0, 0.0, 20.0), DOWN)])
    assert tipped.strength == 0.0
    assert tipped.motion is not None
    assert tipped.motion.kind == "turns"
    assert tipped.motion.direction == pytest.approx(AWAY, abs=1e-6)
    assert tipped.motion.place[0] == pytest.approx(50.0)
    assert tipped.motion.place[2] == pytest.approx(0.0, abs=1e-6)


def test_a_clamp_that_gives_holds_a_lift_up_to_its_force_times_its_arm():
    """Lift at x = 50, clamp at 20, feet from -50 to 50: moments about x = -50."""
    lifted = hold(FOOT, [Clamp((20.0, 0.0, 20.0), DOWN, 300.0)], [Load((50.0, 0.0, 20.0), UP)])
    assert lifted.strength == pytest.approx(300.0 * 70 / 100)
    assert lifted.margin == pytest.approx(2.1)
    assert lifted.held
    firm = Clamp((50.0, 0.0, 20.0), DOWN, 300.0, gives=False)
    assert hold(FOOT, [firm], [Load((50.0, 0.0, 20.0), UP)]).strength == inf


def test_friction_holds_a_clamped_block_by_its_cone():
    """Both faces of what is clamped: 2 f P. On its own weight alone f P."""
    across = [Load((0.0, 0.0, 10.0), d) for d in (RIGHT, AWAY)]
    clamped = hold(FOOT, [Clamp((0.0, 0.0, 20.0), DOWN, 300.0)], across, friction=0.2)
    assert clamped.strength == pytest.approx(2 * 0.2 * 300)
    assert clamped.motion is None


def test_a_block_on_a_slope_stays_where_the_slope_is_under_the_friction():
    for slope, friction in ((10, 0.2), (13, 0.2)):
        a = radians(slope)
        normal = (-sin(a), 0.0, cos(a))
        feet = patch([(x * cos(a), y, x * sin(a)) for x in (-20.0, 20.0) for y in (-20.0, 20.0)], normal)
        stays = hold(feet, [], [Load((0.0, 0.0, 0.0), DOWN)], friction=friction).strength
        assert (stays == inf) == (tan(a) < friction * cos(pi / 8)) == (slope == 10)


def six_points() -> list[Contact]:
    """Three, two and one: what locates a block but lets it be lifted off."""
    three = patch([(-40.0, -20.0, 0.0), (40.0, -20.0, 0.0), (0.0, 20.0, 0.0)], UP)
    two = patch([(-40.0, -30.0, 10.0), (40.0, -30.0, 10.0)], AWAY)
    return [*three, *two, Contact((-50.0, 0.0, 10.0), RIGHT)]


def test_six_points_and_a_seventh_that_pushes_against_all_of_them_hold_against_anything():
    """Form closure in space takes seven contacts (Lakshminarayana 1978, from memory)."""
    assert hold(six_points(), [], every_push(BOX)).strength == 0.0
    seventh = Contact((4.0, -3.0, 18.0), (-1.0, -1.2, -3.0))
    assert hold([*six_points(), seventh], [], every_push(BOX)).strength == inf
    for left_out in range(6):
        six = [c for i, c in enumerate(six_points()) if i != left_out]
        assert hold([*six, seventh], [], every_push(BOX)).strength == 0.0


def in_plane(angles: list[float], offsets: list[float]) -> list[Contact]:
    """Points round a disc whose pushes pass its middle at these distances; what leaves the plane is barred."""
    barred = [
        Contact((x, y, z), (0.0, 0.0, n))
        for n, z in ((1.0, 0.0), (-1.0, 10.0))
        for x, y in ((-30.0, -30.0), (30.0, -30.0), (0.0, 30.0))
    ]
    return barred + [
        Contact((-30 * cos(a) - d * sin(a), -30 * sin(a) + d * cos(a), 5.0), (cos(a), sin(a), 0.0))
        for a, d in zip(angles, offsets, strict=True)
    ]


def test_in_the_plane_it_takes_four():
    """Reuleaux 1876, from memory: three points whose pushes meet let the piece turn, four can close it."""
    pushes = [Load((x, y, 5.0), d) for x, y in ((20.0, 0.0), (0.0, 20.0)) for d in (RIGHT, LEFT, AWAY, NEAR)]
    thirds = [0.0, 2 * pi / 3, 4 * pi / 3]
    meeting = hold(in_plane(thirds, [0.0, 0.0, 0.0]), [], pushes)
    assert meeting.strength == 0.0
    assert meeting.motion is not None
    assert abs(meeting.motion.direction[2]) == pytest.approx(1.0)
    assert hold(in_plane(thirds, [10.0, 10.0, 10.0]), [], pushes).strength == 0.0
    four = [0.0, pi / 2, pi, 3 * pi / 2]
    assert hold(in_plane(four, [10.0, -10.0, 10.0, -10.0]), [], pushes).strength == inf


def test_clamps_that_move_the_piece_by_themselves_hold_nothing():
    slid = hold(FOOT, [Clamp((0.0, 0.0, 0.0), RIGHT, 50.0)], [Load((0.0, 0.0, 20.0), DOWN)])
    assert slid.strength == 0.0
    assert slid.worst is None
    assert slid.motion is not None
    assert slid.motion.direction == pytest.approx(RIGHT, abs=1e-6)


def test_the_cone_of_a_cut_reaches_from_down_to_the_operator_and_a_third_sideways():
    loads = cutting_loads([("near end", (1.0, 2.0, 3.0))], DOWN, NEAR)
    pushes = np.array([load.direction for load in loads])
    assert len(loads) == 6
    assert all(load.place == (1.0, 2.0, 3.0) and "near end" in load.what for load in loads)
    assert np.abs(pushes[:, 0]) == pytest.approx(np.full(6, 1 / 3))
    assert np.hypot(pushes[:, 1], pushes[:, 2]) == pytest.approx(np.ones(6))
    assert pushes[:, 1].max() < -0.3  # the feed always thrusts
    assert pushes[:, 2].min() < -0.94
    assert pushes[:, 2].max() <= 1e-12


places = st.tuples(*[st.integers(-60, 60).map(float)] * 3)
ways = st.tuples(*[st.integers(-3, 3).map(float)] * 3).filter(any)


@st.composite
def pieces(draw: st.DrawFn) -> tuple[list[Contact], list[Clamp], list[Load]]:
    contacts = [*six_points(), *(Contact(draw(places), draw(ways)) for _ in range(draw(st.integers(0, 4))))]
    clamps = [
        Clamp(draw(places), draw(ways), draw(st.integers(50, 500)) * 1.0, gives=draw(st.booleans()))
        for _ in range(draw(st.integers(0, 2)))
    ]
    if draw(st.booleans()):
        clamps.append(Clamp((0.0, 0.0, 15.0), (-1.0, -1.0, -2.0), 300.0))
    return contacts, clamps, [Load(draw(places), draw(ways)) for _ in range(draw(st.integers(1, 3)))]


def wrench(place: Vector, direction: Vector) -> np.ndarray:
    """About the frame's own origin."""
    return np.concatenate([direction, np.cross(place, direction)])


def unit(direction: Vector) -> np.ndarray:
    return np.array(direction) / sqrt(sum(x * x for x in direction))


def second_opinion(contacts: list[Contact], clamps: list[Clamp], load: Load) -> float:
    """Most of a load by SciPy's interior-point method; -1 where the clamps alone cannot be borne."""
    firm = [(c.place, c.normal) for c in contacts] + [(c.place, c.direction) for c in clamps if not c.gives]
    columns = [wrench(p, tuple(unit(n))) for p, n in firm] + [wrench(load.place, load.direction)]
    right = -sum((c.force * wrench(c.place, tuple(unit(c.direction))) for c in clamps), start=np.zeros(6))
    cost, matrix = [0.0] * len(firm) + [-1.0], np.array(columns).T

    def most(limit: float):
        bounds = [(0, None)] * len(firm) + [(0, limit)]
        return linprog(cost, A_eq=matrix, b_eq=right, bounds=bounds, method="highs-ipm")

    return float(most(1e4).x[-1]) if most(0.0).status == 0 else -1.0


@given(pieces())
def test_another_solver_finds_the_same_strength_and_the_motion_gets_the_piece_away(piece):
    contacts, clamps, loads = piece
    found = hold(contacts, clamps, loads)
    others = [second_opinion(contacts, clamps, load) for load in loads]
    if found.worst is None:
        assert min(others) == -1.0
        return
    assert min(found.strength, 1e4) == pytest.approx(min(others), rel=1e-4, abs=1e-3)
    if found.motion is not None and not clamps:
        assert_gets_away(found)


@given(st.lists(st.lists(st.integers(-5, 5).map(float), min_size=4, max_size=4), min_size=1, max_size=7))
def test_the_least_squares_are_those_of_scipy(rows):
    matrix, wanted = np.array(rows), np.arange(1.0, len(rows) + 1)
    ours, (theirs, _) = non_negative(matrix, wanted), nnls(matrix, wanted)
    assert ours.min() >= 0
    assert matrix @ ours == pytest.approx(matrix @ theirs, abs=1e-6)


def assert_gets_away(found: Holding) -> None:
    """The worst load, where it acts, goes with the motion."""
    assert found.motion is not None
    assert found.worst is not None
    assert np.dot(found.motion.at(found.worst.place), found.worst.direction) > 0


@given(st.tuples(places, ways, places), ways)
def test_a_turn_is_about_its_axis_and_along_it(
    middle_and_turn: tuple[Vector, Vector, Vector], velocity: Vector
):
    """All on the axis go along it; the middle goes as it was told to."""
    middle, turning, elsewhere = middle_and_turn
    motion = Motion(velocity, turning, middle, 100.0)
    assert motion.kind == "turns"
    assert motion.at(middle) == pytest.approx(velocity)
    axis = np.array(motion.direction)
    assert np.cross(motion.at(motion.place), axis) == pytest.approx(np.zeros(3), abs=1e-9)
    # every place moves as by a turn about that axis and a slide along it
    about = np.cross(turning, np.subtract(elsewhere, motion.place)) + axis * (axis @ np.array(velocity))
    assert motion.at(elsewhere) == pytest.approx(about, abs=1e-6)


def test_clamps_a_hair_out_of_balance_move_the_piece():
    """By 0.005 N of 163: not a rounding error, and the solver finds no way to bear it."""
    contacts = [*six_points(), Contact((43.0, 22.0, -38.0), (-3.0, 0.0, -1.0)), Contact((0.0, 0.0, 0.0), UP)]
    clamps = [
        Clamp((-45.0, -7.0, 58.0), (-3.0, 0.0, -1.0), 50.0, gives=False),
        Clamp((-9.0, 47.0, -11.0), (1.0, -2.0, 3.0), 50.0, gives=False),
    ]
    found = hold(contacts, clamps, [Load((0.0, 0.0, 0.0), UP)])
    assert (found.strength, found.worst) == (0.0, None)
