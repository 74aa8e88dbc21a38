"""Where things stand on the sled, held against its own plan: blade, ring and hands as bodies."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.blanks.sawing import wedge_ring_cut
from geometry.bodies.torus import Blank, outer_flat
from geometry.hardware.fittings import IN_INCHES, METRIC
from geometry.hardware.sled_sizes import GUSSET_DEPTH, TAB
from geometry.plane.edges import FloatArray
from jigs.stages.wedge_rings.layout.sled import JAW_ABOVE, JAW_GAP, SCREW_WOOD, SledLayout
from tests.geometry.tori_blanks import segments, wedge_rings

Bodies = list[shapely.Polygon]
BLADE = shapely.box(0.0, -5000.0, 1.0, 5000.0)  # its cutting side is x = 0


@st.composite
def layouts(draw: st.DrawFn) -> SledLayout:
    """Sleds of rings that the plan lets through: 8 mm of thin edge, jaw and fence with room to the blade."""
    n, rings, apothem = draw(segments), draw(wedge_rings), draw(st.floats(18.0, 50.0))
    inner = draw(st.floats(8.0, 80.0)) / (2 * math.tan(math.pi / rings))
    blank = Blank(rings, n, apothem, 0.2 * apothem, inner + outer_flat(apothem, n))
    kerf, sheet = draw(st.floats(1.5, 3.5)), draw(st.floats(9.0, 18.5))
    layout = SledLayout(
        fittings=draw(st.sampled_from((METRIC, IN_INCHES))),
        cut=wedge_ring_cut(blank, max(kerf + 1, 3.0), 0.1),
        apothem=apothem,
        core_apothem=blank.core_apothem,
        mitre=blank.mitre,
        sheet=sheet,
        play=0.2,
        blade_diameter=draw(st.sampled_from((250.0, 300.0))),
        kerf=kerf,
        slot_distance=draw(st.floats(80.0, 150.0)),
        slot_width=19.1,
        slot_depth=9.6,
        table_front=draw(st.floats(150.0, 400.0)),
        trim=5.0,
        clear_of_blade=draw(st.floats(5.0, 40.0)),
        hands_clear=draw(st.floats(150.0, 300.0)),
    )
    assume(layout.jaw_reach >= blank.half_width + SCREW_WOOD and layout.room(layout.fence_start) >= 0)
    assume(layout.saw_height < layout.blade_diameter / 2)
    return layout


def block(layout: SledLayout, s: tuple[float, float], u: tuple[float, float]) -> shapely.Polygon:
    corners = ((s[0], u[0]), (s[1], u[0]), (s[1], u[1]), (s[0], u[1]))
    return shapely.Polygon([layout.plan(*corner) for corner in corners])


def fence(layout: SledLayout) -> shapely.Polygon:
    return block(layout, (layout.fence_start, layout.fence_end), (-layout.sheet, 0.0))


def cheeks(layout: SledLayout, arms: float = 0.0) -> Bodies:
    s = (layout.cut.stop - arms, layout.cut.stop + layout.cheek_length)
    return [block(layout, s, (u, u + layout.sheet)) for u in layout.cheeks]


def jaw(layout: SledLayout) -> shapely.Polygon:
    s = (layout.cut.stop - layout.jaw_reach, layout.jaw_tail)
    return block(layout, s, (0.0, layout.jaw_layers * layout.sheet))


def gussets(layout: SledLayout) -> Bodies:
    half, back = layout.sheet / 2, -layout.sheet - GUSSET_DEPTH
    return [block(layout, (s - half, s + half), (back, -layout.sheet)) for s in layout.gussets]


@given(layouts(), st.floats(10.0, 400.0))
def test_the_plan_is_the_fence_and_the_blade_at_the_wedge_angle(layout: SledLayout, s: float) -> None:
    w = layout.cut.half_wedge
    assert layout.plan(0.0, 0.0) == (0.0, 0.0)
    assert layout.plan(s, layout.cut.gap(s))[0] == pytest.approx(0.0, abs=1e-9)
    along, across = np.array(layout.plan(s, 0.0)), np.array(layout.plan(0.0, s))
    assert math.hypot(*along) == pytest.approx(s)
    assert along @ across == pytest.approx(0.0, abs=1e-9 * s**2)
    assert along[0] < 0
    assert along[1] < 0  # on the base's side and towards the operator
    assert math.acos(-along[1] / s) == pytest.approx(w)


@given(layouts(), st.floats(10.0, 400.0))
def test_room_ends_where_the_blade_must_be_kept_clear_of(layout: SledLayout, s: float) -> None:
    place = shapely.Point(layout.plan(s, layout.room(s)))
    clear = place.distance(BLADE) if place.x < 0 else -place.x
    assert clear == pytest.approx(layout.clear_of_blade)


@given(layouts())
def test_what_stands_fixed_keeps_clear_of_the_blade(layout: SledLayout) -> None:
    for body in (fence(layout), *cheeks(layout, layout.arm[0]), jaw(layout), *gussets(layout)):
        assert body.bounds[2] < 0
        assert body.distance(BLADE) >= layout.clear_of_blade - 1e-9


@given(layouts())
def test_hands_keep_clear_of_the_blade(layout: SledLayout) -> None:
    assert -layout.handle >= layout.hands_clear
    for body in gussets(layout):
        assert body.bounds[0] - layout.handle >= 20


@given(layouts())
def test_the_ring_rests_where_fence_stop_and_jaw_hold_it(layout: SledLayout) -> None:
    stop, half = layout.cut.stop, layout.cut.half_width
    ring = block(layout, (stop - 2 * half, stop), (0.0, layout.cut.ring_thickness))
    assert ring.distance(fence(layout)) == pytest.approx(0.0, abs=1e-9)
    assert (ring & fence(layout)).area < 1e-6
    assert layout.fence_start < stop - 2 * half  # the ring's whole face
    for body in cheeks(layout):
        assert (ring & body).area < 1e-6
        assert ring.distance(body) == pytest.approx(0.0, abs=1e-9)
    middle = shapely.Point(layout.plan(stop - half, layout.sheet / 2))
    assert jaw(layout).distance(middle) < 1e-9


@given(layouts())
def test_cheeks_stand_apart_and_the_bolts_pass_the_jaw(layout: SledLayout) -> None:
    bodies = cheeks(layout)
    assert all(a.distance(b) > 4.99 for a, b in pairwise(bodies))
    beside, behind = layout.jaw_bolts
    assert layout.jaw_screw[0] + 12 < beside < layout.cut.stop < behind < layout.jaw_tail < layout.fence_end
    for plate in gussets(layout):
        assert shapely.Point(layout.plan(behind, -layout.sheet)).distance(plate) >= 5


@given(layouts())
def test_the_jaws_screw_comes_down_on_the_ring_in_both_cuts(layout: SledLayout) -> None:
    s, u = layout.jaw_screw
    on_wedge = layout.cut.wedge_at_stop + (layout.cut.stop - s) * math.tan(layout.cut.half_wedge)
    assert s == layout.cut.stop - layout.cut.half_width
    assert on_wedge + 3.9 <= u <= layout.jaw_layers * layout.sheet - 5.4
    assert (layout.cut.gap(s) - u) * math.cos(layout.cut.half_wedge) >= layout.clear_of_blade
    assert layout.fittings.jaw_screw >= JAW_ABOVE + JAW_GAP + 5


@given(layouts())
def test_fence_tabs_are_on_the_fence_and_apart(layout: SledLayout) -> None:
    starts = np.array(layout.fence_tabs)
    assert starts[0] >= layout.fence_start
    assert starts[-1] + TAB <= layout.fence_end
    assert np.all(np.diff(starts) > TAB)
    assert layout.cut.stop < layout.cut.stop + layout.cheek_tab
    assert layout.cheek_tab + TAB < layout.cheek_length
    assert starts[-1] + TAB < layout.cut.stop + layout.cheek_tab


def blade(layout: SledLayout, front: float) -> FloatArray:
    """Points (y, height above the table) of the blade's rim when its front at table level is at y = front."""
    radius, top = layout.blade_diameter / 2, layout.saw_height
    angles = np.linspace(0.0, 2 * math.pi, 36001)
    rim = radius * np.column_stack((np.cos(angles), np.sin(angles))) + (0.0, top - radius)
    above = rim[rim[:, 1] >= 0.0]
    return np.asarray(above + np.array((front - above[:, 0].min(), 0.0)))


