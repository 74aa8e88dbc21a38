"""The jigs before the wood: measured for, printed, cut out and built, each by one operation."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from math import hypot, isclose, pi

import pytest

from geometry.hardware.fittings import (
    CLEARANCE,
    HEADS,
    LOCK_NUTS,
    NUTS,
    PAST_NUT,
    WASHERS,
    bolt_length,
    called,
    head_place,
    nut_place,
    sunk_length,
    washed,
)
from jigs.asked.jobfile import parse
from jigs.forms.work import work
from jigs.parts.families import FAMILIES
from jigs.parts.part import Part
from jigs.sets.rack import Proof, prove
from jigs.stages.shop.assumed import cut_to_assumed
from jigs.work.hardware import BOLT, bolts
from jigs.work.model import Operation, Work
from tests.jigs.vessel.jobs import text
from tests.jigs.wood.whole_jobs import ALL, RING
from tests.work import works
from tests.work.works import count_and_size

ON_PAPER = "".join(f"{family} = 'paper'\n" for family in ("sled", "segments", "truing", "clamping"))
SMALL_BED = text("vase", "mm", "[printer]\nbed = [140, 140]\n")
PAPER = RING.format(unit="mm", rings=18, segments=8, form="", more=f"[made]\n{ON_PAPER}")
INCHES = RING.format(
    unit="in", rings=18, segments=8, form="", more="[bolts]\ncentre = '3/8 in'\nbraces = 6\n"
)
BANDSAW = RING.format(
    unit="mm",
    rings=18,
    segments=8,
    form="",
    more="[bandsaw]\nheight = 160\n[cutting]\nwedge_rings = 'bandsaw'\nsegments = 'bandsaw'\nplan_angle_sled = true\n",
)
CUT = RING.format(unit="mm", rings=18, segments=8, form="", more="")
MORE = {"bandsaw": BANDSAW, "small bed": SMALL_BED, "on paper": PAPER, "in inches": INCHES}
BEFORE = ("shop", "coupon", "printing", "cutting_out", "building")


@cache
def proof_of(name: str) -> Proof:
    return prove(parse(MORE[name], "loop.toml")) if name in MORE else works.proof_of(name)


@cache
def whole(name: str) -> Work:
    if name not in MORE:
        return works.work_of(name)
    proof = proof_of(name)
    return work(proof.plan, proof.parts, proof.notes)


def done(name: str, *stages: str) -> list[Operation]:
    return [operation for operation in whole(name).operations if operation.stage in stages]


each = pytest.mark.parametrize("name", [*ALL, *MORE])


def test_a_sled_sawn_by_its_drawing_on_paper_is_built_as_one_that_is_cut() -> None:
    """As thick, with screws as long: a drawing shows no thickness, but the wood under it has one."""
    proof = prove(parse(CUT, "loop.toml"))
    cut = {one.id: one.settings for one in work(proof.plan, proof.parts, proof.notes).operations}
    for operation in done("on paper", "building"):
        assert operation.settings == cut[operation.id]
    goods = {one.id: one for operation in done("on paper", "cutting_out") for one in operation.uses_up}
    assert {"sheet.paper-12.00", "hardwood.sled-runner", "hardwood.segment-runner"} <= goods.keys()


@each
def test_each_part_comes_off_its_machine_once(name: str) -> None:
    """A part of several plates may lie on several sheets."""
    made: Counter[str] = Counter()
    for operation in done(name, "printing", "cutting_out", "coupon"):
        for use in operation.jigs:
            made[use.part] += 0 if operation.id.endswith((".join", ".read")) else use.quantity
    for part in proof_of(name).parts:
        assert made[part.name] == (0 if part.process == "turn" else part.quantity), part.name


@each
def test_what_is_more_than_one_cut_piece_is_built_by_one_operation(name: str) -> None:
    named = {part.name: part for part in proof_of(name).parts}
    building = [
        operation.jigs for operation in done(name, "building")
    ]  # beside a sled's own parts, plates that set or prove it
    taken = Counter(use.part for jigs in building for use in jigs if not named[use.part].jig.ready)
    for part in named.values():
        if part.process == "turn" or part.name == "gauge-rail":
            continue
        assert taken[part.name] == (0 if part.jig.ready else 1), part.name
        assert part.stack == 1 or not part.jig.ready, part.name


@each
def test_slots_that_a_router_leaves_round_are_filed_square_before_a_tab_is_tried(name: str) -> None:
    """A tab enters no slot with round corners, however well the sheet was measured."""
    parts = {part.name: part for part in proof_of(name).parts}
    sheets = [one for one in done(name, "cutting_out") if one.id.startswith("cutting_out.sheet")]
    slotted = [one for one in sheets if _slots(parts, one)]
    assert slotted or name == "on paper"
    for operation in slotted:
        assert any("file them square" in move for move in operation.how), operation.id


def _slots(parts: dict[str, Part], operation: Operation) -> bool:
    return any(not hole.as_circle for use in operation.jigs for hole in parts[use.part].holes)


@each
def test_what_is_ready_as_it_is_made_is_used(name: str) -> None:
    """Notes or none, of whatever family."""
    whole_of = {part.name: part.piece_of or part.name for part in proof_of(name).parts}
    making = ("printing", "cutting_out")
    used = {
        whole_of[use.part] for one in whole(name).operations if one.stage not in making for use in one.jigs
    }
    assert {whole_of[part.name] for part in proof_of(name).parts if part.jig.ready} <= used


def test_every_jig_that_is_listed_is_made_in_some_job() -> None:
    """All but those of a floating base, of a vessel's middle part, and of cores too wide for a plug without a hub."""
    made = {part.jig.name for name in (*ALL, *MORE) for part in proof_of(name).parts}
    listed = {jig.name for family in FAMILIES for jig in family.jigs}
    assert listed - made == {
        "groove-gauge", "tongue-gauge", "middle-inside-gauge", "sled-plug-cheek", "sled-plug-hub",
    }  # fmt: skip


