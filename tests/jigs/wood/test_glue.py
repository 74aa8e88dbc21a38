"""Faces, bands and batches, counted again from the corners of the pieces."""

from math import ceil, cos, pi, sin, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.glue_width import contact_area
from jigs.asked.job_wood import Glue
from jigs.forms.form import parts_of
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.glue_up.plan import GlueStage
from jigs.stages.glue_up.solve.stages import arc_sizes, joints_in_time, ring_stages, torus_stages
from tests.jigs.wood.whole_jobs import ALL, plan_of, torus, vessel

Corner = tuple[float, float, float]


def area(corners: list[Corner]) -> float:
    """Of a flat polygon in space: half the length of the summed cross products."""
    p = np.array(corners)
    return float(np.linalg.norm(np.cross(p, np.roll(p, -1, axis=0)).sum(axis=0)) / 2)


def faces(plan: TorusPlan | VesselPlan, name: str) -> float:
    return sum(of.area for of in plan.wood.glue.faces if of.name == name)


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit"])
def test_the_faces_of_a_torus_are_those_of_its_corners(name):
    plan = plan_of(name)
    assert isinstance(plan, TorusPlan)
    blank, n, made = plan.blank, plan.blank.segments, plan.blank.wedge_rings + len(plan.spare_rings)
    half = (plan.ring_cut.ring_thickness + plan.job.form.flattening) / 2
    out, core = (apothem / cos(blank.mitre) for apothem in (blank.apothem, blank.core_apothem))
    mitre = area([(r, y, 0.0) for r, y in ((core, -half), (out, -half), (out, half), (core, half))])
    assert faces(plan, "mitres") == pytest.approx(made * n * mitre)

    def lifted(radius: float, turn: float) -> Corner:
        """A corner of the ring where the face y = x · tan w cuts the prism."""
        x, z = blank.centre + radius * cos(turn), radius * sin(turn)
        return (x, x * tan(blank.half_wedge), z)

    turns = [(k * 2 * blank.mitre, (k + 1) * 2 * blank.mitre) for k in range(n)]
    pieces = [[lifted(core, a), lifted(out, a), lifted(out, b), lifted(core, b)] for a, b in turns]
    assert faces(plan, "wedge faces") == pytest.approx(blank.wedge_rings * sum(map(area, pieces)))


@pytest.mark.parametrize("name", ["sorrel", "bottle", "bowl", "tumbler"])
def test_segments_of_a_vessel_are_glued_on_the_ends_that_their_corners_give(name):
    plan = plan_of(name)
    assert isinstance(plan, VesselPlan)
    ends = 0.0
    for layer in plan.stack.layers:
        if layer.kind == "segments":
            ring = layer.ring
            slant = np.hypot((ring.outer_edge - ring.inner_edge) / 2, ring.depth)
            joints = ring.segments * (2 if ring.spacer else 1)
            ends += joints * slant * ring.height
    assert faces(plan, "mitres") + faces(plan, "strips") == pytest.approx(ends)


def test_staves_are_glued_on_the_faces_that_their_corners_give():
    plan = plan_of("staved")
    assert isinstance(plan, VesselPlan)
    band = plan.stack.staves
    assert band is not None
    corners = [
        (band.outer_at(band.low), band.low),
        (band.outer_at(band.high), band.high),
        (band.inner_at(band.high), band.high),
        (band.inner_at(band.low), band.low),
    ]
    edge = area([(r / cos(band.mitre), 0.0, z) for r, z in corners])
    assert faces(plan, "stave edges") == pytest.approx(band.count * edge)


@pytest.mark.parametrize("name", ["vase", "platter", "bottle", "staved", "open"])
def test_rings_as_glued_meet_on_more_than_is_left_after_turning(name):
    plan = plan_of(name)
    assert isinstance(plan, VesselPlan)
    found = [of for of in plan.wood.glue.faces if of.name == "ring on ring"]
    for joint, of in zip(plan.stack.joints, found, strict=True):
        assert of.rings == (joint.lower, joint.upper)
        assert of.area > joint.glue_area
    assert len(found) == len(plan.stack.layers) - 1


def test_gaps_of_open_rings_take_their_share_of_the_glue():
    plan = vessel("open")
    glued = {of.rings: of.area for of in plan.wood.glue.faces if of.name == "ring on ring"}
    for joint in plan.stack.joints:
        lower, upper = plan.stack.layers[joint.lower - 1], plan.stack.layers[joint.upper - 1]
        gaps = sum(layer.ring.segments * 5.0 for layer in (lower, upper) if layer.kind == "open")
        whole = contact_area(lower.ring, upper.ring, upper.turned - lower.turned)
        share = 1 - gaps / (pi * (joint.inner + joint.outer))
        assert glued[(joint.lower, joint.upper)] == pytest.approx(share * whole)
    assert any(layer.kind == "open" for layer in plan.stack.layers)


