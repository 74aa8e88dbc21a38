"""The draw rod in its ring, and the ring on its sled: bodies in space, and what the saw can do to them."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from geometry.blanks.sawing import wedge_ring_cut
from geometry.bodies.torus import Blank, outer_flat
from geometry.hardware.draw_rod import WASHERS, DrawRod, draw_rod
from geometry.hardware.fittings import IN_INCHES, METRIC, NUTS
from geometry.statics.contacts import Clamp, Contact, patch
from geometry.statics.holding import cutting_loads, hold
from jigs.stages.held.statics.rings import ring_holding, ring_holdings
from jigs.stages.wedge_rings.layout.sled import SledLayout
from tests.stages.wedge_rings.test_sled import layouts

SLED = SledLayout(
    cut=wedge_ring_cut(Blank(18, 8, 30.0, 10.0, 98.0), 4.0, 0.1), apothem=30.0, core_apothem=10.0, mitre=math.pi / 8,
    sheet=11.9, play=0.15, kerf=2.8, trim=5.0, clear_of_blade=12.0, hands_clear=150.0, blade_diameter=250.0,
    slot_distance=112.0, slot_width=19.1, slot_depth=9.6, table_front=200.0, fittings=METRIC,
)  # fmt: skip

FEW = [HealthCheck.filter_too_much]  # of the sleds have room for rod and peg


def with_rod(layout: SledLayout) -> DrawRod:
    """A sled that the plan lets through: its rod and its wedge's peg have room."""
    assume(layout.rod.fits)
    assume(layout.peg is not None and layout.peg.fits())
    return layout.rod


def metal(rod: DrawRod) -> list[np.ndarray]:
    """Corners (k, 2) in (s, u) of all metal of the plug that may come near the blade: nut and front washer."""
    across, tall = NUTS[rod.bolt]
    front = rod.tip - tall
    return [
        box(rod.place, across / 2, front, rod.tip),
        box(rod.place, rod.washer / 2, front - WASHERS[rod.bolt][1], front),
        box(rod.place, rod.diameter / 2, -rod.sheet, rod.tip),
    ]


def box(s: float, half: float, low: float, high: float) -> np.ndarray:
    return np.array([(s - half, low), (s + half, low), (s + half, high), (s - half, high)])


@settings(suppress_health_check=FEW)
@given(layouts())
def test_no_metal_comes_within_12_mm_of_either_cut(layout):
    """Both cuts run along one plane, and the rod stands in one place."""
    rod = with_rod(layout)
    w = layout.cut.half_wedge
    for corners in metal(rod):
        to_cut = corners[:, 0] * math.sin(w) - corners[:, 1] * math.cos(w)
        assert to_cut.min() >= 12.0


def ring_in_cut(layout: SledLayout, second: bool) -> shapely.Polygon:
    """The ring from above, (s, u), by its rigid motion: raw against the fence, or turned over with its cut face on the
    wedge."""
    cut, t = layout.cut, math.tan(layout.cut.half_wedge)
    stop, inner = cut.stop, cut.stop - 2 * cut.half_width
    once = np.array([(stop, 0.0), (stop, cut.gap(stop)), (inner, cut.gap(inner)), (inner, 0.0)])
    if not second:
        return shapely.Polygon(once)
    turned = once * (1, -1)  # about its radial line
    face = turned[1]  # the cut face's end at the stop comes to the wedge's thin end
    turned = turned - face + (stop, cut.wedge_at_stop)
    assert turned[2] == pytest.approx((inner, cut.wedge_at_stop + 2 * cut.half_width * t))  # and lies on it
    return shapely.Polygon(turned)


@settings(suppress_health_check=FEW)
@given(layouts())
def test_one_depth_of_the_plug_serves_both_cuts_and_its_rubber_is_all_in_the_core(layout):
    rod = with_rod(layout)
    reach = outer_flat(rod.core_apothem, rod.segments)
    for second in (False, True):
        ring = ring_in_cut(layout, second)
        far = shapely.LineString([(rod.place, -500), (rod.place, 500)]).intersection(ring).bounds[3]
        uncut = layout.cut.ring_thickness
        assert far <= uncut + 1e-9
        if second:
            assert far == pytest.approx(uncut)
        for s in (rod.place - reach, rod.place + reach):
            across = shapely.LineString([(s, -500), (s, 500)]).intersection(ring)
            assert across.bounds[1] <= rod.rubber_end - rod.rubber + 1e-6
            assert layout.cut.gap(s) >= rod.rubber_end - 1e-6
    assert rod.rubber >= 8
    assert uncut - rod.below_face == pytest.approx(rod.tip)


@settings(suppress_health_check=FEW)
@given(layouts())
def test_what_goes_into_the_core_is_smaller_than_it(layout):
    rod = with_rod(layout)
    assert rod.washer <= rod.core - 0.9
    assert NUTS[rod.bolt][0] <= rod.core - 0.5
    assert rod.hub < rod.cheek < rod.core
    assert rod.hubbed == (rod.core > 70)
    nut = NUTS[rod.bolt][0] / 2
    assert rod.wedge_hole / 2 > nut + rod.fence_place - rod.place, (
        "bored behind the fence's hole, round the nut"
    )
    assert layout.knob >= 20
    assert rod.squeeze < 1500