@each
def test_how_a_part_is_made_is_told_in_one_operation(name: str) -> None:
    told = Counter(
        (use.part, note) for operation in done(name, *BEFORE) for use in operation.jigs for note in use.notes
    )
    for part in proof_of(name).parts:
        for note in part.making:
            assert told[part.name, note] == 1, (part.name, note)


@each
def test_what_came_in_pieces_is_joined_once(name: str) -> None:
    pieces = {part.name for part in proof_of(name).parts if part.piece_of}
    joined = [operation for operation in done(name, "cutting_out") if operation.id == "cutting_out.join"]
    assert {use.part for operation in joined for use in operation.jigs} == pieces
    assert len(joined) == bool(pieces)


def test_a_small_bed_gives_pieces() -> None:
    assert any(part.piece_of for part in proof_of("small bed").parts)


@each
def test_glue_is_waited_for_and_what_spins_is_cured(name: str) -> None:
    glue = proof_of(name).plan.wood.glue
    for operation in done(name, "building"):
        if "Glue" in operation.does or any(sentence.startswith("Glue") for sentence in operation.how):
            assert operation.hours >= glue.clamp_time or operation.id.endswith("rod"), operation.id
        if operation.id.partition(".")[2] in ("support-boards", "retainer", "mouth-plug"):
            assert operation.hours >= glue.clamp_time + glue.cure


@each
def test_every_step_is_proved_and_says_what_to_do_if_it_is_wrong(name: str) -> None:
    for operation in done(name, *BEFORE):
        assert operation.checks, operation.id
        for check in operation.checks:
            assert check.if_not, operation.id


@each
def test_a_step_is_short(name: str) -> None:
    for operation in done(name, *BEFORE):
        assert len(operation.does.split()) <= 20, operation.does
        assert len(operation.how) <= 8, operation.id
        for sentence in operation.how:
            assert all(len(one.split()) < 20 for one in sentence.split(". ")), sentence
        assert operation.minutes > 0


