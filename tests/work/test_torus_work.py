"""The work on a torus: every jig's use is told, in the order of the work, with the plan's own numbers."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cache
from math import pi

import numpy as np
import pytest

from geometry.blanks.truing import until_clean
from geometry.bodies.torus import least_wood
from jigs.forms.torus.form import TORUS
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.render.lines import shown
from jigs.sets.rack import draw
from jigs.stages.blank.tables import facts
from jigs.stages.boards.tables import tables as cut_tables
from jigs.stages.lathe.tables import of_torus
from jigs.stages.mountings.solve.holding import solve_holding
from jigs.words.quantity import Quantity
from jigs.work.model import Operation, Rack
from tests.jigs.wood.whole_jobs import CONFIG_TORI, LAYUPS, TORI, plan_of, torus
from tests.work.reading import bones, numbers
from tests.work.works import work_of

BANDSAW = "[bandsaw]\nheight = 160\n[cutting]\nwedge_rings = 'bandsaw'\nsegments = 'bandsaw'\nplan_angle_sled = true\n"
MORE = {
    "bandsaw": {"more": BANDSAW},
    "sixteen": {"rings": 16, "form": "turning_allowance = 3"},
    "six sides": {"segments": 6},
}
BEFORE = ("shop", "coupon", "printing", "cutting_out", "building")  # tests/work/test_building.py
JOBS = (*CONFIG_TORI, *TORI, LAYUPS[0], *MORE)
each = pytest.mark.parametrize("name", JOBS)


@cache
def job(name: str) -> tuple[TorusPlan, tuple[Part, ...]]:
    proof = draw(torus(**MORE[name]) if name in MORE else plan_of(name))
    assert isinstance(proof.plan, TorusPlan)
    return proof.plan, tuple(proof.parts)


@cache
def done(name: str) -> tuple[Operation, ...]:
    plan, parts = job(name)
    return operations(plan, parts)


def operations(plan: TorusPlan, parts: tuple[Part, ...]) -> tuple[Operation, ...]:
    rack = Rack(parts)
    return tuple(operation for stage in TORUS.stages for operation in stage.operations(plan, rack))


def ids(name: str) -> list[str]:
    return [operation.id for operation in done(name)]


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
    assert sum(int(operation.setting("batches").value) for operation in glued) == plan.wood.glue.batches
    dried = plan.wood.glue.cure * len(plan.wood.glue.dried)
    assert sum(operation.hours for operation in glued) == pytest.approx(plan.wood.glue.hours + dried)


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


def one(name: str, id: str) -> Operation:
    return next(operation for operation in done(name) if operation.id == id)


def test_a_bandsaw_tilts_its_table() -> None:
    for name, tilted in (("bandsaw", "Table tilt"), ("garland", "Blade tilt")):
        assert next(one for one in done(name) if one.id == "segments.tilt").setting("tilt").label == tilted
        labels = {column.label for table in cut_tables(job(name)[0]) for column in table.columns}
        assert {label for label in labels if "tilt" in label} == {tilted}


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


@each
def test_speeds_are_those_of_the_widest_thing_that_spins(name: str) -> None:
    plan, held = job(name)[0], job(name)[0].holding
    (layer,) = (part for part in job(name)[1] if part.name == "support-board-layer")
    left, _, right, _ = layer.outline.bounds
    widest = {"reversed_mounting.retainer": held.retainer_blank}
    spun = [operation for operation in done(name) if any(q.id == "speed.to" for q in operation.settings)]
    starts = {f"{stage}_mounting.start" for stage in ("first", "reversed", "braced", "last")}
    turned = {"first_mounting.board", "reversed_mounting.retainer", "braced_mounting.channel"}
    assert {operation.id for operation in spun} == starts | turned
    for operation in spun:
        across = widest.get(operation.id, max(right - left, 2 * plan.blank.swing_radius))
        fast = next(q.value for q in operation.settings if q.id == "speed.to")
        assert isinstance(fast, int)
        rim = pi * across / 1000 * fast / 60  # m/s
        assert 11.8 < rim < 12.0 or (fast == 1500 and rim < 12.0)  # the most for what is not round yet


@each
def test_the_swing_told_is_the_least_that_turns_these_boards(name: str) -> None:
    plan = job(name)[0]
    (swing,) = (q.value for q in facts(plan) if q.id == "swing")
    lathe = [cell for table in of_torus(plan) if table.id == "lathe" for row in table.rows for cell in row]
    assert swing in [cell.value for cell in lathe if isinstance(cell, Quantity) and cell.id == "swing"]
    assert isinstance(swing, float)
    assert swing <= plan.job.workshop.lathe.swing_over_bed + 1e-9

    def board(over_bed: float) -> float:
        shop = plan.job.workshop
        lathe = replace(shop.lathe, swing_over_bed=over_bed)
        job = replace(plan.job, workshop=replace(shop, lathe=lathe))
        return solve_holding(job, job.form.outer_diameter).board_diameter

    assert board(swing) == pytest.approx(plan.holding.board_diameter)
    assert board(swing - 1) == pytest.approx(plan.holding.board_diameter - 1)


@each
def test_the_faceplate_lets_the_tool_past_the_retainers_rim_and_the_work_past_it(name: str) -> None:
    plan = job(name)[0]
    plate, rim = (one(name, f"reversed_mounting.{id}") for id in ("faceplate", "retainer"))
    across = plate.setting("faceplate").value
    turned = rim.setting("rim").value
    assert isinstance(across, float)
    assert isinstance(turned, float)
    assert (turned - across) / 2 >= plan.job.workshop.holding.tool_room - 1e-9
    assert across <= plan.holding.retainer.clears


def test_nothing_that_balances_stands_where_the_old_board_is_turned_or_sawn() -> None:
    """Turned round, the board's back looks at the turner: a block there stays inside the circle, and off the saw."""
    plan = plan_of("garland")
    step = {operation.id: operation for operation in done("garland")}
    inside = step["first_mounting.balance"].setting("within").value
    assert inside == step["reversed_mounting.turn-away"].setting("left").value
    assert "unscrew the block" in step["reversed_mounting.saw"].how[0]
    depth = step["braced_mounting.balance"].setting("screws.depth").value
    channel = plan.holding.channel
    assert isinstance(depth, float)
    assert depth < plan.holding.board_thickness - channel.depth - channel.relief_depth