@settings(max_examples=12, suppress_health_check=FEW)
@given(layouts())
def test_rod_and_screw_hold_the_ring_against_any_cut_and_without_the_rod_it_leaves_the_fence(layout):
    assume(
        layout.clear_of_blade <= 20
    )  # who wants more room at the blade leaves less to hold; `check` refuses what moves
    with_rod(layout)
    for holding in ring_holdings(layout):
        assert holding.held
        assert holding.margin > 1.2
    for second in (False, True):
        bare = ring_holding(layout, second, rod=False)
        assert not bare.held
        assert bare.motion is not None
        assert bare.worst is not None
        there = np.subtract(bare.worst.place, bare.motion.place)
        way = bare.motion.direction
        way = way if bare.motion.kind == "slides" else np.cross(way, there) / np.linalg.norm(there)
        assert way[1] > 0.3, "off the fence"


@settings(max_examples=6, suppress_health_check=FEW)
@given(layouts(), st.floats(0.2, 1.0))
def test_a_thinner_wedge_holds_too_and_its_ring_stands_as_much_nearer_to_the_fence(layout, thinner):
    rod = with_rod(layout)
    assume(layout.peg.fits(thinner) and layout.clear_of_blade <= 20)
    holding = ring_holding(layout, second=True, thinner=thinner)
    assert holding.margin > 1.2
    assert not ring_holding(layout, second=True, rod=False, thinner=thinner).held
    usual, nearer = rod.drawn_from(rod.rubber_middle), rod.drawn_from(rod.rubber_middle - thinner)
    assert math.hypot(*nearer) == pytest.approx(1.0)
    assert nearer[0] > usual[0], "it leans more to the stop"


@settings(max_examples=5, suppress_health_check=FEW)
@given(layouts())
def test_low_friction_holds_with_every_clamp_at_its_least_force(layout):
    """A screw that may not press harder holds less by itself; friction more than makes up for it."""
    with_rod(layout)
    for second in (False, True):
        assert ring_holding(layout, second, friction=0.2).margin > 1.5


def test_a_rod_that_pulls_straight_lets_the_teeth_push_the_ring_from_the_stop(monkeypatch):
    sled = replace(SLED, sheet=12.0)  # a sled of its own: what is held is kept
    assert ring_holding(sled, second=False).held
    monkeypatch.setattr("geometry.hardware.draw_rod.TO_STOP", 1.0)  # the play of its hole
    monkeypatch.setattr("geometry.hardware.draw_rod.LEAN", 0.0)
    straight = ring_holding(sled, second=False)
    assert not straight.held
    assert straight.worst is not None
    assert "alone" in straight.worst.what or "rising" in straight.worst.what


def test_the_apex_towards_the_operator_does_not_do_it_without_a_rod():
    """The thrust then presses the ring to the fence, but not as hard as the saw may push it sideways: all its faces
    but the cut ones stand square to the fence, so nothing outside can press it there."""
    w = math.pi / 12
    corners = [(100 + 30 * math.cos(a), 30 + 30 * math.sin(a)) for a in np.arange(8) * math.pi / 4]
    fence = patch([(s, 0.0, v) for s, v in corners], (0.0, 1.0, 0.0))
    base = patch([(s, u, 0.0) for s in (90.0, 110.0) for u in (0.0, 20.0)], (0.0, 0.0, 1.0))
    stop = patch([(70.0, u, v) for u in (0.0, 12.0) for v in (20.0, 40.0)], (1.0, 0.0, 0.0))  # the inner flat
    contacts: list[Contact] = [*fence, *base, *stop]
    screw = Clamp((100.0, 10.0, 60.0), (0.0, 0.0, -1.0), 300.0, gives=False)
    places = [("there", (s, s * math.tan(w), v)) for s, v in corners]
    loads = cutting_loads(places, (0.0, 0.0, -1.0), (-math.cos(w), -math.sin(w), 0.0))
    assert not hold(contacts, [screw], loads).held


def test_a_core_for_each_rod():
    cut = wedge_ring_cut(Blank(8, 8, 120.0, 30.0, 400.0), 4.0, 0.1)
    bolts = [draw_rod(cut, core / 2, 8, 12.0, METRIC).bolt for core in (8.5, 10, 12.5, 20, 28, 40, 60, 120)]
    assert bolts == ["M4", "M5", "M6", "M6", "M8", "M10", "M12", "M12"]
    inch = [draw_rod(cut, core / 2, 8, 12.0, IN_INCHES).bolt for core in (11, 12.7, 20, 40, 44, 60, 120)]
    assert inch == ["#8", "#10", "1/4 in", "5/16 in", "3/8 in", "1/2 in", "1/2 in"]
    assert not draw_rod(cut, 4.0, 8, 12.0, METRIC).fits
