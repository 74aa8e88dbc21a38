"""The layup's sleds by brute force: a stack moved along the fence, cut by a blade of its own width, then trimmed."""

from __future__ import annotations

from math import cos, hypot, pi, radians, sin

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from geometry.blanks.layup import Layup, square_stack
from geometry.hardware.fittings import METRIC
from geometry.hardware.hold_down import FOOT_CLEAR, PIN_CLEAR, pin_from
from geometry.hardware.sled_sizes import HANDLE_LENGTH, TAB
from jigs.stages.layup.layout.sled import LayupSledLayout
from jigs.stages.layup.layout.tray import SandingHolder
from jigs.stages.layup.layout.trim import TrimSledLayout

FAR = 4000.0
SHOP = {
    "sheet": 12.0,
    "play": 0.15,
    "clear_of_blade": 12.0,
    "hands_clear": 150.0,
    "blade_diameter": 250.0,
    "slot_distance": 110.0,
    "slot_width": 19.0,
    "fittings": METRIC,
}


def sleds(layup: Layup) -> tuple[LayupSledLayout, TrimSledLayout]:
    stack = square_stack(layup, 3)
    thick = layup.strips * layup.sheet
    sled = LayupSledLayout(
        layup.cut_angle(stack.cut), stack.slab, thick, layup.depth, kerf=layup.kerf, **SHOP
    )
    trim = TrimSledLayout(
        sled.angle,
        stack.slab,
        stack.slab_length,
        sled.slab_length,
        height=layup.depth,
        kerf=layup.kerf,
        **SHOP,
    )
    return sled, trim


layups = st.builds(
    Layup,
    plies=st.lists(st.floats(0.4, 5), min_size=1, max_size=4).map(tuple),
    angle=st.floats(0, pi / 2) | st.sampled_from([0.0, radians(30), pi / 4, pi / 2]),
    a=st.floats(10, 45),
    b=st.floats(10, 45),
    depth=st.floats(8, 60),
    kerf=st.floats(1, 4),
).filter(lambda layup: sleds(layup)[0].angle >= radians(15))


def stack_on(sled: LayupSledLayout, moved: float, length: float = 2000.0) -> shapely.Polygon:
    """A square stack whose end lies 200 mm past the blade, moved on along the fence."""
    start, end = -200 - moved, length - moved
    return shapely.Polygon(
        [sled.place(*corner) for corner in ((start, 0.0), (end, 0.0), (end, sled.stack), (start, sled.stack))]
    )


def slab_at(sled: LayupSledLayout, step: int) -> shapely.Polygon:
    """What lies between this cut and the one before it, on the sled, after `step` moves by the pitch."""
    waste = shapely.box(0.0, -FAR, FAR, FAR)
    before = affinity.translate(shapely.box(-sled.kerf, -FAR, FAR, FAR), *along(sled, sled.pitch))
    return stack_on(sled, step * sled.pitch).intersection(waste).difference(before)


def along(sled: LayupSledLayout, distance: float) -> tuple[float, float]:
    """A move down the fence towards the blade."""
    x, y = sled.place(-distance)
    return x, y


def trimmed(sled: LayupSledLayout, trim: TrimSledLayout, slab: shapely.Polygon) -> shapely.Polygon:
    """The slab turned so that the ply at the fence butts against the slanted stop, both ends cut; piece at x < 0."""
    turned = affinity.affine_transform(slab, [0, 1, -1, 0, -trim.length - trim.run, sled.width])
    first = turned.intersection(shapely.box(-FAR, -FAR, 0.0, FAR))
    over = affinity.affine_transform(first, [-1, 0, 0, 1, -trim.length, 0.0])
    return over.intersection(shapely.box(-FAR, -FAR, 0.0, FAR))


@given(layups)
def test_a_stack_moved_on_by_the_pitch_gives_the_same_slab_again_and_again(layup):
    sled, _ = sleds(layup)
    first, later = slab_at(sled, 1), slab_at(sled, 3)
    assert first.symmetric_difference(later).area < 1e-6
    assert first.bounds[2] - first.bounds[0] == pytest.approx(sled.width)
    assert first.bounds[3] - first.bounds[1] == pytest.approx(sled.slab_length)


@given(layups)
def test_the_sawn_end_touches_the_pin_when_the_stack_has_moved_on_by_the_pitch(layup):
    sled, _ = sleds(layup)
    cut = stack_on(sled, 0.0).intersection(shapely.box(-FAR, -FAR, -sled.kerf, FAR))
    moved = affinity.translate(cut, *along(sled, sled.pitch))
    pin = shapely.Point(sled.pin)
    assert moved.distance(pin) == pytest.approx(METRIC.pin / 2, abs=1e-6)
    short = affinity.translate(cut, *along(sled, sled.pitch - 0.1))
    assert short.distance(pin) > METRIC.pin / 2 + 0.02
    low, high = (moved.intersection(shapely.box(sled.width - 1e-6, -FAR, FAR, FAR)).bounds[k] for k in (1, 3))
    assert low < sled.pin[1] < high  # the sawn end bears, not its corner


