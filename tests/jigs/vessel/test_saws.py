"""The sleds for flat rings, their stops and sticks."""

from math import cos, pi

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from shapely import affinity

from geometry.hardware.fittings import clearance_hole
from jigs.stages.flat_segments.parts.flat_sleds import angle_plates, flat_sleds, stop_sticks
from tests.jigs.inspection import faults, shape
from tests.jigs.vessel.saw_bench import Bench, benches, circles_of, cut_strip, stick_length, sticks
from tests.jigs.vessel.saw_stacks import KERF, Stack, plan_of, stacks


@settings(max_examples=6)
@given(stacks())
def test_set_by_its_stick_either_fence_cuts_the_planned_segment(stack: Stack) -> None:
    plan = stack.plan
    benched = {bench.sled.segments: bench for bench in benches(plan)}
    for sled, setting, stick in sticks(plan):
        stop = stick_length(stick)
        for strip in setting.strips:
            pieces, _ = cut_strip(benched[sled.segments], stop, strip.width, 600.0, 2)
            for piece in pieces:  # one from each fence
                assert piece.outer == pytest.approx(strip.outer_edge, abs=0.021)
                assert piece.inner == pytest.approx(strip.inner_edge, abs=0.021)
                middle = (strip.outer_edge + strip.inner_edge) / 2
                assert piece.area == pytest.approx(middle * strip.width, rel=0.01)


@settings(max_examples=6)
@given(stacks())
def test_every_ring_has_one_stick_and_the_edges_it_was_planned_with(stack: Stack) -> None:
    plan = stack.plan
    cuts = {layer.number: layer.cut for layer in plan.stack.layers}
    told: list[int] = []
    for _, setting, stick in sticks(plan):
        told += setting.rings
        assert stick.name == "stop-stick-ring-" + "-".join(map(str, setting.rings))
        for number in setting.rings:
            cut = cuts[number]
            assert cut is not None
            assert stick_length(stick) / cos(cut.tilt) == pytest.approx(cut.outer_edge, abs=0.021)
            assert stick_length(stick) / cos(cut.tilt) > cut.outer_edge - 1e-9
    assert sorted(told) == sorted(cuts)


@settings(max_examples=6)
@given(stacks())
def test_the_arm_meets_every_tip_and_swings_clear_of_blade_strip_and_carriage(stack: Stack) -> None:
    plan = stack.plan
    clear = plan.job.workshop.sled.clear_of_blade
    for bench in benches(plan):
        for setting in (bench.sled.settings[0], bench.sled.settings[-1]):
            stop = setting.stop
            arm, plate = bench.placed("stop", stop), bench.placed("carriage", stop)
            pivot = (stop - shape(bench.part("stop").outline).bounds[0], arm.bounds[3] - 18.0)
            nose = [y for x, y in arm.exterior.coords if x == pytest.approx(stop, abs=1e-6)]
            for piece in cut_strip(bench, stop, setting.strips[0].width, 600.0, 2)[0]:
                assert min(nose) + 4.9 < piece.tip < max(nose) - 4.9
            assert plate.bounds[0] >= max(clear, stop)
            assert arm.bounds[0] == pytest.approx(stop)  # right of the blade's kept side
            shoes = [_shoe(bench, stop, y) for y in _slot_levels(bench)]
            for turn in range(0, 91, 5):
                swung = affinity.rotate(arm, turn, origin=pivot)
                assert swung.bounds[0] >= stop - 1e-9
                assert all(swung.distance(shoe) > 2 for shoe in shoes)
            assert affinity.rotate(arm, 60, origin=pivot).bounds[0] >= clear - 1e-9


def _slot_levels(bench: Bench) -> list[float]:
    """y of the plate's two slots, from its pivot."""
    slots = [hole for hole in bench.part("carriage").holes if len(hole.points) == 4]
    assert len(slots) == 2
    return [slot.centroid[1] for slot in slots]


def _shoe(bench: Bench, stop: float, level: float) -> shapely.Polygon:
    """A shoe under the plate, slot on slot."""
    plate, shoe = bench.placed("carriage", stop), shape(bench.part("shoe").outline)
    own = shape(bench.part("carriage").outline)
    return affinity.translate(shoe, plate.bounds[0] - own.bounds[0], plate.bounds[1] - own.bounds[1] + level)


