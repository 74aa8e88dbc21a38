"""The order of the work: every piece exists before it is used, every setting is the plan's."""

from math import ceil, cos, degrees, pi, tan

import pytest

from jigs.forms.parts import parts_of
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.steps import Step
from jigs.stages.boards.plan.whole import WoodPlan
from jigs.words.quantity import Quantity
from tests.jigs.wood.whole_jobs import ALL, LAYUPS, plan_of, torus, vessel

CUTTING = ("mitre", "slide", "square", "slips")
EDGES = ("taper",)
GLUING = ("rings", "band", "disc", "stack", "close")
each = pytest.mark.parametrize("name", ALL)


def numbers_of(wood: WoodPlan, works: tuple[str, ...], lot: Lot) -> list[int]:
    return [step.number for step in wood.steps if step.work in works and lot.number in step.lots]


def steps_of(wood: WoodPlan, work: str) -> list[Step]:
    return [step for step in wood.steps if step.work == work]


def value(step: Step, id: str) -> float | int | str:
    (found,) = [setting for setting in step.settings if setting.id == id]
    return degrees(float(found.value)) if found.kind == "angle" else found.value


@each
def test_every_lot_is_crosscut_milled_ripped_and_cut_and_then_glued(name):
    wood = plan_of(name).wood
    assert [step.number for step in wood.steps] == list(range(1, len(wood.steps) + 1))
    for lot in (lot for lot in wood.lots if lot.piece != "rest"):
        strips = "slit" if lot.way == "slit" else "rip"
        crosscut, milled, (ripped,), (cut,) = (
            numbers_of(wood, works, lot) for works in (("crosscut",), ("mill",), (strips,), CUTTING)
        )
        edges, glued = numbers_of(wood, EDGES, lot), numbers_of(wood, GLUING, lot)
        assert len(edges) == (lot.way == "bevelled")
        assert len(milled) <= 1
        assert max(crosscut) < min([*milled, ripped])
        assert max(milled, default=0) < ripped < cut < min([*edges, *glued]) <= min(glued)
        assert max(edges, default=0) < min(glued)
        assert glued[-1] == len(wood.steps)  # the last step has all of them in it


@each
def test_no_step_has_pieces_of_a_lot_that_does_not_exist_and_cuts_give_all_that_are_wanted(name):
    plan = plan_of(name)
    wood, numbers = plan.wood, {lot.number for lot in plan.wood.lots}
    assert all(set(step.lots) <= numbers for step in wood.steps)
    cut = sum(step.pieces for step in wood.steps if step.work in CUTTING)
    plied = sum(layup.segments + layup.spare_segments for layup in plan.layups)
    assert cut == sum(lot.wanted for lot in wood.lots if lot.piece != "rest") + plied


@each
def test_segments_in_the_cut_list_are_those_of_the_rings(name):
    plan = plan_of(name)
    segments = sum(lot.count for lot in plan.wood.lots if lot.way in ("turned over", "slid across"))
    plied = sum(layup.segments for layup in plan.layups)
    if isinstance(plan, VesselPlan):
        assert segments + plied == sum(layer.ring.segments for layer in plan.stack.layers if layer.cut)
    else:
        assert segments + plied == plan.segments_total


@each
def test_what_a_step_names_is_in_the_rack(name):
    plan = plan_of(name)
    rack = {part.name for part in parts_of(plan)}
    named = {jig for step in plan.wood.steps for jig in step.jigs}
    named |= {jig for scrap in plan.wood.scraps for jig in scrap.jigs}
    assert named <= rack
    assert named


def test_on_the_bandsaw_the_rack_has_what_the_steps_name_too():
    plan = torus(more='[cutting]\nwedge_rings = "bandsaw"\nsegments = "bandsaw"\n[bandsaw]\nheight = 250\n')
    assert {jig for step in plan.wood.steps for jig in step.jigs} <= {part.name for part in parts_of(plan)}
    assert {step.machine for step in plan.wood.steps if step.work in ("mitre", "wedge")} == {"bandsaw"}


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit", "two woods"])
def test_a_torus_is_set_by_the_numbers_of_its_jigs(name):
    plan = plan_of(name)
    assert isinstance(plan, TorusPlan)
    (mitre,), (wedge,), (end,) = (steps_of(plan.wood, work) for work in ("mitre", "wedge", "end wedge"))
    assert value(mitre, "tilt") == pytest.approx(180 / plan.blank.segments)
    assert value(mitre, "stop") == plan.cutting.carrier.stop
    assert value(mitre, "blade-height") == plan.cutting.carrier.blade_height
    assert value(wedge, "fence") == pytest.approx(180 / plan.blank.wedge_rings)
    assert value(wedge, "stop") == plan.ring_cut.stop
    assert value(wedge, "blade-height") == plan.sled.saw_height
    (part,) = [part for part in parts_of(plan) if part.name == "end-wedge"]
    left = part.outline.bounds[0]  # the end at the stop, or at its arms
    thin = max(y for x, y, _ in part.outline.vertices if x == left)
    assert value(end, "wedge-at-stop") == pytest.approx(thin)
    assert wedge.pieces + end.pieces == plan.blank.wedge_rings


