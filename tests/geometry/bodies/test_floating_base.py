"""A disc that lies loose in a groove: it never jams, never drops out, and is never thicker than its groove."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.floating_base import BEARS, CENTRED, ROOM, THIN_ROOM, FloatingBase, widest_opening

SHARES = st.floats(0.0, 0.035)
BASES = st.builds(
    FloatingBase,
    opening=st.floats(8, 150),
    ledge=st.floats(3, 10),
    joint=st.floats(14, 20),
    floor=st.floats(23, 30),
    shrinks=SHARES,
    swells=SHARES,
    thickens=SHARES,
    closes=st.floats(0, 1),
    opens=st.floats(0, 1),
)


@given(BASES, st.floats(0, 1), st.floats(-1, 1), st.floats(-1, 1))
def test_whatever_its_moisture_it_lies_in_its_groove_and_bears_all_round(base, moist, aside, moved):
    change = moist * base.swells - (1 - moist) * base.shrinks
    tongue, field = base.tongue * (1 + change), base.field * (1 + change)
    rings = moved * (base.opens if moved > 0 else base.closes)
    groove, opening = base.groove + rings, base.opening + rings
    assert tongue <= groove - ROOM + 1e-9
    assert field <= opening - ROOM - CENTRED + 1e-9
    off = aside * (groove - tongue)  # pushed to one side until it touches
    assert tongue - abs(off) >= opening + BEARS - 1e-9
    assert tongue + abs(off) <= groove + 1e-9


@given(BASES)
def test_there_is_room_over_its_tongue_and_it_reaches_from_ledge_to_floor(base):
    assert base.tongue_thickness * (1 + base.thickens) == pytest.approx(base.depth - THIN_ROOM)
    assert base.ledge + base.thickness == pytest.approx(base.floor)
    assert base.depth + base.lip == pytest.approx(base.thickness)


@given(BASES)
def test_the_widest_opening_is_the_one_whose_groove_reaches_so_far(base):
    moves = (base.shrinks, base.swells, base.closes, base.opens)
    assert widest_opening(base.groove, *moves) == pytest.approx(base.opening)


def test_a_disc_that_does_not_move_needs_its_usual_room_only():
    still = FloatingBase(40.0, 4.0, 9.0, 14.0, 0.0, 0.0, 0.0)
    assert (still.tongue, still.groove) == (pytest.approx(42.25), pytest.approx(42.5))
    assert still.room == pytest.approx(0.25)