@given(layups)
def test_trimmed_slabs_are_whole_pieces_that_all_show_the_same_plies(layup):
    """Side a at the angle to the plies, the first ply at the corner that the pattern is counted from."""
    sled, trim = sleds(layup)
    stack = square_stack(layup, 3)
    piece = trimmed(sled, trim, slab_at(sled, 2))
    assert piece.area == pytest.approx(layup.a * layup.b, abs=1e-5)
    x0, y0, x1, y1 = piece.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((stack.slab_length, stack.slab))
    # Back to the stack: how far out from the fence each corner of the piece was.
    back = [(-trim.length - x, y) for x in (x1, x0) for y in (y0, y1)]  # the corners, not turned over
    on_sled = [(sled.width - y, x + trim.length + trim.run) for x, y in back]
    out = sorted(-x * cos(sled.angle) + y * sin(sled.angle) for x, y in on_sled)
    p, q = layup.a * sin(layup.angle), layup.b * cos(layup.angle)
    assert out == pytest.approx(sorted((0.0, p, q, p + q)), abs=1e-9)


@given(layups)
def test_nothing_stands_in_the_way_of_blade_stack_or_hand(layup):
    sled, trim = sleds(layup)
    base = shapely.box(sled.left_edge, sled.operator_edge, sled.right_edge, sled.far_edge)
    fence = shapely.Polygon(
        [sled.place(s, out) for s, out in (
            (sled.fence_start, 0.0), (sled.fence_end, 0.0), (sled.fence_end, -12.0), (sled.fence_start, -12.0)
        )]
    )  # fmt: skip
    (x, y), block = sled.handle, shapely.box(*sled.exit_block)
    handle = shapely.box(x, y - 12, x + HANDLE_LENGTH, y)
    blade = shapely.box(-sled.kerf, sled.cut_end, 0.0, FAR)
    stack = stack_on(sled, 0.0, 500.0)
    for thing in (fence, block, handle, shapely.Point(sled.pin).buffer(METRIC.pin / 2)):
        assert base.buffer(1e-6).covers(thing)
    for one, other in ((handle, fence), (handle, stack), (handle, block), (block, fence)):
        assert one.distance(other) > 0.7  # the block's 3 mm are measured along the blade
    assert handle.distance(blade) >= 150.0 - 1e-6
    for start in sled.tabs:
        tab = shapely.Polygon([sled.place(s, out) for s, out in (
            (start, 0.0), (start + TAB, 0.0), (start + TAB, -12.0), (start, -12.0))])  # fmt: skip
        assert tab.distance(blade) >= 11.99
    assert block.covers(shapely.box(-sled.kerf, sled.cut_end, 0.0, sled.exit_block[3]))
    for start in trim.tabs:
        assert not start - 11.99 < 0.0 < start + TAB
        assert start > trim.kerf + 11.99 or start + TAB < -11.99


@given(layups)
def test_stops_clear_the_hold_down_and_stand_on_their_pins_behind_the_piece(layup):
    _, trim = sleds(layup)
    low, high = trim.stop_depth
    edge = min(trim.slanted_at(high), -trim.width, -trim.length)
    for x, y in trim.pins:
        assert trim.stop_left + 5 < x < edge - 5
        assert low + 5 < y < high - 5
    assert -trim.foot[1] >= FOOT_CLEAR - 1e-9
    assert pin_from(trim.foot[1] - trim.foot[0]) - trim.foot[1] >= PIN_CLEAR - 1e-9
    assert -trim.foot[0] < trim.sides[0]
    assert trim.fence_ends[0] < trim.hold_left


@given(layups)
def test_the_foot_on_a_slab_lies_on_it_beside_the_blade_under_its_finger(layup):
    sled, _ = sleds(layup)
    foot, s = sled.slab_foot, sin(sled.angle)
    assert foot.left >= FOOT_CLEAR
    assert foot.left + foot.width < sled.width
    for x, y in sled.slab_pins:
        out = (y - sled.place(-x / s)[1]) * s
        assert x >= PIN_CLEAR - 1e-9
        assert foot.out[0] <= out <= foot.out[1]
    (near, _), (far, _) = (sled.place(sled.slab_finger + d, sum(foot.out) / 2) for d in (6.0, -6.0))
    assert near < foot.left + foot.width / 2 < far
    assert sled.fence_start < sled.slab_slide - sled.slab_hold.width


@given(st.floats(10, 60), st.floats(0.05, 1), st.floats(10, 60), st.floats(3, 80))
def test_a_holder_leaves_the_glue_face_out_by_what_is_to_be_sanded(finished, left, across, depth):
    holder = SandingHolder("a", finished + left, finished, across, depth, 12.0, 0.15, fittings=METRIC)
    assert holder.left == pytest.approx(left)
    assert [b - a for a, b in holder.notches] == pytest.approx(
        [finished + left, finished + left / 2, finished]
    )
    assert holder.bar[1] < finished
    (x0, y0), (x1, _) = holder.bolts
    assert holder.half + 3.3 < x1 < holder.half_width - 3.3
    assert x0 == -x1
    assert holder.bar[0] + 3.3 < y0 < holder.bar[1] - 3.3
    assert depth > holder.layers * 12.0 or holder.layers == 1
    assert hypot(x1 - holder.half, 0) > 3.3
