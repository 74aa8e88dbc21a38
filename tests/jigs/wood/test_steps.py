"""The order of the work: every piece exists before it is used, every setting is the plan's."""

from math import ceil, degrees, pi, tan

import pytest

from geometry.records import replace
from jigs.asked.jobfile import parse
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.steps.prepared import prepared
from jigs.stages.segments.saws import rings_height, rings_needed, segments_needed
from jigs.work.cautions import CAUTIONS
from jigs.work.minutes import PLANED, RIPPED
from jigs.work.model import Operation
from tests.examples import plan_of_example
from tests.jigs.wood.whole_jobs import ALL, LAYUPS, plan_of, prepared_of, torus, vessel
from tests.work.reading import work_for
from tests.work.works import proof_of, work_of

CUTS = ("segments.mitre", "flat-segments.cut", "pieces.square", "slips.length")
each = pytest.mark.parametrize("name", ALL)


def told(name: str, *of: str) -> list[Operation]:
    """Operations whose ids begin so."""
    return [one for one in work_of(name).operations if one.id.startswith(of)]


def value(operation: Operation, id: str) -> float | int | str:
    found = operation.setting(id)
    return degrees(float(found.value)) if found.kind == "angle" else found.value


@pytest.mark.parametrize(("name", "short"), [("garland", "under 300 mm"), ("quoit", "under 12 in")])
def test_lengths_that_no_hand_may_hold_at_the_saw_are_ripped_by_hand(name, short):
    (rip,) = told(name, "boards.rip")
    assert short in CAUTIONS["table-saw"].format(short=short.removeprefix("under "))
    assert any(line.startswith("Rip by hand") and short in line for line in rip.how)


@each
def test_every_lot_is_crosscut_and_then_milled_and_then_ripped_once(name):
    plan = plan_of(name)
    made = list(enumerate(prepared_of(plan)))
    for lot in (lot for lot in plan.wood.lots if lot.way != "slit"):
        crosscut, milled, ripped = (
            [k for k, (kind, run) in made if kind == one and lot.number in run.lots]
            for one in ("crosscut", "mill", "rip")
        )
        assert len(milled) <= 1
        assert len(ripped) == 1
        assert max(crosscut) < min([*milled, *ripped])
        assert max(milled, default=0) < ripped[0]


@each
def test_cuts_give_all_pieces_that_are_wanted(name):
    plan = plan_of(name)
    plied = sum(layup.segments + layup.spare_segments for layup in plan.layups)
    wanted = sum(lot.wanted for lot in plan.wood.lots if lot.piece != "rest")
    assert sum(one.pieces for one in told(name, *CUTS)) == wanted + plied


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
def test_what_a_trial_in_scrap_names_is_in_the_rack(name):
    plan = plan_of(name)
    named = {jig for scrap in plan.wood.scraps for jig in scrap.jigs}
    assert named <= {part.piece_of or part.name for part in proof_of(name).parts}
    assert named


def test_on_the_bandsaw_segments_and_rings_are_cut_there():
    plan = torus(more='[cutting]\nwedge_rings = "bandsaw"\nsegments = "bandsaw"\n[bandsaw]\nheight = 250\n')
    by_id = {one.id: one for one in work_for(plan).operations}
    assert {by_id[id].place for id in ("segments.mitre", "wedge_rings.second")} == {"bandsaw"}
    guides = [
        q for id in ("segments.tilt", "wedge_rings.set") for q in by_id[id].settings if q.id == "blade-height"
    ]
    assert all(q.label.startswith("Guides") for q in guides)
    needed = [segments_needed(plan.job, plan.blank), rings_needed(plan.job, plan.blank)]
    assert [q.value for q in guides] == pytest.approx([height["bandsaw"] for height in needed]), (
        "over fence and jaw"
    )


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit", "two woods"])
def test_a_torus_is_set_by_the_numbers_of_its_jigs(name):
    plan = plan_of(name)
    assert isinstance(plan, TorusPlan)
    by_id = {one.id: one for one in told(name, "segments", "wedge_rings")}
    tilt, wedge, end = by_id["segments.tilt"], by_id["wedge_rings.set"], by_id["wedge_rings.ends"]
    assert value(tilt, "tilt") == pytest.approx(180 / plan.blank.segments)
    assert value(by_id["segments.stop"], "stop") == plan.cutting.carrier.stop
    assert value(tilt, "blade-height") == plan.cutting.carrier.blade_height
    assert value(wedge, "fence") == pytest.approx(180 / plan.blank.wedge_rings)
    assert value(wedge, "stop") == plan.ring_cut.stop
    assert value(wedge, "blade-height") == plan.sled.saw_height
    assert plan.sled.saw_height == rings_height(plan.job, plan.blank.apothem, plan.cutting.rings_on)
    (part,) = [part for part in parts_of(plan) if part.name == "end-wedge"]
    left = part.outline.bounds[0]  # the end at the stop, or at its arms
    thin = max(y for x, y, _ in part.outline.vertices if x == left)
    assert value(end, "wedge-at-stop") == pytest.approx(thin)
    assert by_id["wedge_rings.second"].pieces + end.pieces == plan.blank.wedge_rings


