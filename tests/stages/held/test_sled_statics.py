"""Pieces in the cuts of every sled for strips: held whichever way the blade pushes, and not without their pins."""

from dataclasses import replace
from functools import cache
from math import cos, pi, tan

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from geometry.bodies.torus import SegmentCut
from geometry.hardware.fittings import METRIC
from geometry.hardware.hold_down import CLAMP, LEAST_ROOM
from geometry.statics.contacts import Load, Pin, Vector
from geometry.statics.holding import CUTTING_FORCE, LOW_FRICTION, hold
from geometry.statics.holding_program import _across
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
from jigs.stages.held.check.held import LEAST_GRIP
from jigs.stages.held.statics.sleds import (
    PIN_BEARS,
    PIN_DRIVEN,
    HeldPiece,
    carrier_pieces,
    flat_pieces,
    held_down,
    layup_pieces,
    lying,
    trim_pieces,
)
from jigs.stages.segments.layout import CarrierLayout
from tests.stages.layup.test_layup_sled import layups, sleds
from tests.stages.sled_shop import a_shop

COUNTS = st.sampled_from([6, 8, 10, 12, 16, 18, 24])
SHEETS = st.sampled_from([6.0, 9.0, 12.0, 18.0])


@st.composite
def cuts(draw: st.DrawFn, least_depth: float = 9.0) -> SegmentCut:
    mitre = pi / draw(COUNTS)
    outer = draw(st.floats(LEAST_ROOM / cos(mitre) + 3, 60))
    most = min(60.0, 0.85 * outer / (2 * tan(mitre)))
    assume(most > least_depth)
    depth = draw(st.floats(least_depth, most))
    return SegmentCut(outer, outer - 2 * depth * tan(mitre), depth, draw(st.floats(12, 120)), mitre, 3.0)


@st.composite
def carriers(draw: st.DrawFn) -> CarrierLayout:
    return CarrierLayout(draw(cuts()), None, **a_shop(draw(SHEETS)))


def flat_sled(cut: SegmentCut, sheet: float) -> PlanAngleLayout:
    return PlanAngleLayout(
        fittings=METRIC,
        mitre=cut.tilt,
        outer_edge=cut.outer_edge,
        depth=cut.depth,
        height=cut.length,
        sheet=sheet,
        play=0.15,
        clear_of_blade=12.0,
        hands_clear=150.0,
        blade_diameter=250.0,
        kerf=3.0,
        slot_distance=110.0,
        slot_width=19.0,
    )


def without_pins(piece: HeldPiece) -> HeldPiece:
    return replace(piece, pins=())


def flat_of(cut: SegmentCut, sheet: float) -> list[HeldPiece]:
    layout = flat_sled(cut, sheet)
    return list(flat_pieces(layout, cut.outer_edge, cut.inner_edge, cut.depth, cut.length))


@given(carriers())
def test_strip_and_segment_on_the_carrier_are_held(layout):
    for piece in carrier_pieces(layout):
        assert piece.caged().held, piece.what


@settings(max_examples=12)
@given(cuts(), SHEETS)
def test_strip_and_freed_segment_are_held_on_either_fence_of_the_flat_sled(cut, sheet):
    """With two pins; where only one is over the wood it turns about that, and the job is refused."""
    for piece in flat_of(cut, sheet):
        assert piece.caged().held == (len(piece.pins) > 1), piece.what


@pytest.mark.parametrize("count", [6, 8, 12, 24])
@pytest.mark.parametrize(
    ("depth", "height", "sheet"), [(7.0, 8.0, 18.0), (9.0, 8.0, 18.0), (20.0, 20.0, 12.0)]
)
def test_the_saw_may_push_a_strip_off_the_far_fence_a_quarter_harder_than_it_does(
    count, depth, height, sheet
):
    """Its thrust goes away from that fence: paper, pins and the lever alone hold. Worst on thin, narrow wood."""
    mitre = pi / count
    outer = max(LEAST_ROOM / cos(mitre) + 1, depth * 2 * tan(mitre) / 0.85)
    cut = SegmentCut(outer, outer - 2 * depth * tan(mitre), depth, height, mitre, 3.0)
    strip = next(piece for piece in flat_of(cut, sheet) if piece.what == "strip on the far fence")
    assert strip.grip >= LEAST_GRIP


@settings(max_examples=8)
@given(layups)
def test_stack_slab_and_piece_of_a_layup_are_held(layup):
    sled, trim = sleds(layup)
    for piece in (*layup_pieces(sled), *trim_pieces(trim)):
        assert piece.caged().held, piece.what


@cache
def garland() -> SegmentCut:
    return SegmentCut(25.6, 8.5, 20.65, 59.0, pi / 8, 3.0)


def test_a_hold_down_that_only_presses_does_not_hold_the_freed_segment():
    """It touches no fence: whichever way the blade pushes, it goes."""
    for piece in flat_of(garland(), 12.0):
        found = without_pins(piece).caged()
        assert not found.held
        assert found.motion is not None


def test_a_segment_with_nothing_on_it_is_thrown_by_the_same_statics():
    piece = next(iter(flat_of(garland(), 12.0)))
    found = replace(without_pins(piece), clamps=()).caged()
    assert found.strength < 1.0


def turned_about(pin: Vector, load: Vector) -> HeldPiece:
    """A flat block under one hold-down, a pin in its middle, pushed along x at `load`."""
    foot = lying([(x, y, 0.0) for x in (-30.0, 30.0) for y in (-30.0, 30.0)], friction=0.2)
    push = Load(load, (1.0, 0.0, 0.0))
    return held_down("block", foot, (push,), [(0.0, 0.0)], [pin[:2]], 0.0)