@pytest.mark.parametrize(("name", "alike"), [("garland", [1]), ("woods by rings", [2, 2])])
def test_spare_rings_stay_uncut_and_stand_in_for_rings_of_their_woods(name, alike):
    plan = plan_of(name)
    spares, (end,) = (steps_of(plan.wood, work) for work in ("spare", "end wedge"))
    assert [spare.pieces for spare in spares] == [plan.job.workshop.spares.rings for _ in alike]
    for start, (every, spare) in enumerate(zip(alike, spares, strict=True), 1):
        assert spare.number > end.number
        assert spare.rings == tuple(range(start, plan.blank.wedge_rings + 1, every))
        assert not spare.settings
        woods = {plan.wood.lot(number).species for number in spare.lots}
        assert woods == set(plan.species[spare.rings[0] - 1])
    none = torus(more="[spares]\nrings = 0\n").wood
    assert not steps_of(none, "spare")


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit", "two woods"])
def test_the_rings_at_the_ends_of_halves_are_cut_apart_and_named_with_their_faces(name):
    plan = plan_of(name)
    (wedge,), (end,) = (steps_of(plan.wood, work) for work in ("wedge", "end wedge"))
    assert sorted((*wedge.rings, *end.rings)) == list(range(1, plan.blank.wedge_rings + 1))
    assert (wedge.pieces, end.pieces) == (len(wedge.rings), len(end.rings))
    told = {
        (int(ring), int(setting.id.removeprefix("face-")))
        for setting in end.settings
        if setting.id.startswith("face-")
        for ring in str(setting.value).split(" and ")
    }
    assert told == set(plan.half_ends.items())
    assert {ring for ring, _ in told} == set(end.rings)


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit", "two woods"])
def test_strips_are_wider_than_the_flattened_ring_is_thick(name):
    plan = plan_of(name)
    (flat,) = steps_of(plan.wood, "flatten")
    (thick,) = [size.value for size in flat.checks]
    off = value(flat, "flattening")
    assert off == plan.job.form.flattening > 0
    assert thick == plan.ring_cut.ring_thickness
    for lot in plan.wood.lots:
        assert lot.width == pytest.approx(thick + off)


def test_open_rings_are_glued_as_a_step_of_the_work():
    plan = plan_of("open")
    (courses,) = steps_of(plan.wood, "courses")
    open_ = [layer for layer in plan.stack.layers if layer.kind == "open"]
    assert courses.rings == tuple(layer.number for layer in open_)
    assert courses.pieces == sum(layer.ring.segments for layer in open_)
    assert [size.value for size in courses.checks] == [layer.ring.height for layer in open_]
    assert not steps_of(plan_of("vase").wood, "courses")


def test_without_sanding_of_halves_there_are_no_end_rings():
    assert not steps_of(plan_of("no half sanding").wood, "end wedge")


@pytest.mark.parametrize("name", ["sorrel", "tumbler", "bottle", "bowl"])
def test_a_vessel_is_set_once_for_each_stick_of_each_sled(name):
    plan = plan_of(name)
    assert isinstance(plan, VesselPlan)
    settings = [(sled, setting) for sled in plan.saws.sleds for setting in sled.settings]
    for step, (sled, setting) in zip(steps_of(plan.wood, "slide"), settings, strict=True):
        assert value(step, "stop") == setting.stop
        assert value(step, "fence") == pytest.approx(180 / sled.segments)
        assert value(step, "blade-height") == sled.layout.saw_height
        lots = [plan.wood.lot(number) for number in step.lots]
        assert step.pieces == sum(lot.wanted for lot in lots)
        assert all(lot.stop == setting.stop for lot in lots)


def test_staves_of_a_vessel_are_cut_by_their_plates():
    plan = plan_of("staved")
    assert isinstance(plan, VesselPlan)
    (taper,), cut = steps_of(plan.wood, "taper"), plan.saws.staves
    assert cut is not None
    assert value(taper, "tilt") == pytest.approx(degrees(cut.blade_tilt))
    assert value(taper, "taper") == pytest.approx(abs(degrees(cut.gauge_angle)))


@each
def test_strips_are_ripped_over_size_by_what_is_planed_off(name):
    plan = plan_of(name)
    for step in steps_of(plan.wood, "rip"):
        widths = [plan.wood.lot(number).width for number in step.lots]
        assert max(widths) - min(widths) < 0.02
        assert value(step, "rip-fence") == pytest.approx(
            widths[0] + plan.job.workshop.stock.strip_clean_up, abs=0.02
        )


@each
def test_a_line_of_the_cut_list_is_of_its_lot_and_its_step(name):
    wood = plan_of(name).wood
    assert sorted(line.lot for line in wood.lines) == [lot.number for lot in wood.lots]
    assert [line.step for line in wood.lines] == sorted(line.step for line in wood.lines)
    for line in wood.lines:
        lot = wood.lot(line.lot)
        cutting = ("slit",) if lot.piece == "rest" else CUTTING
        assert numbers_of(wood, cutting, lot) == [line.step]
        assert line.longer <= lot.longer
        assert line.shorter <= line.longer
        assert line.strip >= lot.wanted * lot.mean