@given(layouts())
def test_where_the_feed_ends_the_ring_is_cut_and_the_blade_is_in_its_block(layout: SledLayout) -> None:
    rim = blade(layout, layout.feed_end)
    last = layout.plan(layout.cut.stop, layout.stop_check)
    assert last == pytest.approx((0.0, layout.blade_leaves_ring), abs=1e-9)
    # Every level of the ring, from the base up, has been passed by the blade's front.
    front = rim[rim[:, 0] <= rim[np.argmax(rim[:, 1]), 0]]
    front = front[np.argsort(front[:, 1])]
    levels = np.linspace(layout.sheet, layout.sheet + layout.ring_height, 50)
    assert np.all(np.interp(levels, front[:, 1], front[:, 0]) < layout.blade_leaves_ring)
    assert layout.exit_block_end < rim[:, 0].min()
    assert layout.exit_block_start < layout.blade_leaves_ring  # the block is clear of the ring


@given(layouts())
def test_everything_stands_on_the_base(layout: SledLayout) -> None:
    base = shapely.box(layout.left_edge, layout.operator_edge, 0.0, layout.far_edge)
    for body in (fence(layout), *cheeks(layout), *gussets(layout)):
        assert base.contains(body)
    assert layout.left_edge < layout.handle - layout.sheet
    assert layout.operator_edge < layout.exit_block_end
    left, right = layout.exit_block_sides
    assert left < 0 < layout.kerf < right
    slot = shapely.box(-layout.slot_distance - layout.slot_width, -1.0, -layout.slot_distance, 1.0)
    assert slot.bounds[0] > layout.left_edge