@settings(max_examples=6)
@given(stacks())
def test_at_every_setting_both_bolts_stand_in_their_slots_and_the_far_shoe_on_its_guide(stack: Stack) -> None:
    plan = stack.plan
    for bench in benches(plan):
        base, plate, guide = (bench.part(name) for name in ("base", "carriage", "guide"))
        bolts = circles_of(base, clearance_hole("M6"))
        assert len(bolts) == 2
        slots = [shape(hole) for hole in plate.holes if len(hole.points) == 4]
        (left, level), (right, _) = bench.line("guide's edge")
        assert right - left == pytest.approx(np.ptp(guide.outline.bounds[::2]))
        for setting in bench.sled.settings:
            placed = bench.placed("carriage", setting.stop)
            dx, dy = placed.bounds[0] - bench.plate[0], placed.bounds[1] - bench.plate[1]
            moved = [affinity.translate(slot, dx, dy) for slot in slots]
            for bolt in bolts:
                assert any(slot.buffer(1e-3).covers(shapely.Point(bolt).buffer(3.3)) for slot in moved)
            shoe = max(
                (_shoe(bench, setting.stop, y) for y in _slot_levels(bench)), key=lambda g: g.bounds[3]
            )
            assert shoe.bounds[3] == pytest.approx(level)
            assert left - 1e-9 <= shoe.bounds[0]
            assert shoe.bounds[2] <= right + 1e-9
            assert shape(base.outline).covers(placed)
            assert shape(base.outline).covers(bench.placed("stop", setting.stop))
        pin = shapely.Point(circles_of(plate, 6.0)[0]).buffer(3.0)
        assert shape(bench.part("stop").outline).distance(pin) == pytest.approx(0.0, abs=0.01)
        assert shape(bench.part("stop").outline).intersection(pin).area < 0.1


@settings(max_examples=6)
@given(stacks())
def test_the_exit_block_stands_clear_of_fences_arm_and_carriage_with_the_blade_inside(stack: Stack) -> None:
    plan = stack.plan
    for bench in benches(plan):
        block = shape(bench.part("exit-block").outline)
        at, along, normal = bench.face(-1)
        thick = bench.part("fence").thickness
        body = shapely.Polygon(
            [
                *(at - along * d for d in (5.0, 400.0)),
                *(at - along * d + normal * thick for d in (400.0, 5.0)),
            ]
        )
        assert not block.intersects(body)
        end = min(y for _, y in bench.line("blade, kept side"))
        assert block.contains(shapely.box(-KERF, end, 0.0, end + 15))
        assert shape(bench.part("base").outline).covers(block)
        for setting in bench.sled.settings:
            assert not block.intersects(bench.placed("stop", setting.stop))
            assert not block.intersects(bench.placed("carriage", setting.stop))


def test_the_planned_strip_is_long_enough_to_the_last_segment_and_its_hold_down() -> None:
    plan = plan_of(20, 12)
    (bench,) = benches(plan)
    for setting in bench.sled.settings:
        for strip in setting.strips:
            _, left = cut_strip(bench, setting.stop, strip.width, strip.length, strip.pieces)
            spare = left - bench.sled.layout.held  # the kerfs at both ends
            assert -1e-6 <= spare <= 2 * KERF / cos(pi / 12) + 1e-6


def test_the_strip_is_said_to_slide_across_as_it_does_here() -> None:
    """Turned over, its tip would lie on the edge away from the next fence."""
    base = next(part for part in flat_sleds(plan_of(20, 12)) if part.name == "plan-angle-base-n12")
    assert "the same face up" in " ".join(base.notes)
    assert "turned over" not in " ".join(base.notes)


@settings(max_examples=6)
@given(stacks())
def test_every_part_can_be_made(stack: Stack) -> None:
    plan = stack.plan
    for part in [*flat_sleds(plan), *angle_plates(plan), *stop_sticks(plan)]:
        assert faults(part) == []


@settings(max_examples=6)
@given(stacks())
def test_the_arm_passes_under_the_gallows_and_so_does_the_thickest_strip(stack: Stack) -> None:
    for bench in benches(stack.plan):
        upright = shapely.LineString([(0.0, -99.0), (0.0, 999.0)])
        under = shape(bench.part("gallows").outline).intersection(upright).bounds[1]
        assert under - max(bench.part("stop").thickness, bench.sled.layout.height) >= 3.0
