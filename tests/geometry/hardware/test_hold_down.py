"""Hold-downs: a cam that stays, room for all of its parts over all of its turn, feet clear of blade and stop."""

from math import asin, cos, pi, sin

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.hardware.fittings import clearance_hole
from geometry.hardware.hold_down import (
    CLAMP,
    DISC,
    DRY,
    FOOT_CLEAR,
    HAND,
    LEAST_ROOM,
    LEVER,
    LEVER_WIDTH,
    OFF,
    PIN_CLEAR,
    PIN_EDGE,
    PIVOT_RADIUS,
    HoldDown,
    cam_presses,
    foot,
    pad,
    pin_from,
)
from geometry.statics.holding import LOW_FRICTION

R = clearance_hole("M6") / 2


@st.composite
def hold_downs(draw: st.DrawFn) -> HoldDown:
    woods, sheet = draw(st.lists(st.floats(2, 60), min_size=1, max_size=12)), draw(st.floats(6, 18))
    width = draw(st.floats(12, 120))
    return HoldDown(tuple(woods), pad(width, sheet, width * draw(st.floats(0.5, 1))), sheet)


def test_the_cam_stays_where_it_is_left():
    """Its force passes beside the pivot by OFF at most; friction at the rim holds by DISC times its coefficient."""
    assert OFF < LOW_FRICTION * DISC


@pytest.mark.parametrize("friction", [0.13, 0.2, DRY])
def test_a_hand_on_the_lever_presses_more_than_is_counted_on(friction):
    """By the work of a small turn: the hand's is the wood's, and what friction eats at the rim and at the bolt."""
    turn, pressed = 1e-3, cam_presses(HAND, friction)
    hand, lift = HAND * LEVER * turn, OFF * turn
    assert hand == pytest.approx(pressed * (lift + friction * (DISC + PIVOT_RADIUS) * turn))
    assert pressed > 1.1 * CLAMP
    assert friction * DISC > OFF


@given(st.floats(12, 300), st.floats(6, 18))
def test_a_finger_is_no_higher_than_its_slide(width, sheet):
    hold = HoldDown((20.0,), pad(width, sheet), sheet, fingers=1)
    assert 32.0 <= hold.finger_height < hold.gap + hold.height


@given(hold_downs(), st.floats(0, pi))
def test_disc_and_bolts_stay_in_window_and_slots_over_half_a_turn(hold, turn):
    x0, z0, x1, z1 = hold.window
    window = shapely.box(x0, z0, x1, z1)
    for px, pz in hold.pivots:
        # the disc's middle lies OFF from the pivot; the window keeps it at its own height
        height = (z0 + z1) / 2 + OFF * cos(turn)
        disc = shapely.Point(px + OFF * sin(turn), height - OFF * cos(turn)).buffer(DISC)
        assert window.buffer(1e-6).covers(disc)
        for (bx, bz), (sx, low, high) in zip(hold.bolts, hold.slots, strict=True):
            assert bx == pytest.approx(sx)
            assert low - 1e-9 <= height - pz + bz <= high + 1e-9


@given(hold_downs())
def test_nothing_on_a_slide_or_in_its_plate_runs_into_anything_else(hold):
    slide = shapely.box(0, 0, hold.width, hold.height)
    bolts = [shapely.Point(p).buffer(R) for p in (*hold.bolts, *hold.pivots)]
    low, high = 3.0, 23.0
    mortises = [shapely.box(x, low, x + hold.sheet, high) for x in hold.feet]
    things = [*bolts, *mortises]
    for i, one in enumerate(things):
        assert slide.buffer(-2.0).covers(one)
        assert all(one.distance(other) > 1.5 for other in things[i + 1 :])
    window = shapely.box(*hold.window)
    for x, z0, z1 in hold.slots:
        assert window.distance(shapely.LineString([(x, z0), (x, z1)])) > R + 2.5


@given(hold_downs())
def test_of_any_thickness_some_hole_lifts_the_pins_out_and_presses_with_the_lever_clear_of_the_base(hold):
    for wood in hold.woods:
        below = min(
            hold.wood - (z - hold.pivot) - wood
            for _, z in hold.pivots
            if hold.wood - (z - hold.pivot) >= wood - 1e-9
        )
        assert OFF + below - 1.0 > 1.0  # pins 1 mm out, and 1 mm over the wood
        turned, end = asin(below / OFF), LEVER - LEVER_WIDTH / 2
        lowest = end * sin(turned) + LEVER_WIDTH / 2
        assert lowest < hold.wood + hold.gap + hold.pivot


@given(st.floats(LEAST_ROOM, 80), st.floats(5, 20))
def test_a_foot_and_its_pins_are_clear_of_the_blade_and_the_foot_of_the_stop(room, sheet):
    start, thick = foot(room, sheet)
    assert start >= FOOT_CLEAR - 1e-9
    assert start + thick <= room - 1.0 + 1e-9
    assert 5.0 - 1e-9 <= thick <= sheet
    assert PIN_CLEAR - 1e-9 <= start + pin_from(thick) <= room - PIN_EDGE


@given(st.floats(12, 100), st.floats(6, 18))
def test_fingers_bear_between_a_narrow_and_the_widest_strip(width, sheet):
    start, end = pad(width, sheet)
    assert 0 < start < end < width
