"""A plate does another's work where its working edges and holes are the same, whatever its free edges do."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.contour import circle, polygon, rectangle
from geometry.readback.alike import astray
from geometry.readback.free_edge import FreeEdge

WIDE, HIGH = 100.0, 20.0
END = FreeEdge((WIDE, HIGH / 2), 5.0, 30.0)
LENGTHS = st.floats(-60, 60)


def bar(longer=0.0, wider=0.0, hole=10.0, moved=(0.0, 0.0)):
    """A bar with a bolt hole near its left end, drawn anywhere."""
    plate = (rectangle(0, 0, WIDE + longer, HIGH + wider), circle((hole, HIGH / 2), 3.3).cw())
    return tuple(contour.moved(*moved) for contour in plate)


def out(plate, free=(END,), loose=()):
    return astray(bar(), plate, free, loose)[0]


@given(LENGTHS, LENGTHS)
def test_the_same_plate_is_right_wherever_it_is_drawn(x, y):
    found, shift = astray(bar(), bar(moved=(x, y)), (), ())
    assert found == pytest.approx(0.0, abs=1e-9)
    assert shift == pytest.approx((-x, -y), abs=1e-9)


@given(st.floats(-4.9, 29.9))
def test_a_free_end_may_be_elsewhere_within_its_limits(longer):
    assert out(bar(longer)) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(("longer", "told"), [(31.0, 1.0), (-6.0, 1.0), (50.0, 20.0)])
def test_past_its_limits_it_is_out_by_as_much(longer, told):
    assert out(bar(longer)) == pytest.approx(told, abs=0.01)


@given(st.floats(0.1, 30))
def test_an_edge_that_works_may_not_move(wider):
    assert out(bar(wider=wider)) == pytest.approx(wider, abs=1e-6)
    assert out(bar(longer=10, wider=wider)) == pytest.approx(wider, abs=1e-6)


@given(st.floats(0.05, 20))
def test_a_hole_has_to_be_in_its_place_and_a_loose_one_has_not(off):
    free = FreeEdge((WIDE, HIGH / 2), 0.0, 0.0)
    assert out(bar(hole=10 + off), (free,)) >= 0.4 * off
    assert out(bar(hole=10 + off), (free,), [(10.0, HIGH / 2)]) == pytest.approx(0.0, abs=1e-6)


def test_a_hole_that_is_missing_is_infinitely_out_and_one_too_many_is_no_harm():
    assert out(bar()[:1]) == inf
    assert out((*bar(), circle((60, 10), 2).cw())) == pytest.approx(0.0, abs=1e-9)


@given(st.floats(-4, 20))
def test_a_wedge_that_is_longer_at_the_same_slope_is_right_and_one_of_another_slope_is_not(longer):
    def wedge(length, slope=0.2):
        return (polygon([(0, 0), (length, 0), (length, 4 + slope * length), (0, 4)]),)

    free = (FreeEdge((WIDE, 12.0), 5.0, 30.0),)
    assert astray(wedge(WIDE), wedge(WIDE + longer), free)[0] == pytest.approx(0.0, abs=1e-6)
    assert astray(wedge(WIDE), wedge(WIDE + longer, 0.21), free)[0] > 0.3


def test_a_disc_sawn_larger_is_right_and_one_too_small_is_not():
    def disc(radius):
        return (circle((0, 0), radius), circle((0, 0), 5).cw())

    free = [FreeEdge(edge.midpoint, 1.0, 20.0) for edge in disc(80)[0].edges()]
    assert astray(disc(80), disc(95), free)[0] == pytest.approx(0.0, abs=1e-9)
    assert astray(disc(80), disc(79.5), free)[0] == pytest.approx(0.0, abs=1e-9)
    assert astray(disc(80), disc(78), free)[0] == pytest.approx(1.0, abs=1e-6)


def test_the_nearest_hole_is_not_always_the_one_whose_box_is_nearest():
    plate, wanted = rectangle(0, 0, WIDE, HIGH), circle((50.0, 10.0), 5.0).cw()
    in_its_box = polygon([(45.0, 10.0), (50.0, 15.0), (55.0, 10.0), (50.0, 5.0)])
    beside = circle((51.0, 10.0), 5.0).cw()
    found, _ = astray((plate, wanted), (plate, in_its_box, beside), (), movable=False)
    assert found == pytest.approx(1.0, abs=0.01)