@pytest.mark.parametrize("name", ALL)
def test_grams_are_the_area_times_the_spread(name):
    plan = plan_of(name)
    glue, spread = plan.wood.glue, plan.job.workshop.glue.spread
    assert all(face.grams == pytest.approx(face.area / 1e6 * spread) for face in glue.faces)
    assert all(face.grams > 0 for face in glue.faces)


@pytest.mark.parametrize("name", ["garland", "quoit", "millwheel"])
def test_bands_of_a_torus_go_round_its_corners(name):
    plan = plan_of(name)
    assert isinstance(plan, TorusPlan)
    blank, overlap = plan.blank, plan.job.workshop.clamping.band_overlap
    turns = [2 * blank.mitre * k for k in range(blank.segments)]
    corners = np.array([(cos(a), sin(a)) for a in turns]) * blank.apothem / cos(blank.mitre)
    around = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T).sum()
    assert plan.wood.glue.band(1).length == pytest.approx(around + overlap)
    rim = [2 * blank.half_wedge * k for k in range(blank.wedge_rings)]
    corners = np.array([(cos(a), sin(a)) for a in rim]) * blank.swing_radius
    around = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T).sum()
    assert plan.wood.glue.band(None).length == pytest.approx(around + overlap)


def test_bands_of_a_vessel_are_for_each_ring_that_is_closed():
    plan = vessel("staved")
    closed = {layer.number: layer.ring for layer in plan.stack.layers if layer.kind in ("segments", "staves")}
    bands = plan.wood.glue.bands
    assert [band.rings for band in bands] == [(number,) for number in closed]
    for band, ring in zip(bands, closed.values(), strict=True):
        assert band.length > 2 * ring.segments * ring.outer * tan(ring.mitre)
    with pytest.raises(StopIteration):
        vessel("open").wood.glue.band(2)


def test_so_many_joints_close_as_the_open_time_allows():
    glue = Glue(open_time=8, joint_time=0.5, area_time=4, clamp_time=1, cure=24, spread=180)
    assert joints_in_time(glue, 0.0) == 16
    assert joints_in_time(Glue(0.3, 0.1, 0, 1, 24, 180), 1e6) == 3  # not 2 by rounding
    assert joints_in_time(Glue(0.4, 0.5, 0, 1, 24, 180), 0.0) == 0


def test_a_large_joint_takes_longer_to_spread():
    glue = Glue(open_time=8, joint_time=0.5, area_time=4, clamp_time=1, cure=24, spread=180)
    assert joints_in_time(glue, 600 * 300) == 6  # half a minute and 0.72 for each of them
    assert joints_in_time(glue, 2000 * 1000) == 0


def arcs_left(stages: list[GlueStage], pieces: int, rings: int) -> int:
    """Glue the stages one after another and count what is left; each takes what the one before left."""
    left = rings * pieces
    for stage in stages:
        assert stage.count <= left <= stage.count * stage.pieces
        left = stage.count
    return left


@given(st.integers(3, 96), st.integers(1, 40), st.integers(1, 30), st.booleans())
def test_stages_make_rings_of_all_segments_and_close_in_time(segments, in_time, rings, strips):
    pieces = segments * (2 if strips else 1)
    stages = ring_stages("rings", (1,), segments, rings, in_time, strips)
    assert arcs_left(stages, pieces, rings) == rings
    for stage in stages[:-1]:
        assert stage.joints == stage.pieces - 1 <= in_time
    assert all(stage.in_time for stage in stages) or in_time < 3
    for stage in stages:
        step = stage.in_band if stage.whole_bands else 1
        assert stage.at_once % step == 0
        assert (
            stage.at_once == 1
            or stage.at_once * stage.joints <= in_time < (stage.at_once + step) * stage.joints
        )
        assert stage.batches == ceil(stage.count / stage.at_once)
    last = stages[-1]
    assert (last.what, last.count, last.joints) == ("rings", rings, last.pieces)
    if segments % 2 == 0:
        assert (stages[-2].what, stages[-2].count, last.pieces) == ("halves", 2 * rings, 2)


@given(st.integers(2, 200), st.integers(1, 40))
def test_arcs_grow_in_as_few_stages_as_can_be(pieces, in_time):
    sizes = arc_sizes(pieces, in_time)
    assert np.prod([float(size) for size in sizes]) >= pieces
    assert max(sizes) <= in_time + 1
    stages, reach = 1, in_time + 1
    while reach < pieces:
        stages, reach = stages + 1, reach * (in_time + 1)
    assert len(sizes) == stages


