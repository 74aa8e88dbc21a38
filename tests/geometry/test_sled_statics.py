"""Pieces in the cuts of every sled for strips: held whichever way the blade pushes, and not without their pins."""

from dataclasses import replace
from functools import cache
from math import cos, pi, tan

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from geometry.hold_down import LEAST_ROOM
from geometry.plan_angle import PlanAngleLayout
from geometry.segment_carrier import CarrierLayout
from geometry.sled_statics import (
    PIN,
    HeldPiece,
    carrier_pieces,
    flat_pieces,
    layup_pieces,
    trim_pieces,
)
from geometry.torus import SegmentCut
from tests.geometry.test_layup_sled import layups, sleds

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
    return CarrierLayout(draw(cuts()), draw(SHEETS), 0.15, 12.0, 150.0, 250.0, 110.0, 19.0, None)


def flat_sled(cut: SegmentCut, sheet: float) -> PlanAngleLayout:
    return PlanAngleLayout(
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
    return replace(piece, contacts=tuple(c for c in piece.contacts if c.what != PIN))


def flat_of(cut: SegmentCut, sheet: float) -> list[HeldPiece]:
    layout = flat_sled(cut, sheet)
    return list(flat_pieces(layout, cut.outer_edge, cut.inner_edge, cut.depth, cut.length))


@settings(max_examples=15, deadline=None)
@given(carriers())
def test_strip_and_segment_on_the_carrier_are_held(layout):
    for piece in carrier_pieces(layout):
        assert piece.holding().held, piece.what


@settings(max_examples=12, deadline=None)
@given(cuts(), SHEETS)
def test_strip_and_freed_segment_are_held_on_either_fence_of_the_flat_sled(cut, sheet):
    for piece in flat_of(cut, sheet):
        assert piece.holding().held, piece.what


@settings(max_examples=8, deadline=None)
@given(layups)
def test_stack_slab_and_piece_of_a_layup_are_held(layup):
    sled, trim = sleds(layup)
    for piece in (*layup_pieces(sled), *trim_pieces(trim)):
        assert piece.holding().held, piece.what


@cache
def garland() -> SegmentCut:
    return SegmentCut(25.6, 8.5, 20.65, 59.0, pi / 8, 3.0)


def test_a_hold_down_that_only_presses_does_not_hold_the_freed_segment():
    """It touches no fence: whichever way the blade pushes, it goes."""
    for piece in flat_of(garland(), 12.0):
        found = without_pins(piece).holding()
        assert not found.held
        assert found.motion is not None


def test_a_segment_with_nothing_on_it_is_thrown_by_the_same_statics():
    piece = next(iter(flat_of(garland(), 12.0)))
    found = replace(without_pins(piece), clamps=()).holding()
    assert found.strength < 1.0


def test_the_margin_of_pins_and_friction_is_that_of_the_forces():
    """300 N pressed, rubbing on two faces at 0.2, and 30 N for each of two pins, against 100 N with a third aside."""
    segment = next(iter(flat_of(replace(garland(), depth=9.0), 12.0)))
    assert segment.pins == 2
    assert segment.grip == pytest.approx((2 * 0.2 * 300 + 2 * 30) / (100 * (10 / 9) ** 0.5))
