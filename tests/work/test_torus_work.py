"""The work on a torus: every jig's use is told, in the order of the work, with the plan's own numbers."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from math import cos, pi

import pytest

from geometry.blanks.truing import until_clean
from jigs.render.lines import shown
from jigs.stages.boards.tables import tables as cut_tables
from tests.work.reading import bones, numbers
from tests.work.tori import done, each, ids, job, one, operations
from tests.work.works import work_of

BEFORE = ("shop", "coupon", "printing", "cutting_out", "building")  # tests/work/test_building.py


@each
def test_every_jig_that_has_something_to_say_of_its_use_is_used(name: str) -> None:
    at_work = [operation for operation in done(name) if operation.stage not in BEFORE]
    used = {use.part for operation in at_work for use in operation.jigs}
    wanted = {part.name for part in job(name)[1] if part.notes}
    worked_with = ("gauges", "standing", "sizes", "clamping", "angles", "mountings", "holding")
    wanted |= {part.name for part in job(name)[1] if part.family in worked_with}
    assert wanted <= used


@each
def test_each_note_is_told_and_one_of_gauges_once_in_a_stage(name: str) -> None:
    for part in job(name)[1]:
        for note in part.notes:
            alike = {other.name for other in job(name)[1] if note in other.notes}
            using = [one for one in done(name) if any(use.part in alike for use in one.jigs)]
            telling = [one for one in using if any(note in use.notes for use in one.jigs)]
            assert telling, (part.name, note)
            at_lathe = Counter(one.stage for one in telling if one.place == "lathe")
            assert max(at_lathe.values(), default=1) == 1, (part.name, note)


IN_ORDER = (
    ("boards.pick", "boards.crosscut", "boards.mill", "boards.rip", "boards.scrap", "segments.tilt"),
    (
        "layup.plies",
        "layup.sheets",
        "layup.strips",
        "layup.stacks",
        "layup.tails",
        "layup.slabs",
        "layup.trim",
    ),
    (
        "layup.trim",
        "layup.sand",
        "layup.blocks",
        "layup.rails",
        "segments.mitre",
        "segments.split",
        "rings.sand",
    ),
    (
        "segments.tilt",
        "segments.stop",
        "segments.first",
        "segments.trial",
        "segments.scrap",
        "segments.mitre",
        "rings.sand",
        "rings.lay-out",
    ),
    (
        "rings.lay-out",
        "rings.halves",
        "rings.true",
        "rings.close",
        "rings.scrap",
        "rings.flatten",
        "labels.stick",
    ),
    ("labels.stick", "wedge_rings.set", "wedge_rings.plug", "wedge_rings.trial", "wedge_rings.first"),
    ("wedge_rings.first", "wedge_rings.second", "wedge_rings.ends", "wedge_rings.spare", "glue_up.faces"),
    ("glue_up.faces", "glue_up.dry", "glue_up.quarters", "glue_up.check-quarters", "glue_up.blocks-quarters"),
    ("glue_up.blocks-quarters", "glue_up.halves", "glue_up.clear-halves", "glue_up.check-halves"),
    ("glue_up.halves", "glue_up.check-halves", "glue_up.true-halves", "glue_up.blocks", "glue_up.blank"),
    ("glue_up.blocks", "glue_up.blank", "glue_up.clear", "glue_up.cure", "first_mounting.flat"),
    (
        "first_mounting.flat",
        "first_mounting.board",
        "first_mounting.glue",
        "first_mounting.balance",
        "first_mounting.start",
    ),
    ("first_mounting.start", "roughing.sizes", "gauging.finished", "gauging.standing", "sanding.first-side"),
    (
        "sanding.first-side",
        "reversed_mounting.retainer",
        "reversed_mounting.reverse",
        "reversed_mounting.saw",
    ),
    ("reversed_mounting.saw", "braced_mounting.channel", "braced_mounting.seat", "braced_mounting.start"),
    ("braced_mounting.start", "braced_mounting.turn", "braced_mounting.sand", "last_mounting.retainer"),
    (
        "last_mounting.retainer",
        "last_mounting.turn",
        "last_mounting.sand",
        "last_mounting.off",
        "finish.coats",
    ),
)


@each
@pytest.mark.parametrize("chain", IN_ORDER, ids=lambda chain: chain[0])
def test_nothing_is_used_before_it_is_made(name: str, chain: tuple[str, ...]) -> None:
    found = ids(name)
    places = [found.index(id) for id in chain if id in found]
    assert places == sorted(places)


@each
def test_blocks_are_on_no_half_that_lies_on_its_flats_to_be_trued(name: str) -> None:
    found = ids(name)
    assert found.index("glue_up.true-halves") < found.index("glue_up.blocks") < found.index("glue_up.blank")
    assert (
        ("glue_up.blocks-quarters" in found)
        == ("glue_up.clear-halves" in found)
        == ("glue_up.quarters" in found)
    )


@each
def test_of_each_ring_in_the_corner_both_edges_are_read(name: str) -> None:
    second = next(one for one in done(name) if one.id == "wedge_rings.second")
    counts = {one.id: one.count for one in second.readings}
    assert counts["thin-edge"] == counts["thick-edge"]


@each
def test_what_is_sanded_off_a_segments_ends_is_read_at_its_outer_edge(name: str) -> None:
    plan, _ = job(name)
    cut, glued = (
        next(size.value for check in one(name, id).checks for size in check.sizes if size.id == "outer-edge")
        for id in ("segments.mitre", "rings.sand")
    )
    assert cut - glued == pytest.approx(2 * plan.job.form.joint_sanding / cos(pi / plan.blank.segments))


@each
def test_a_band_helps_the_blocks_where_none_stands_in_its_way_on_the_rim(name: str) -> None:
    (blank,) = (one for one in done(name) if one.id == "glue_up.blank")
    assert ("band" in {one.id for one in blank.settings}) == job(name)[0].blank.arris_out


@each
def test_the_face_that_is_an_end_is_sawn_last_its_other_face_on_the_end_wedge(name: str) -> None:
    plan, _ = job(name)
    first = next(one for one in done(name) if one.id == "wedge_rings.first")
    if "wedge_rings.ends" not in ids(name):
        assert "face 1 to the fence" in first.how[0]
        return
    turned = [ring for ring, face in plan.half_ends.items() if face == 2]
    assert all(str(ring) in first.how[1] for ring in turned)
    assert "face 2 (END) to the fence" in first.how[1]


@each
def test_every_chain_ends_in_the_finish(name: str) -> None:
    always = ("labels.stick", "wedge_rings.second", "glue_up.blank", "gauging.finished", "last_mounting.turn")
    assert set(always) <= set(ids(name))


@each
def test_all_of_the_glue_is_told_with_its_batches_and_its_drying(name: str) -> None:
    plan, _ = job(name)
    glued = [operation for operation in done(name) if any(q.id == "batches" for q in operation.known)]
    assert len(glued) == len(plan.wood.glue.stages)
    glue = plan.wood.glue
    batches = sum(stage.batches for stage in glue.stages)
    assert sum(int(operation.setting("batches").value) for operation in glued) == batches
    dried = glue.cure * len(glue.dried)
    assert sum(operation.hours for operation in glued) == pytest.approx(batches * glue.clamp_time + dried)


@each
def test_the_ends_of_halves_are_named_face_by_face(name: str) -> None:
    plan, _ = job(name)
    labels = next(operation for operation in done(name) if operation.id == "labels.stick")
    ends = {q.id: q.value for q in labels.settings if q.id.startswith("end-")}
    wanted = plan.half_ends if plan.job.form.half_sanding else {}
    assert ends == {f"end-{ring}": f"face {face}" for ring, face in wanted.items()}


@each
def test_rewording_changes_no_id_and_no_value(name: str) -> None:
    plan, parts = job(name)
    other = operations(
        plan,
        tuple(replace(part, purpose="said anew", notes=("said anew",) * bool(part.notes)) for part in parts),
    )
    assert [bones(operation) for operation in other] == [bones(operation) for operation in done(name)]


@each
def test_every_step_takes_some_time(name: str) -> None:
    assert all(operation.minutes > 0 for operation in done(name))


@each
def test_a_step_is_short(name: str) -> None:
    for operation in done(name):
        assert len(operation.does.split()) <= 20, operation.does
        assert len(operation.how) <= 8, operation.id
        assert operation.does.endswith(".")
        for move in operation.how:
            assert move.endswith("."), move


@each
def test_every_step_is_checked_or_only_waits_or_sets_up_a_start(name: str) -> None:
    unchecked = {operation.id for operation in done(name) if not operation.checks}
    assert unchecked <= {"first_mounting.start", "finish.place"}
    for operation in done(name):
        assert all(check.if_not for check in operation.checks), operation.id


def test_a_bandsaw_tilts_its_table() -> None:
    for name, tilted, high in (
        ("bandsaw", "Table tilt", "Guides above the table, along the blade"),
        ("garland", "Blade tilt", "Blade above the table, along the tilt"),
    ):
        assert next(one for one in done(name) if one.id == "segments.tilt").setting("tilt").label == tilted
        labels = {column.label for table in cut_tables(job(name)[0]) for column in table.columns}
        assert {label for label in labels if "tilt" in label} <= {tilted, high}
        assert {label for label in labels if "above the table" in label} == {high}


def test_the_half_check_says_which_light_means_which_error() -> None:
    plan, _ = job("garland")
    short = until_clean(plan.blank, -0.01)
    assert short.inner > short.outer == 0  # wood lies proud at the hole, so the light is at the rim
    told = " ".join(one("garland", "glue_up.check-halves").how)
    assert told.index("rim: the half spans too little") < told.index("hole: it spans too much")


@each
def test_second_cuts_begin_with_the_wedges_peg(name: str) -> None:
    for id in ("wedge_rings.second", "wedge_rings.ends"):
        if id in ids(name):
            assert "peg home in" in one(name, id).how[0]
            assert "sled.peg" in one(name, id).cautions


def test_the_pin_is_out_before_the_blade_turns() -> None:
    assert "Pull the pin before the blade turns, then cut." in one("plied torus", "layup.slabs").how


def test_what_no_calliper_sets_is_told_as_a_rule_shows_it() -> None:
    """The retainer's rim has to be blunt, not exact."""
    (land,) = [own for one in done("quoit") for own in one.settings if own.id == "land"]
    assert shown(land, "in") == "0.079 in (5/64)"


def test_a_job_in_inches_says_no_millimetre() -> None:
    for operation in done("quoit"):
        told = (operation.does, operation.trial, *operation.how, *(q.label for q in numbers(operation)))
        checks = tuple(text for check in operation.checks for text in (check.how, check.if_not))
        notes = tuple(note for use in operation.jigs for note in use.notes)
        assert not [text for text in (*told, *checks, *notes) if " mm" in text or "millimetre" in text]


@pytest.mark.parametrize("name", ["two woods", "woods by rings", "sorrel"])
def test_pieces_of_several_woods_are_counted_by_wood(name: str) -> None:
    counted = 0
    for operation in work_of(name).operations:
        of = [int(q.value) for q in operation.settings if q.id.startswith("of-") and "." not in q.id]
        if of:
            counted += 1
            assert sum(of) == operation.pieces, operation.id
    assert counted