@pytest.mark.parametrize(("name", "alike"), [("garland", [1]), ("woods by rings", [2, 2])])
def test_spare_rings_stay_uncut_and_stand_in_for_rings_of_their_woods(name, alike):
    plan = plan_of(name)
    assert isinstance(plan, TorusPlan)
    spares = told(name, "wedge_rings.spare")
    ids = [one.id for one in told(name, "wedge_rings")]
    assert [spare.pieces for spare in spares] == [plan.job.workshop.spares.rings for _ in alike]
    for start, (every, spare) in enumerate(zip(alike, spares, strict=True), 1):
        assert ids.index(spare.id) > ids.index("wedge_rings.ends")
        assert spare.rings == tuple(range(start, plan.blank.wedge_rings + 1, every))
        assert not spare.settings
        assert len({plan.species[ring - 1] for ring in spare.rings}) == 1
    none = work_for(torus(more="[spares]\nrings = 0\n"))
    assert not [one.id for one in none.operations if one.id.startswith("wedge_rings.spare")]


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit", "two woods"])
def test_the_rings_at_the_ends_of_halves_are_cut_apart_and_named_with_their_faces(name):
    plan = plan_of(name)
    assert isinstance(plan, TorusPlan)
    (second,), (end,) = told(name, "wedge_rings.second"), told(name, "wedge_rings.ends")
    assert sorted((*second.rings, *end.rings)) == list(range(1, plan.blank.wedge_rings + 1))
    assert (second.pieces, end.pieces) == (len(second.rings), len(end.rings))
    faces = {
        (int(ring), int(setting.id.removeprefix("face-")))
        for setting in end.settings
        if setting.id.startswith("face-")
        for ring in str(setting.value).removeprefix("rings ").split(", ")
    }
    assert faces == set(plan.half_ends.items())
    assert {ring for ring, _ in faces} == set(end.rings)


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit", "two woods"])
def test_strips_are_wider_than_the_flattened_ring_is_thick(name):
    plan = plan_of(name)
    (flat,) = told(name, "rings.flatten")
    (thick,) = [size.value for check in flat.checks for size in check.sizes if size.id == "thickness"]
    off = value(flat, "flattening")
    assert off == plan.job.form.flattening > 0
    assert thick == plan.ring_cut.ring_thickness
    for lot in plan.wood.lots:
        assert lot.width == pytest.approx(thick + off)


def test_without_sanding_of_halves_there_are_no_end_rings():
    assert told("no half sanding", "wedge_rings.second")
    assert not told("no half sanding", "wedge_rings.ends")


@pytest.mark.parametrize("name", ["sorrel", "tumbler", "bottle", "bowl"])
def test_a_vessel_is_set_once_for_each_stick_of_each_sled(name):
    plan = plan_of(name)
    assert isinstance(plan, VesselPlan)
    stops = [setting.stop for sled in plan.saws.sleds for setting in sled.settings]
    set_to = [
        q.value for cut in told(name, "flat-segments.cut") for q in cut.settings if q.id.startswith("stop")
    ]
    assert set_to == stops
    for sled, operation in zip(plan.saws.sleds, told(name, "flat-segments.sled"), strict=True):
        assert value(operation, "fence") == pytest.approx(180 / sled.segments)
        assert value(operation, "blade-height") == sled.layout.saw_height


def test_staves_of_a_vessel_are_cut_by_their_plates():
    plan = plan_of("staved")
    assert isinstance(plan, VesselPlan)
    (taper,), cut = told("staved", "staves.sled"), plan.saws.staves
    assert cut is not None
    assert value(taper, "tilt") == pytest.approx(degrees(cut.blade_tilt))
    assert value(taper, "taper") == pytest.approx(abs(degrees(cut.gauge_angle)))


@each
def test_strips_are_ripped_over_size_by_what_is_planed_off(name):
    plan = plan_of(name)
    for run in (run for kind, run in prepared_of(plan) if kind == "rip"):
        widths = [plan.wood.lot(number).width for number in run.lots]
        assert max(widths) - min(widths) < 0.02
        (fence,) = [setting.value for setting in run.settings if setting.id == "rip-fence"]
        assert fence == pytest.approx(widths[0] + plan.job.workshop.stock.strip_clean_up, abs=0.02)


@each
def test_a_blade_that_rips_stands_a_little_over_the_wood_and_no_higher_than_it_can(name):
    plan = plan_of(name)
    slits = [
        (one, [lot for lot in plan.wood.lots if lot.way == "slit" and lot.slip])
        for one in told(name, "slips.slit")
    ]
    rips = [
        (run, [plan.wood.lot(lot) for lot in run.lots]) for kind, run in prepared_of(plan) if kind == "rip"
    ]
    for made, lots in (*slits, *rips):
        blades = [one.value for one in made.settings if one.id.startswith("blade-height")]
        assert sorted(blades) == pytest.approx(
            sorted({round(lot.thickness, 2) + 3 for lot in lots}), abs=0.01
        )
        assert max(blades) <= plan.job.workshop.saw.blade_height