def test_a_finished_segment_of_a_torus_is_as_long_as_the_flat_of_the_ring():
    plan = torus()
    (line,), blank = plan.wood.lines, plan.blank
    assert line.longer == pytest.approx(2 * blank.apothem * tan(pi / 8))
    assert line.shorter == pytest.approx(2 * blank.core_apothem * tan(pi / 8))
    assert (degrees(line.tilt), line.gauge) == (pytest.approx(22.5), 0.0)


def test_a_finished_segment_of_a_vessel_is_as_long_as_the_flat_of_its_ring():
    plan = vessel("vase")
    for line in plan.wood.lines:
        lot = plan.wood.lot(line.lot)
        if lot.way == "slid across":
            ring = plan.stack.layers[lot.rings[0] - 1].ring
            assert line.longer == pytest.approx(2 * ring.outer * tan(pi / 12), abs=0.02)
            assert (line.tilt, degrees(line.gauge)) == (0.0, pytest.approx(15))


@each
def test_strips_that_end_short_would_end_long_with_so_many_pieces_fewer(name):
    plan = plan_of(name)
    least = plan.job.workshop.stock.least_offcut
    strips = [strip for of in plan.wood.classes for board in of.boards for strip in board.strips]
    short = [
        strip
        for strip in strips
        if 0.05 <= strip.left < least and strip.pieces > 1 and plan.wood.lot(strip.lot).held
    ]
    assert len(plan.wood.kept_long) == len(short)
    for strip, kept in zip(short, plan.wood.kept_long, strict=True):
        lot = plan.wood.lot(strip.lot)
        fewer = strip.pieces - 1 if kept.fewer is None else kept.fewer
        assert fewer < strip.pieces
        assert kept.length == pytest.approx(lot.left_of(strip.length, strip.pieces - fewer))
        assert (kept.length >= least) == (kept.fewer is not None)
        assert lot.left_of(strip.length, strip.pieces - fewer + 1) < least


def test_a_torus_is_tried_in_scrap_as_a_ring_and_as_a_quarter():
    plan = torus()
    ring, quarter = plan.wood.scraps
    assert (ring.of, ring.count, ring.segments) == ("ring", 1, 8)
    assert (quarter.of, quarter.count) == ("quarter", plan.check.rings)
    for scrap in (ring, quarter):
        pieces = scrap.count * scrap.segments
        kerf = plan.segment.kerf / cos(pi / 8)
        mean = (plan.segment.outer_edge + plan.segment.inner_edge) / 2
        assert scrap.strip > pieces * mean + (pieces + 1) * kerf
        assert (scrap.thickness, scrap.width) == (plan.segment.depth, plan.segment.length)


@pytest.mark.parametrize("name", ["bowl", "bottle", "staved", "tumbler"])
def test_a_vessel_is_tried_in_scrap_once_for_each_count_of_segments(name):
    plan = plan_of(name)
    assert isinstance(plan, VesselPlan)
    rings = [scrap for scrap in plan.wood.scraps if scrap.of == "ring"]
    counts = {layer.ring.segments for layer in plan.stack.layers if layer.cut}
    assert sorted(scrap.segments for scrap in rings) == sorted(counts)
    for scrap in rings:
        cuts = [
            layer.cut for layer in plan.stack.layers if layer.cut and layer.ring.segments == scrap.segments
        ]
        assert scrap.width == min(cuts, key=lambda cut: cut.outer_edge).depth
    assert [scrap.of for scrap in plan.wood.scraps].count("staves") == (plan.stack.staves is not None)


@pytest.mark.parametrize("name", ["garland", "bowl", "bottle", "staved", "tumbler"])
def test_no_strip_of_scrap_is_too_short_to_be_planed_and_ripped(name):
    assert all(scrap.strip >= 350.0 for scrap in plan_of(name).wood.scraps)


@pytest.mark.parametrize("name", LAYUPS)
def test_a_layup_is_glued_and_cut_before_its_segments(name):
    plan = plan_of(name)
    for layup in plan.layups:
        own = [
            step
            for step in plan.wood.steps
            if step.rings == layup.rings or set(step.rings) >= set(layup.rings)
        ]
        works = [step.work for step in own]
        assert (
            works.index("strips")
            < works.index("pieces")
            < works.index("mitre" if "mitre" in works else "slide")
        )
        (pieces,) = [step for step in own if step.work == "pieces" and step.rings == layup.rings]
        assert pieces.pieces == layup.pieces + layup.spares
        (strips,) = [step for step in own if step.work == "strips" and step.rings == layup.rings]
        assert strips.pieces == layup.way.stacks * layup.way.strips
        needed = ceil((layup.pieces + layup.spares) / layup.way.pieces)
        assert layup.way.stacks >= needed


def test_settings_are_numbers_in_their_units():
    for name in ALL:
        for step in plan_of(name).wood.steps:
            for setting in step.settings:
                assert isinstance(setting, Quantity)
                assert setting.kind == "text" or float(setting.value) >= 0.0
