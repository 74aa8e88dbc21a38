"""The work on a vessel: every jig's use is told, in the order of the work, with the plan's own numbers."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

import pytest

from jigs.asked.jobfile import parse
from jigs.figures.turning.stacking import ring_on
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.render.lines import lines
from jigs.sets.rack import draw
from jigs.stages.boards.plan import KeptLong
from jigs.work.model import Operation
from jigs.work.shown import shown_by
from jigs.work.steps import nth
from tests.jigs.vessel.jobs import text as vessel_text
from tests.work.reading import bones, numbers
from tests.work.vessels import done, each, ids, job, operations


def check_uses(plan: VesselPlan, parts: tuple[Part, ...], told: tuple[Operation, ...]) -> None:
    """Each jig that the wood meets is used; a note of gauges is told once, not at each that has it."""
    used = {use.part for operation in told for use in operation.jigs}
    met = ("gauges", "sizes", "centring", "glue_up", "angles")
    assert {part.name for part in parts if part.notes or part.family in met} <= used
    for note in {note for part in parts for note in part.notes}:
        telling = [one for one in told if any(note in use.notes for use in one.jigs)]
        assert telling, note
        at_lathe = Counter(one.stage for one in telling if one.place == "lathe")
        assert max(at_lathe.values(), default=1) == 1, note


def check_shape(told: tuple[Operation, ...]) -> None:
    """Short, timed, checked; ids told once."""
    assert len({operation.id for operation in told}) == len(told)
    for operation in told:
        assert len(operation.does.split()) <= 20, operation.does
        assert len(operation.how) <= 8, operation.id
        assert all(move.endswith(".") for move in (operation.does, *operation.how)), operation.id
        assert operation.minutes > 0, operation.id
        assert len(operation.cautions) <= 3
        assert all(check.if_not for check in operation.checks), operation.id
        for own in (operation.settings, operation.readings, operation.checks):
            assert len({one.id for one in own}) == len(own), operation.id


CUTS = ("flat-segments.cut", "pieces.square", "slips.length")


def check_pieces(plan: VesselPlan, told: tuple[Operation, ...]) -> None:
    """Cut off one by one, as many as the cut list wants and the layups give."""
    cut = sum(operation.pieces for operation in told if operation.id.startswith(CUTS))
    wanted = sum(lot.wanted for lot in plan.wood.lots if lot.piece != "rest")
    assert cut == wanted + sum(layup.blocks for layup in plan.layups)


def check_glue(plan: VesselPlan, told: tuple[Operation, ...]) -> None:
    """Every batch of the plan's, and its hours."""
    glued = [operation for operation in told if any(q.id == "batches" for q in operation.known)]
    glue = plan.wood.glue
    batches = sum(stage.batches for stage in glue.stages)
    assert sum(int(operation.setting("batches").value) for operation in glued) == batches
    dried = glue.cure * len({(s.assembly, s.rings) for s in glue.stages if s.assembly in glue.dried})
    assert sum(operation.hours for operation in glued) == pytest.approx(batches * glue.clamp_time + dried)


@each
def test_every_jig_is_used_and_each_of_its_notes_told_once(name: str) -> None:
    check_uses(*job(name), done(name))


@each
def test_a_step_is_short_timed_checked_and_known_by_its_id(name: str) -> None:
    check_shape(done(name))


@each
def test_what_the_plans_steps_set_is_set_with_the_plans_values(name: str) -> None:
    check_pieces(job(name)[0], done(name))


@each
def test_all_of_the_glue_is_told_with_its_batches_and_its_drying(name: str) -> None:
    check_glue(job(name)[0], done(name))


def check_told_whole(plan: VesselPlan, parts: tuple[Part, ...]) -> None:
    """Of any vessel; of random ones in `test_random_vessels`, which makes them."""
    told = operations(plan, parts)
    check_uses(plan, parts, told)
    check_shape(told)
    check_pieces(plan, told)
    check_glue(plan, told)


