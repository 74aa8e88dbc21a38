"""The segments' carriers, cut with shapely."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from geometry.bodies.torus import Blank, segment_cut
from geometry.hardware.fittings import IN_INCHES, METRIC
from geometry.hardware.hold_down import FOOT_CLEAR, LEAST_ROOM, PIN_CLEAR, pin_from
from geometry.hardware.sled_sizes import ARM, ARM_FOOT, EdgeGuide
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
from jigs.stages.segments.layout import CarrierLayout
from tests.stages.sled_shop import a_shop

guides = st.none() | st.builds(
    EdgeGuide, st.floats(-0.1, 0.1), st.floats(60.0, 300.0), st.floats(60.0, 300.0)
)


@st.composite
def carriers(draw: st.DrawFn) -> CarrierLayout:
    apothem = draw(st.floats(12.0, 60.0))
    blank = Blank(12, 2 * draw(st.integers(3, 12)), apothem, apothem * draw(st.floats(0.1, 0.7)), 3 * apothem)
    return CarrierLayout(
        fittings=draw(st.sampled_from((METRIC, IN_INCHES))),
        cut=segment_cut(blank, draw(st.floats(25.0, 120.0)), draw(st.floats(0.8, 4.0)), 0.1),
        sheet=draw(st.floats(6.0, 20.0)),
        play=0.15,
        clear_of_blade=12.0,
        hands_clear=draw(st.floats(150.0, 300.0)),
        blade_diameter=250.0,
        slot_distance=110.0,
        slot_width=19.0,
        guide=draw(guides),
    )


@given(carriers())
def test_the_stop_gives_the_outer_edge_and_the_strip_turned_over_meets_it_again(
    layout: CarrierLayout,
) -> None:
    cut, depth, t = layout.cut, layout.cut.depth, math.tan(layout.cut.tilt)
    long = layout.stop + 500
    strip = shapely.Polygon(
        [
            (layout.stop - long, 0),
            (layout.stop - depth * t, 0),
            (layout.stop, depth),
            (layout.stop - long, depth),
        ]
    )
    slant = cut.kerf / math.cos(cut.tilt)
    blade = shapely.Polygon([(0, 0), (-depth * t, depth), (-depth * t - slant, depth), (-slant, 0)])
    rest, segment = sorted(strip.difference(blade).geoms, key=lambda piece: piece.bounds[0])
    edges = {z: [x for x, y in segment.exterior.coords[:-1] if abs(y - z) < 1e-6] for z in (0, depth)}
    assert max(edges[depth]) - min(edges[depth]) == pytest.approx(cut.outer_edge)
    assert max(edges[0]) - min(edges[0]) == pytest.approx(cut.inner_edge)
    turned = affinity.scale(rest, 1, -1, origin=(0, depth / 2))
    right = max(turned.exterior.coords)
    assert right[1] == pytest.approx(depth)  # the tip is up again


@given(carriers())
def test_the_arm_backs_the_strip_and_swings_clear_of_strip_and_segment(layout: CarrierLayout) -> None:
    x, y = layout.pivot
    arm = shapely.box(x - ARM / 2, y - layout.arm_reach, x + ARM / 2, y + ARM_FOOT)
    strip = shapely.box(-200, 0, layout.stop, layout.cut.length)
    assert layout.cut.length - arm.bounds[1] >= 0.3 * layout.cut.length - 1e-9
    assert arm.bounds[0] == pytest.approx(layout.stop)
    assert y - layout.arm_reach > min(layout.sheet, 0.69 * layout.cut.length)  # clear of the hold-downs
    for degrees in range(1, 91, 5):
        swung = affinity.rotate(arm, degrees, origin=(x, y))
        assert swung.intersection(strip).area < 1e-9
    assert affinity.rotate(arm, 90, origin=(x, y)).distance(strip) > 10
    assert not arm.intersects(shapely.Point(layout.pin).buffer(2.9))


@given(carriers())
def test_hold_downs_stay_clear_of_the_leaning_blade(layout: CarrierLayout) -> None:
    (_, strip), (start, end) = layout.strip_feet, layout.segment_foot
    top = layout.lean + layout.cut.kerf / math.cos(layout.cut.tilt)
    assert strip <= -top - layout.clear_of_blade + 1e-9
    if layout.cut.outer_edge >= LEAST_ROOM:
        assert start + layout.lean >= FOOT_CLEAR - 1e-9
        assert start + layout.lean + pin_from(end - start) >= PIN_CLEAR - 1e-9
        assert start < end < layout.stop


@given(carriers())
def test_the_blade_fits_the_strip_and_the_base_ties_both_halves_behind_it(layout: CarrierLayout) -> None:
    needed = (layout.cut.depth + layout.sheet) / math.cos(layout.cut.tilt)
    assert layout.blade_height > needed
    assert layout.operator_edge < min(layout.cut_end, -layout.sheet) - 40
    nose = layout.packings * layout.sheet
    assert nose <= layout.cut.depth
    assert layout.packings == 0 or nose + layout.sheet > layout.cut.depth - 2


@given(
    st.integers(3, 16).map(lambda half: math.pi / (2 * half)),
    st.floats(15.0, 60.0),
    st.floats(8.0, 40.0),
    st.floats(6.0, 20.0),
)
def test_one_stop_gives_the_outer_edge_on_either_fence(
    mitre: float, outer: float, depth: float, sheet: float
) -> None:
    layout = PlanAngleLayout(mitre, outer, depth, 20.0, 3.0, **a_shop(sheet))
    for side in (1, -1):
        start, tip = np.array(layout.fence(side, 0.0)), np.array(layout.fence(side, -layout.outer_edge))
        assert start[0] == 0
        assert tip[0] == pytest.approx(layout.stop)
        assert np.hypot(*(tip - start)) == pytest.approx(outer)
        # The interior angles at both ends of the outer edge are those of a segment: a right angle less mu.
        along = (tip - start) / outer
        assert math.acos(along @ (0, -side)) == pytest.approx(math.pi / 2 - mitre)
    faces = [np.subtract(layout.fence(side, 100.0), layout.fence(side, 0.0)) / 100 for side in (1, -1)]
    assert math.acos(faces[0] @ faces[1]) == pytest.approx(2 * mitre)
    assert layout.opening > depth / math.cos(mitre)
    assert layout.fence(1, layout.fence_start, layout.sheet)[0] == pytest.approx(-layout.clear_of_blade)
