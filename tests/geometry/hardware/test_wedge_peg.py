"""The wedge stack, loose between fence and ring: its peg has wood all round it and keeps it where it is."""

import math

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings

from geometry.blanks.sawing import wedge_ring_cut
from geometry.bodies.torus import Blank
from geometry.hardware.draw_rod import METAL_CLEAR
from geometry.hardware.fittings import METRIC
from geometry.hardware.wedge_peg import LEAST_DEPTH, PEG_DEPTH, PEG_FLOOR, PEG_WALL, WedgePeg
from jigs.stages.held.statics.rings import ring_holding
from jigs.stages.wedge_rings.layout.sled import SCREW_TO_BOLT, SledLayout
from tests.stages.wedge_rings.test_sled import layouts

FEW = [HealthCheck.filter_too_much]  # of the sleds have room for rod and peg


def sled_of(rings: int, segments: int = 8, apothem: float = 32.0) -> SledLayout:
    inner = 20.0 / (2 * math.tan(math.pi / rings))
    blank = Blank(rings, segments, apothem, 9.0, inner + 2 * apothem)
    return SledLayout(
        cut=wedge_ring_cut(blank, 4.0, 0.1), apothem=apothem, core_apothem=9.0, mitre=math.pi / segments, sheet=11.9,
        play=0.15, kerf=2.8, trim=5.0, clear_of_blade=12.0, hands_clear=150.0, blade_diameter=250.0,
        slot_distance=112.0, slot_width=19.1, slot_depth=9.6, table_front=200.0, fittings=METRIC,
    )  # fmt: skip


def pegged(layout: SledLayout) -> WedgePeg:
    assume(layout.rod.fits)
    peg = layout.peg
    assume(peg is not None and peg.fits())
    assert peg is not None
    return peg


@pytest.mark.parametrize("rings", [6, 8, 12, 18])
def test_a_wedge_without_its_peg_slides_to_the_apex_and_with_it_both_are_held(rings):
    sled = sled_of(rings)
    loose = ring_holding(sled, second=True, peg=False)
    assert loose.strength == 0
    assert loose.worst is None, "the clamps alone move it"
    assert loose.motion is not None
    assert loose.motion.kind == "slides"
    assert loose.motion.direction == pytest.approx((-1.0, 0.0, 0.0), abs=1e-6)
    assert ring_holding(sled, second=True).margin > 1.2


def test_low_friction_does_not_hold_a_steep_wedge_without_its_peg():
    assert not ring_holding(sled_of(6), second=True, peg=False, friction=0.2).held


@settings(suppress_health_check=FEW)
@given(layouts())
def test_any_sled_with_room_for_its_peg_holds_ring_and_wedge_and_none_does_without(layout):
    pegged(layout)
    assert not ring_holding(layout, second=True, peg=False).held
    assert ring_holding(layout, second=True).held


@settings(suppress_health_check=FEW)
@given(layouts())
def test_the_peg_has_wood_all_round_it_in_fence_and_stack(layout):
    peg = pegged(layout)
    cut, rod = layout.cut, layout.rod
    hole = np.array([math.cos(a) for a in np.linspace(0, 2 * math.pi, 37)]) * layout.fittings.peg_hole / 2
    s, v = peg.place + hole, peg.height + np.roll(hole, 9)
    behind = [(g - layout.sheet / 2, g + layout.sheet / 2) for g in layout.gussets]
    assert all(s.min() >= b + PEG_WALL - 1e-6 or s.max() <= a - PEG_WALL for a, b in behind), (
        "bored from behind"
    )
    assert v.min() >= PEG_WALL - 1e-6
    assert (
        v.max()
        <= layout.wedge_layers * layout.sheet
        - PEG_WALL
        + (layout.fittings.peg_hole - layout.fittings.peg) / 2
        + 1e-6
    )
    assert s.min() >= cut.stop - 2 * cut.half_width, "in the bearing part of the stack"
    apart = math.hypot(peg.place - rod.fence_place, peg.height - layout.apothem)
    assert apart >= rod.wedge_hole / 2 + layout.fittings.peg / 2 + PEG_WALL - 1e-6
    thick = cut.wedge_at_stop + (cut.stop - peg.place) * math.tan(cut.half_wedge)
    assert LEAST_DEPTH - 1e-6 <= peg.depth() <= PEG_DEPTH
    assert thick - peg.depth() >= PEG_FLOOR - 1e-6, "blind"


@settings(suppress_health_check=FEW)
@given(layouts())
def test_no_metal_of_the_jaw_comes_within_12_mm_of_the_blade(layout):
    """The front bolt's head, sunk in the jaw, and its screw, as bodies from above; the cut is the line u = s tan w."""
    front, w = layout.jaw_layers * layout.sheet, layout.cut.half_wedge
    (s, u), bolts = layout.jaw_screw, layout.jaw_bolts
    across, deep = layout.fittings.sink
    half, under = across / 2, front - deep + layout.fittings.head
    assert under < front
    assert bolts[0] == pytest.approx(s + SCREW_TO_BOLT)
    metal = [
        (s - layout.fittings.bolt_radius, u + layout.fittings.bolt_radius),
        *((b - half, under) for b in bolts),
    ]
    assert all(s * math.sin(w) - u * math.cos(w) >= METAL_CLEAR - 1e-9 for s, u in metal)


def test_a_ring_that_has_no_room_for_a_peg_beside_the_rod_gets_none():
    assert sled_of(12, apothem=14.0).peg is None