@given(st.integers(3, 40).map(lambda k: 2 * k), st.integers(2, 40))
def test_wedge_rings_close_to_one_torus_by_way_of_halves(rings, in_time):
    stages = torus_stages(tuple(range(1, rings + 1)), in_time)
    assert arcs_left(stages, rings, 1) == 1
    assert [stage.what for stage in stages][-2:] == ["halves", "torus"]
    assert all(stage.in_time for stage in stages)
    if rings % 4 == 0:
        assert [stage.count for stage in stages][-3:] == [4, 2, 1]


def test_a_ring_of_eight_is_glued_in_halves_and_four_halves_at_a_time():
    # Four segments are three joints; a joint of some 12 cm2 takes 0.505 minutes, so that 15 close in eight
    # and five halves would; one band closes two of them, so that four are glued.
    glue = torus().wood.glue
    halves, rings, *_ = glue.stages
    assert (halves.what, halves.count, halves.joints, halves.at_once, halves.batches) == (
        "halves",
        38,
        3,
        4,
        10,
    )
    assert (rings.what, rings.count, rings.joints, rings.at_once, rings.batches) == ("rings", 19, 2, 7, 3)
    assert batches(glue) == 10 + 3 + 1 + 1 + 1


def test_halves_of_one_band_are_glued_together_where_the_glue_leaves_time():
    halves = [ring_stages("rings", (1,), 10, 6, in_time)[0] for in_time in (7, 8, 12, 16)]
    assert [(stage.in_band, stage.at_once, stage.whole_bands) for stage in halves] == [
        (2, 1, False),
        (2, 2, True),
        (2, 2, True),
        (2, 4, True),
    ]


def batches(glue):
    return sum(stage.batches for stage in glue.stages)


def test_a_quicker_glue_takes_more_batches():
    quick = torus(more="[glue]\nopen_time = 2.1\njoint_time = 1\n").wood.glue
    assert all(stage.joints * stage.at_once <= 2 for stage in quick.stages)
    assert batches(quick) > batches(torus().wood.glue)
    assert all(stage.in_time for stage in quick.stages)


def test_a_glue_that_sets_before_a_joint_is_closed_is_warned_of():
    plan = torus(more="[glue]\nopen_time = 1\njoint_time = 1\n")
    warned = [note for note in plan.notes if note.code == "open-time"]
    assert [note.severity for note in warned] == ["warning"]
    assert not [note for note in torus().notes if note.code == "open-time"]


def test_a_layup_is_glued_on_every_face_of_its_pieces():
    plan = plan_of("plied torus")
    (layup,) = plan.layups
    blocks, piece = layup.segments + layup.spare_segments, layup.layup
    assert layup.per_segment == 4
    # Of four quarters a cross of joints is glued: its bars are two b and two a long.
    within = blocks * (2 * piece.b + 2 * piece.a) * piece.depth
    assert faces(plan, "pieces side by side") + faces(plan, "pieces one on another") == pytest.approx(within)
    way = layup.way
    assert faces(plan, "strips of stacks") == pytest.approx(
        way.stacks * (way.strips - 1) * way.strip_length * piece.depth
    )
    assert faces(plan, "plies of sheets") == pytest.approx(way.sheets * 2 * 300 * 600)


def test_a_base_of_several_boards_is_glued_edge_to_edge():
    plan = vessel("platter", "[stock]\nbought_width = 100\n")
    (lot,) = [lot for lot in plan.wood.lots if lot.name == "base"]
    assert lot.count > 1
    assert faces(plan, "edges of the base") == pytest.approx((lot.count - 1) * lot.thickness * lot.longer)


def test_a_layup_dries_before_each_saw_and_is_glued_in_as_many_trays_as_are_made():
    plan = plan_of("plied torus")
    (layup,), glue = plan.layups, plan.wood.glue
    assert glue.dried == ("sheets", "stacks", "rails")
    blocks = [stage for stage in glue.stages if stage.assembly == "blocks"]
    assert [stage.at_once for stage in blocks] == [layup.trays] * 2
    assert [stage.batches for stage in blocks] == [ceil(2 * layup.blocks / 6), ceil(layup.blocks / 6)]
    made = {part.name: part.quantity for part in parts_of(plan) if part.name.startswith("layup-tray")}
    assert set(made.values()) == {layup.trays} == {6}
    assert torus().wood.glue.dried == ()