IN_ORDER = (
    ("boards.rip", "flat-segments.sled", "flat-segments.cut", "flat-segments.split", "flat_rings.sand"),
    ("pieces.square", "solids.glue", "solids.flatten", "solids.disc", "waste_block.saw"),
    ("flat_rings.sand", "flat_rings.lay-out", "flat_rings.halves", "flat_rings.true", "flat_rings.close"),
    ("flat_rings.close", "plugs.bore", "plugs.turn", "plugs.glue", "flattening.faces", "ring_labels.stick"),
    ("staves.edge-1", "staves.edge-2", "staves.band", "staves.level", "stack.rings"),
    ("ring_labels.stick", "waste_block.faceplate", "waste_block.true", "waste_block.ring-1", "stack.rings"),
    (
        "floating_ring.bore",
        "waste_block.ring-1",
        "floating_base.groove",
        "floating_base.disc",
        "floating_base.finish",
        "floating_base.drop",
        "stack.rings",
    ),
    ("stack.rings", "stack.courses", "stack.cure", "stack.start", "outside.round", "outside.mark"),
    ("outside.mark", "outside.stage-1", "outside.finished-stations", "outside.finished", "outside.rim"),
    ("outside.rim", "inside.stage-1", "inside.finished", "inside.sand", "stem.support", "stem.finished"),
    ("inside.sand", "stem.sand", "reversing.bore", "reversing.off", "reversing.plug", "reversing.held"),
    ("reversing.held", "reversing.start", "reversing.foot", "reversing.done", "finish.coats", "finish.place"),
)


@each
@pytest.mark.parametrize("chain", IN_ORDER, ids=lambda chain: chain[0])
def test_nothing_is_used_before_it_is_made(name: str, chain: tuple[str, ...]) -> None:
    found = ids(name)
    places = [found.index(id) for id in chain if id in found]
    assert places == sorted(places)


@each
def test_every_vessel_is_mounted_turned_hollowed_taken_off_and_finished(name: str) -> None:
    always = {"waste_block.true", "outside.finished", "reversing.foot", "finish.coats"}
    halves = ("lower_", "upper_") if job(name)[0].halves else ("",)
    hollowed = {f"{half}{id}" for half in halves for id in ("stack.cure", "inside.finished")}
    assert always | hollowed <= set(ids(name))


@each
def test_every_step_is_checked_or_is_checked_by_the_next(name: str) -> None:
    unchecked = {operation.id for operation in done(name) if not operation.checks}
    starts = {"stack.start", "lower_stack.start", "upper_stack.start", "halves.start"}
    assert unchecked <= {"finish.place", "staves.edge-1", *starts}


@each
def test_each_ring_is_glued_into_the_stack_once(name: str) -> None:
    plan, _ = job(name)
    glued = Counter(
        ring
        for operation in done(name)
        if operation.id.removeprefix("lower_")
        .removeprefix("upper_")
        .startswith(("waste_block.ring-1", "floating_base.drop", "stack.rings", "stack.courses"))
        for ring in operation.rings
    )
    assert glued == Counter(layer.number for layer in plan.stack.layers)


def test_a_page_for_every_ring_is_none() -> None:
    """Where one set-up serves many rings, one step has a setting for each."""
    for name in ("sorrel", "tumbler"):
        for head, most in (
            ("boards.rip", 4),
            ("flat-segments.cut", 2),
            ("slips.length", 1),
            ("stack.rings", 2),
        ):
            assert len([id for id in ids(name) if id.startswith(head)]) <= most, (name, head)
        for operation in done(name):
            assert len(list(lines(operation.settings, "mm"))) <= 14, operation.id
    stops = [q.id for operation in done("sorrel") for q in operation.settings if q.id.startswith("stop.")]
    assert sorted(stops) == sorted(f"stop.{ring}" for ring in range(1, 10))


def test_halves_meet_where_the_tape_sheet_has_half_of_the_segments_on_either_side() -> None:
    halves = next(one for one in done("sorrel") if one.id == "flat_rings.halves")
    assert any("6 and 7, and 12 and 1" in step for step in halves.how)


def test_a_job_in_inches_says_no_millimetre() -> None:
    for operation in done("tumbler"):
        checks = [text for check in operation.checks for text in (check.how, check.if_not)]
        notes = [note for use in operation.jigs for note in use.notes]
        told = (operation.does, operation.trial, *operation.how, *(q.label for q in numbers(operation)))
        assert not [text for text in (*told, *checks, *notes) if " mm" in text or "millimetre" in text]


@each
def test_rewording_changes_no_id_and_no_value(name: str) -> None:
    plan, parts = job(name)
    other = operations(
        plan,
        tuple(replace(part, purpose="said anew", notes=("said anew",) * bool(part.notes)) for part in parts),
    )
    assert [bones(operation) for operation in other] == [bones(operation) for operation in done(name)]


def test_a_strip_that_would_end_too_short_to_hold_is_stopped_early() -> None:
    plan, parts = job("sorrel")
    lot = next(lot for lot in plan.wood.lots if lot.piece == "segment" and lot.rings == (5,))
    kept = KeptLong(lot=lot.number, strips=1, left=50.0, fewer=2, length=130.0)
    told = operations(replace(plan, wood=replace(plan.wood, kept_long=(kept,))), parts)
    saying = [one for one in told if any(q.id == "short-1.fewer" for q in one.known)]
    assert [one.setting("short-1.fewer").value for one in saying] == [2]
    assert 5 in saying[0].rings