@pytest.mark.parametrize(
    ("bandsaw", "place", "longer"), [(100, "bandsaw", 2), (15, "bench", 10), (None, "bench", 10)]
)
def test_boards_that_the_table_saws_blade_does_not_reach_through_are_ripped_elsewhere(bandsaw, place, longer):
    plan = plan_of("garland")
    shop = plan.job.workshop
    low = replace(
        shop, saw=replace(shop.saw, blade_height=15.0), bandsaw=replace(shop.bandsaw, height=bandsaw)
    )
    job = replace(plan.job, workshop=low)
    ripped = [run for kind, run in prepared(job, plan.wood.lots, plan.wood.classes) if kind.startswith("rip")]
    assert {run.place for run in ripped} == {place}
    assert sum(run.pieces for run in ripped) == sum(
        run.pieces for kind, run in prepared_of(plan) if kind == "rip"
    )
    told = work_for(replace(plan, job=job)).operations
    (work,) = [one for one in told if one.id.startswith("boards.rip")]
    assert work.place == place
    (scrap,) = [one for one in told if one.id == "boards.scrap"]
    for one in (work, scrap):
        assert set(work.cautions) <= set(one.cautions)
        assert "table-saw.rip" not in one.cautions
    assert scrap.minutes == sum(one.strips for one in plan.wood.scraps) * (PLANED + longer * RIPPED)


def test_boards_of_one_width_are_ripped_where_each_thickness_can_be():
    """A straight cylinder's rings are alike but for their heights."""
    text = (
        'title = "Tin"\n[profile]\nedges = [[0, 120], [80, 120]]\n[wall]\nthickness = 8\n'
        '[rings]\nheights = [16, 36, 16, 20]\nsegments = 12\nspecies = "maple"\n'
    )
    plan = solve(parse(text, "tin.toml"))
    shop = plan.job.workshop
    job = replace(plan.job, workshop=replace(shop, saw=replace(shop.saw, blade_height=30.0)))
    ripped = [
        (run, kind)
        for kind, run in prepared(job, plan.wood.lots, plan.wood.classes)
        if kind.startswith("rip")
    ]
    assert {kind for _, kind in ripped} == {"rip", "rip by hand"}
    for run, kind in ripped:
        thick = [plan.wood.lot(lot).thickness for lot in run.lots]
        assert (max(thick) + 3 <= 30) == (kind == "rip")
        blade = [size.value - 3 for size in run.settings if size.id == "blade-height"]
        assert blade == pytest.approx(thick[:1] if kind == "rip" else []), "it stands a little over the wood"
        assert thick == pytest.approx([thick[0]] * len(thick)), "and over all of it"


@each
def test_a_line_of_the_cut_list_is_of_its_lot_and_they_are_in_the_order_of_the_work(name):
    wood = plan_of(name).wood
    assert sorted(line.lot for line in wood.lines) == [lot.number for lot in wood.lots]
    order = ("turned over", "slid across", "square", "bevelled", "slit", "by hand")
    ways = [wood.lot(line.lot).way for line in wood.lines if wood.lot(line.lot).piece != "rest"]
    grouped = ["square" if way == "bevelled" else way for way in ways]
    assert grouped == sorted(grouped, key=order.index)
    lengths = [wood.lot(line.lot).longer for line in wood.lines if wood.lot(line.lot).way == "square"]
    assert lengths == sorted(lengths, reverse=True)
    for line in wood.lines:
        lot = wood.lot(line.lot)
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


@pytest.mark.parametrize("name", LAYUPS)
def test_a_layup_is_glued_and_cut_before_its_segments(name):
    plan = plan_of(name)
    ids = [one.id for one in work_of(name).operations]
    (cut, *_) = [one.id for one in told(name, "segments.mitre", "flat-segments.cut") if "rails" in one.does]
    for layup in plan.layups:
        (strips,) = [one for one in told(name, "layup.strips") if one.rings == layup.rings]
        (pieces,) = [one for one in told(name, "layup.trim") if one.rings == layup.rings]
        assert ids.index(strips.id) < ids.index(pieces.id) < ids.index(cut)
        assert pieces.pieces == layup.pieces + layup.spares
        assert strips.pieces == layup.way.stacks * layup.way.strips
        assert layup.way.stacks >= ceil((layup.pieces + layup.spares) / layup.way.pieces)


def test_a_knobs_square_is_named_as_the_knob_and_as_no_rings():
    found = {one.id: one for one in work_for(plan_of_example("acorn-lid")).operations}
    for id in ("boards.mill", "boards.rip", "pieces.square"):
        labels = [setting.label for setting in found[id].settings]
        assert any(label.startswith("Knob, 1 ") for label in labels), id
        assert not any("(knob)" in label for label in labels), id