@pytest.mark.parametrize(("name", "reached"), [("garland", True), ("millwheel", False)])
def test_the_tailstock_is_drawn_back_where_a_gauge_meets_it_and_the_glue_alone_holds(
    name: str, reached: bool
) -> None:
    plan, _ = job(name)
    told = {operation.id: " ".join(operation.how) for operation in done(name)}
    assert "draw the tailstock back" in told["roughing.sizes"], "a stick reaches right across the hole"
    assert "draw the tailstock back" in told["gauging.finished"]
    assert ("draw the tailstock back" in told["gauging.standing"]) == reached
    glued, first = next(held for held in plan.mountings.held if held.mounting == "A"), plan.mountings.first
    assert glued.held, "against the tool's push too"
    assert glued.pull == 0, "of no tailstock"
    # At rest: the wood's weight bends the glue's thin ring, M / (pi R² t); under a tenth of what glue is allowed.
    newtons = plan.blank.volume * 1.2e-6 * 9.81  # of ebony
    ring = pi * plan.blank.centre**2 * plan.mountings.waste_flat
    assert newtons * first.centre_height / ring < 0.06


@pytest.mark.parametrize(("name", "widened"), [("garland", True), ("six sides", False)])
def test_the_flats_for_the_glue_are_sanded_until_one_thing_is_seen(name: str, widened: bool) -> None:
    """A flat that is too narrow as sawn is sanded past its pencil, to a width; any other is left by it."""
    flat = next(one for one in done(name) if one.id == "first_mounting.flat")
    told = " ".join(flat.how)
    assert ("until every flat is as wide as listed" in told) == widened
    assert ("when the pencil is gone" in told) != widened
    assert [one.value for one in flat.known] == [job(name)[0].mountings.sanded] * widened


@pytest.mark.parametrize("name", ["garland", "two woods"])
def test_what_trued_half_rings_lose_is_told_where_they_are_trued_and_measured_after(name: str) -> None:
    """Both halves sanded by 0.5 mm and closed; the wood round the form then, an outer flat where the stop had it."""
    plan, off = job(name)[0], 0.5
    blank = plan.blank
    normals = (np.arange(blank.segments // 2) + 0.5) * 2 * blank.mitre  # of the half over the joints' line
    halves = [blank.apothem - off * np.sin(normals)] * 2  # both move to that line
    narrower = 2 * blank.apothem - sum(halves)
    assert narrower.max() == pytest.approx(2 * off, rel=0.08), "midway between the joints: all of both halves"
    worst = replace(
        blank, apothem=blank.apothem - off, centre=blank.centre + off
    )  # its outer flat where it was
    form = plan.job.form
    lost = least_wood(blank, form.major_radius, form.tube) - least_wood(worst, form.major_radius, form.tube)
    assert off < lost == pytest.approx(2 * off, rel=0.08), "not half of what is measured"
    told = {one.id: one for one in done(name)}
    assert "the ring loses across the flats midway" in told["rings.true"].how[-1]
    across = next(check for check in told["rings.flatten"].checks if check.id == "across")
    assert "each pair" in across.how
    assert "less by as much" in across.if_not