def test_arcs_of_an_odd_ring_are_not_sanded_into_one_plane() -> None:
    """Nine segments and nine strips come in two arcs alike, whose ends do not face one another."""
    rings = "segments = 9\nspacer = 2\nspacer_species = 'walnut'"
    told = vessel_text("cup", "mm", "[glue]\nopen_time = 6\n").replace("segments = 9", rings)
    plan = solve(parse(told, "cup.toml"))
    assert isinstance(plan, VesselPlan)
    assert any(stage.what == "halves" for stage in plan.wood.glue.stages)
    own = [one.id for one in operations(plan, tuple(draw(plan).parts)) if one.stage == "flat_rings"]
    assert "flat_rings.halves" in own
    assert "flat_rings.true" not in own


def test_the_stop_is_set_by_a_stick_that_is_named_from_the_first_scrap_on() -> None:
    plan, _ = job("sorrel")
    named = {one.id: [use.part for use in one.jigs] for one in done("sorrel")}
    for sled in plan.saws.sleds:
        first = named["flat-segments.first" + nth(sled.number)]
        assert any(stick.startswith("stop-stick-ring-") for stick in first)


def test_spare_segments_are_counted_apart_from_those_of_the_ring() -> None:
    plan, _ = job("sorrel")
    told = [q.label for o in done("sorrel") if o.id.startswith("flat-segments.cut") for q in o.settings]
    count = {layer.number: layer.ring.segments for layer in plan.stack.layers}
    for setting in (setting for sled in plan.saws.sleds for setting in sled.settings):
        own = len(setting.rings) * count[setting.rings[0]]
        spare = sum(lot.spares for lot in plan.wood.lots if lot.stop == setting.stop)
        assert any(f", {own} + {spare} spare segments: " in label for label in told)


def test_nothing_is_measured_over_the_gaps_of_open_rings() -> None:
    """A wall at eight equal angles meets gaps where the segments are no multiple of eight; a leg sinks into one."""
    for name, open_rings in (("open", True), ("bowl", False)):
        told = {one.id: " ".join(one.how) for one in done(name)}
        assert ("on the wood beside it" in told["inside.sand"]) is open_rings
        assert ("legs of the callipers on wood" in told["outside.finished-stations"]) is open_rings


def test_a_disc_on_a_disc_lies_along_its_grain_and_has_no_joints_to_turn() -> None:
    rings = next(one for one in done("cup") if one.id == "stack.rings")
    assert any("grain of ring 2 along that of the disc below" in move for move in rings.how)
    plan, parts = job("cup")
    below, on = plan.stack.layers[:2]
    upright = replace(plan, stack=replace(plan.stack, layers=(below, replace(on, upright=True))))
    alone = next(one for one in operations(upright, parts) if one.id == "stack.rings")
    assert not [move for move in alone.how if "grain" in move or "joints" in move]


@each
def test_the_blade_stands_as_high_over_each_strip_as_over_the_thickest(name: str) -> None:
    plan, _ = job(name)
    cuts = {layer.number: layer.cut.length for layer in plan.planned.layers if layer.cut is not None}
    for sled in plan.saws.sleds:
        over = sled.layout.saw_height - sled.layout.height
        own = {ring for setting in sled.settings for ring in setting.rings}
        told = [
            (int(end.split("-")[0] or one.rings[0]), float(quantity.value))
            for one in done(name)
            if one.id.startswith("flat-segments.cut") and own.issuperset(one.rings)
            for quantity in one.settings
            for head, _, end in [quantity.id.partition(".")]
            if head == "blade-height"
        ]
        assert bool(told) == (max(cuts[n] for n in own) - min(cuts[n] for n in own) > 0.1)
        assert all(high - cuts[ring] == pytest.approx(over, abs=0.03) for ring, high in told)


DEEP = """title = "Deep"
[profile]
stations = [[0, 90], [240, 96]]
[wall]
thickness = 8
floor = 140
[reversing]
hold = "none"
[rings]
heights = 16
segments = 12
species = "maple"
"""


def test_the_picture_of_a_ring_going_on_the_stack_is_shown_where_that_ring_is_glued() -> None:
    plan = solve(parse(DEEP, "deep.toml"))
    drawn = ring_on(plan)
    assert drawn is not None
    showing = [one for one in operations(plan, tuple(draw(plan).parts)) if shown_by(one) == "stack.rings"]
    assert [one.id for one in showing] == ["stack.rings-2"]
    assert int(re.findall(r"Ring (\d+) goes onto", drawn.alt)[0]) in showing[0].rings