@each
def test_what_lies_on_a_sheet_is_as_thick_as_it(name: str) -> None:
    parts = {part.name: part for part in proof_of(name).parts}
    for operation in done(name, "cutting_out"):
        for setting in operation.settings:
            if setting.id == "thickness":
                for use in operation.jigs:
                    assert setting.value == pytest.approx(parts[use.part].thickness, abs=0.3)


def test_a_shop_that_is_not_measured_has_a_box_for_each_value_and_names_the_jigs_that_wait() -> None:
    parts = proof_of("vase").parts
    assumed = cut_to_assumed(proof_of("vase").plan.job, parts)
    assert assumed
    boxes = {reading.id for operation in done("vase", "shop") for reading in operation.readings}
    assert set(assumed) <= boxes
    waiting = {use.part for operation in done("vase", "shop") for use in operation.jigs}
    assert waiting == {part.name for parts in assumed.values() for part in parts}


def test_a_shop_that_is_measured_waits_for_nothing() -> None:
    assert not [use for operation in done("garland", "shop") for use in operation.jigs]
    told = {setting.id for operation in done("garland", "shop") for setting in operation.settings}
    assert {"saw.slot_width", "saw.kerf", "boards.sheet", "lathe.swing_over_bed"} <= told


@pytest.mark.parametrize("name", ["garland", "bandsaw"])
def test_the_bandsaw_is_measured_where_it_cuts(name: str) -> None:
    cuts = name == "bandsaw"
    assert ("shop.bandsaw" in {operation.id for operation in done(name, "shop")}) is cuts
    places = {o.id: o.place for o in done(name, "building") if o.id.endswith("-first-pass")}
    assert places["building.ring-sled-first-pass"] == ("bandsaw" if cuts else "table saw")
    heights = [
        next(size for size in one.settings if size.id in ("height", "blade-height"))
        for one in whole(name).operations
        if one.id in ("building.ring-sled-first-pass", "wedge_rings.set")
    ]
    assert {(size.label, size.value) for size in heights} == {
        (f"{'Guides' if cuts else 'Blade'} above the table", heights[0].value)
    }
    guides = [o for o in done(name, "building") if o.id.endswith("-guide")]
    assert len(guides) == (2 if cuts else 0)


@each
def test_all_of_the_coupon_is_read(name: str) -> None:
    (read,) = [operation for operation in done(name, "coupon") if operation.id == "coupon.read"]
    ids = [reading.id for reading in read.readings]
    assert [len([id for id in ids if id.startswith(sort)]) for sort in ("outside", "inside", "hole")] == [
        4,
        4,
        4,
    ]
    assert "thickness" in ids
    assert "printer.play" in ids


@each
def test_the_play_of_slots_is_felt_by_the_sheets_own_edge(name: str) -> None:
    by_id = {operation.id: operation for operation in done(name, "coupon", "shop")}
    where = [id for id, one in by_id.items() for reading in one.readings if reading.id == "boards.play"]
    assert where == ["coupon.sheet" if "coupon.sheet" in by_id else "shop.sheets"]


@pytest.mark.parametrize("name", ["garland", "no half sanding", "on paper"])
def test_each_wedge_is_bored_and_pegged_the_thinner_one_less_deep(name: str) -> None:
    wedges = {o.id: o for o in done(name, "building") if o.id.endswith("-wedge")}
    parts = {part.name: part for part in proof_of(name).parts}
    for id, operation in wedges.items():
        part = parts[id.partition(".")[2]]
        assert part.bore is not None
        assert operation.setting("rod.along").value == part.bore.along
    if len(wedges) == 2:
        first, end = (
            wedges[f"building.{name}"].setting("peg.depth").value for name in ("sled-wedge", "end-wedge")
        )
        assert float(first) - float(end) == pytest.approx(
            float(wedges["building.end-wedge"].checks[0].sizes[0].value)
        )


def test_paper_is_proved_to_be_at_full_size() -> None:
    papers = [o for o in done("on paper", "cutting_out") if o.id.startswith("cutting_out.paper")]
    assert len(papers) > 1
    for paper in papers:
        assert [size.value for check in paper.checks for size in check.sizes] == [100.0]