def test_where_forces_balance_and_moments_do_not_the_figure_is_that_of_the_moments():
    """Pushed through the pin a block is held by all of it: f P at the base, at the top f of what does not drive the
    pin, and the pin. 60 mm beside it only friction turns it
    back: the forces alone still balance, and that figure was once given for both."""
    forces = (0.2 * (2 * CLAMP - PIN_DRIVEN) + PIN_BEARS) / CUTTING_FORCE
    through, beside = (turned_about((0.0, 0.0, 0.0), (0.0, y, 0.0)).grip for y in (0.0, 60.0))
    assert through == pytest.approx(forces, rel=0.01)
    # about the middle: the base's friction at its corners, 30 sqrt 2 out; the press and the pin are at the middle
    assert beside <= 0.2 * CLAMP * 30 * 2**0.5 / 60 / CUTTING_FORCE + 1e-6
    assert beside < forces / 3


@pytest.mark.parametrize("most", [10.0, 30.0, 80.0])
def test_a_pin_holds_up_to_what_wood_bears_and_no_more(most: float) -> None:
    """Frictionless but for itself: 1e-9 stands for nothing."""
    foot = lying([(x, y, 0.0) for x in (-30.0, 30.0) for y in (-30.0, 30.0)], friction=0.0)
    pushes = [Load((0.0, 0.0, 0.0), way) for way in ((1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (-1.0, 0.0, 0.0))]
    found = hold(foot, [], pushes, pins=[Pin((0.0, 0.0, 0.0), most)])
    assert found.strength == pytest.approx(most)


def test_without_a_clamp_a_pin_beside_the_middle_moves_nothing() -> None:
    """What rounding leaves unbalanced of the pin's limit was once a push, larger than none."""
    foot = lying([(x, y, 0.0) for x in (-30.0, 30.0) for y in (-30.0, 30.0)], friction=0.0)
    for x in range(-29, 29, 2):
        for most in (5.0, 30.0, 100.0):
            pin = (x / 1.3, x / 7, 0.0)
            assert hold(
                foot, [], [Load(pin, (1.0, 0.0, 0.0))], pins=[Pin(pin, most)]
            ).strength == pytest.approx(most)


@settings(max_examples=5)
@given(cuts(), SHEETS)
def test_another_solver_finds_the_same_grip(cut: SegmentCut, sheet: float) -> None:
    """SciPy's interior-point method, pins free to push along the base on a circle cut to eight sides."""
    piece = flat_of(cut, sheet)[0]
    assert piece.grip == pytest.approx(min(opinion(piece, load) for load in piece.loads), rel=1e-3)


def test_smooth_paper_holds_the_freed_segment_less():
    """Worn to what bare wood has, the figure falls under the least that is asked."""
    segment = flat_of(replace(garland(), depth=12.0), 12.0)[0]
    worn = replace(
        segment,
        contacts=tuple(replace(c, friction=LOW_FRICTION) for c in segment.contacts),
        clamps=tuple(replace(c, friction=LOW_FRICTION) for c in segment.clamps),
    )
    assert worn.grip < LEAST_GRIP < segment.grip


def test_what_drives_the_pins_in_does_not_rub() -> None:
    """47 N each, 1 mm in: four leave little of 300 N to rub, and eight share what there is and go in less far."""
    sides = [(float(x), 0.0) for x in range(8)]
    base = lying([(x, y, 0.0) for x in (-30.0, 30.0) for y in (-30.0, 30.0)])
    few, many = (held_down("block", base, (), [(0.0, 0.0)], sides[:count], 0.0) for count in (4, 8))
    driving = 60.0 * pi * 0.5**2
    assert pytest.approx(driving) == PIN_DRIVEN
    assert few.clamps[0].rubs == pytest.approx(CLAMP - 4 * driving)
    assert {pin.most for pin in few.pins} == {PIN_BEARS}
    assert all(0.0 <= (clamp.rubs or 0.0) <= CLAMP - min(CLAMP, 8 * driving) + 1e-9 for clamp in many.clamps)
    assert sum(pin.most for pin in many.pins) <= CLAMP * PIN_BEARS / driving + 1e-9


def ring(axis: Vector) -> list[np.ndarray]:
    """Eight ways square to an axis, as the tool cuts its cones: told by the tool's own rule of where they start."""
    return list(_across(axis))


def wrench(place: Vector, force: np.ndarray) -> np.ndarray:
    return np.concatenate([force, np.cross(place, force)])


def opinion(piece: HeldPiece, load: Load) -> float:
    """Most of a load, over the cutting force."""
    columns = [
        wrench(c.place, np.array(c.normal) + (c.friction or 0.0) * t)
        for c in piece.contacts
        for t in ring(c.normal)
    ]
    pushes = [(c.place, (c.friction or 0.0), c.rubs or 0.0, c.direction) for c in piece.clamps]
    pushes += [(pin.place, 1.0, pin.most, (0.0, 0.0, 1.0)) for pin in piece.pins]
    groups = []
    for place, times, most, axis in pushes:
        groups.append((len(columns), most))
        columns += [wrench(place, times * t) for t in ring(axis)]
    right = -sum((c.force * wrench(c.place, np.array(c.direction)) for c in piece.clamps), start=np.zeros(6))
    matrix = np.array([*columns, wrench(load.place, np.array(load.direction))]).T
    rows = np.zeros((len(groups), matrix.shape[1]))
    for row, (start, _) in zip(rows, groups, strict=True):
        row[start : start + 8] = 1.0
    cost = np.zeros(matrix.shape[1])
    cost[-1] = -1.0
    found = linprog(cost, rows, [most for _, most in groups], matrix, right, method="highs-ipm")
    return float(found.x[-1]) / CUTTING_FORCE