@given(layouts())
def test_the_blade_reaches_over_the_ring_on_its_base(layout: SledLayout) -> None:
    assert layout.saw_height == pytest.approx(2 * layout.apothem + layout.sheet + 3)
    assert layout.fence_height > layout.ring_height
    assert layout.gusset_mortise + TAB < layout.gusset_height
    assert layout.gusset_height < layout.fence_height


@given(layouts())
def test_in_the_second_cut_the_jaw_still_lies_over_the_ring(layout: SledLayout) -> None:
    far = layout.cut.stop - layout.jaw_reach
    ring = layout.cut.wedge_at_stop + layout.jaw_reach * math.tan(
        layout.cut.half_wedge
    )  # its face on the wedge
    jaw = layout.jaw_layers * layout.sheet
    assert jaw - ring >= 9 - 1e-6
    assert (layout.cut.gap(far) - jaw) * math.cos(layout.cut.half_wedge) >= layout.clear_of_blade - 1e-6


@given(layouts())
def test_the_batten_meets_the_tables_edge_when_the_axle_has_passed_the_ring(layout: SledLayout) -> None:
    (left, front), (right, same) = layout.batten
    assert front == same == pytest.approx(layout.axle_end - layout.table_front)
    assert layout.axle_end < layout.blade_leaves_ring
    assert layout.operator_edge <= front - 40
    runner = (-layout.slot_distance - layout.slot_width, -layout.slot_distance)
    assert right < runner[0] or left > runner[1]
    assert layout.left_edge < left < right < 0