@each
def test_hold_downs_have_bolts_for_each_slide_and_a_cam_for_each(name: str) -> None:
    for operation in done(name, "building"):
        if operation.id.endswith("-holds"):
            cams = sum(use.quantity for use in operation.jigs if "-cam" in use.part)
            found = {s.id: count_and_size(s)[0] for s in operation.settings if s.id.startswith(BOLT)}
            assert found == {"bolt.guide": 2 * cams, "bolt.pivot": cams}, operation.id


@each
def test_bolts_are_counted_and_of_threads_that_there_are(name: str) -> None:
    found = [
        setting
        for operation in done(name, "building")
        for setting in operation.settings
        if setting.id.startswith(BOLT)
    ]
    assert found
    for setting in found:
        count, size = count_and_size(setting)
        assert count > 0
        assert size.partition(" x ")[0].removesuffix(" threaded rod") in map(called, CLEARANCE)


@pytest.mark.parametrize("thread", list(LOCK_NUTS))
@pytest.mark.parametrize("through", [8.0, 23.8, 60.0, 120.0])
def test_a_bolt_takes_wood_washers_nut_and_a_thread(thread: str, through: float) -> None:
    length = bolt_length(thread, through)
    least = through + 2 * WASHERS[thread] + LOCK_NUTS[thread] + PAST_NUT
    assert length is not None
    assert least <= length < least + 25.4
    assert sunk_length(thread, max(through, 14.0)) < max(through, 14.0)


def test_no_bolt_is_sold_that_goes_through_too_much() -> None:
    assert bolt_length("M6", 300.0) is None


def test_a_bolt_is_told_as_it_is_sold() -> None:
    assert bolts("x", "Bolts", 4, "M6", 24.0).setting.value == "4 x M6 x 40"
    assert bolts("x", "Bolts", 2, "1/4 in", 40.0).setting.value == "2 x 1/4-20 x 2 1/4 in"
    assert bolts("x", "Bolts", 1, "M6", 300.0).setting.value == "1 x M6 threaded rod"


@pytest.mark.parametrize("thread", ["M8", "5/16 in"])
@pytest.mark.parametrize("through", [40.0, 93.6, 120.0, 149.0])
def test_washers_bring_a_bolts_end_to_its_nut_so_that_none_is_sawn(thread: str, through: float) -> None:
    found = washed(thread, through)
    assert found is not None
    length, washers, block = found
    past = length - through - washers * WASHERS[thread] - block - LOCK_NUTS[thread]
    assert 1 <= washers <= 5, "no pile that leans"
    assert PAST_NUT - 1e-9 <= past < PAST_NUT + WASHERS[thread]


@pytest.mark.parametrize("thread", list(HEADS))
def test_a_head_lets_into_its_bore_whole(thread: str) -> None:
    (across, deep), (nut_across, nut_deep) = head_place(thread), nut_place(thread)
    assert across > NUTS[thread][0]
    assert nut_across == across
    assert deep > HEADS[thread]
    assert nut_deep > NUTS[thread][1]


@each
def test_a_value_that_a_file_states_is_measured_beside_its_key(name: str) -> None:
    for operation in done(name, "shop"):
        told = " ".join(operation.how)
        for setting in operation.settings:
            table, key = setting.id.split(".")[:2]
            assert re.search(rf"Keys in \[{table}\]: [^.]*\b{key}\b", told)


@each
def test_discs_bored_off_their_middle_are_glued_with_those_holes_in_line(name: str) -> None:
    """A rod through the middle lets a disc turn: bolts would not pass through all of its layers."""
    for part in proof_of(name).parts:
        middle = [hypot(*hole.centroid) < 0.1 for hole in part.holes]
        x0, _, x1, _ = part.outline.bounds
        if part.stack > 1 and not all(middle) and isclose(abs(part.outline.area), pi * (x1 - x0) ** 2 / 4):
            (built,) = (one for one in done(name, "building") for use in one.jigs if use.part == part.name)
            assert any("bolts through two of the braces' holes" in move for move in built.how), part.name
