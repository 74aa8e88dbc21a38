import io
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from geometry.contour import Contour
from geometry.profile import profile
from geometry.sample import sample
from geometry.validity import problems
from jigs.checks.vessel.gauges import gauge_findings
from jigs.families.marked import as_lines
from jigs.part import Lettering, Line, ProfileForm
from jigs.splitting import split_to_bed
from jigs.writers.dxf import read_dxf, write_dxf
from jigs.writers.readback import MeasureError, measure
from jigs.writers.stl import read_stl, write_stl
from tests.jigs.vessel.gauge_jobs import JOBS, RINGS, planned, planned_text

shapely = pytest.importorskip("shapely")
affinity = pytest.importorskip("shapely.affinity")

every_vessel = pytest.mark.parametrize("name", JOBS)


def all_parts(plan):
    return [*plan.outside, *plan.rail, *plan.inside, *plan.wall]


def dense(of, pitch=1.0):
    """Points along an open profile, its chords within 0.0005 mm, and its unit normals to the right of travel."""
    points, normals = [], []
    for edge in of.edges():
        chords = abs(edge.angle) / (2 * np.arccos(1 - 0.0005 / max(edge.radius, 0.01))) if edge.is_arc else 1
        for t in np.linspace(0.0, 1.0, max(4, int(edge.length / pitch), int(np.ceil(chords)) + 1)):
            heading = edge.heading(t)
            points.append(edge.point_at(t))
            normals.append((np.sin(heading), -np.cos(heading)))
    return np.array(points), np.array(normals)


def region(*contours, within=0.001):
    outline, *holes = (sample(contour, within) for contour in contours)
    return shapely.Polygon(outline, holes)


def form(part):
    rows = next(d.probe.rows for d in part.dimensions if isinstance(d.probe, ProfileForm))
    return profile(*rows)


def reread(part):
    stream = io.BytesIO()
    write_stl(part, stream)
    stream.seek(0)
    return read_stl(stream)


def text_of(part):
    return " ".join(mark.text for mark in part.marks if isinstance(mark, Lettering))


def stage_parts(plan):
    """Each stage with its outer pieces, from the faceplate up."""
    parts, count = plan.outside, len(plan.gauges.pieces)
    return [(stage, parts[k * count : (k + 1) * count]) for k, stage in enumerate(plan.gauges.stages)]


@every_vessel
def test_outside_edges_are_the_outside_moved_square_to_itself(name):
    """Brute force: every point of the outside, moved along its normal, is on an edge, unless trimmed or past an end."""
    plan = planned(name)
    points, normals = dense(plan.section.outer)
    line = shapely.LineString(points)
    for stage, parts in stage_parts(plan):
        distance = stage.offset + plan.gauges.fit
        moved = points + distance * normals
        free = shapely.distance(shapely.points(moved), line) > distance - 1e-3
        within = (moved[:, 1] > 0.01) & (moved[:, 1] < plan.section.height - 0.01)
        edges = shapely.MultiLineString([dense(form(part))[0] for part in parts])
        assert (free & within).sum() > 0.8 * len(points)
        assert shapely.distance(shapely.points(moved[free & within]), edges).max() < 0.01


@every_vessel
def test_no_place_of_an_outside_edge_is_nearer_to_the_finished_work_or_farther(name):
    plan = planned(name)
    line = shapely.LineString(dense(plan.section.outer)[0])
    for stage, parts in stage_parts(plan):
        distance = stage.offset + plan.gauges.fit
        for part in parts:
            points = shapely.points(dense(form(part))[0])
            gaps, along = shapely.distance(points, line), shapely.line_locate_point(line, points)
            assert gaps.min() > distance - 0.01
            beside = (along > 1e-6) & (along < line.length - 1e-6)  # past the ends it goes on straight
            assert np.abs(gaps[beside] - distance).max() < 0.01


@every_vessel
def test_the_pieces_of_a_stage_cover_the_whole_height_and_butt(name):
    plan = planned(name)
    pieces = plan.gauges.pieces
    assert (pieces[0].low, pieces[-1].high) == (plan.gauges.faceplate, pytest.approx(plan.section.height))
    for stage, parts in stage_parts(plan):
        edges = [form(part) for part in parts]
        assert edges[0].start[1] == pytest.approx(0.0, abs=1e-9)
        assert edges[-1].end[1] == pytest.approx(plan.section.height)
        for below, above in pairwise(edges):
            assert above.start == pytest.approx(below.end, abs=1e-6)
        for below, above in pairwise(parts):
            assert below.outline.bounds[3] == pytest.approx(above.outline.bounds[1])
        assert stage.outside.length == pytest.approx(sum(edge.length for edge in edges))


@every_vessel
def test_outer_gauges_stand_on_the_faceplate_clear_of_the_blank_below_the_foot(name):
    plan = planned(name)
    ring, gauges = plan.stack.layers[0].ring, plan.gauges
    assert gauges.faceplate == plan.stack.bottom - plan.job.rings.waste_block
    waste = shapely.box(0.0, gauges.faceplate, ring.radius, -0.001)
    for _, parts in stage_parts(plan):
        first = region(parts[0].outline)
        assert first.bounds[1] == pytest.approx(gauges.faceplate)
        assert first.intersection(waste).area == 0.0
        foot = first.intersection(shapely.box(-1e3, gauges.faceplate, 1e3, gauges.faceplate + 0.5))
        assert foot.bounds[2] - foot.bounds[0] >= 20.0


@every_vessel
def test_outer_gauges_never_cut_into_wood_of_their_stage(name):
    plan = planned(name)
    for stage, parts in stage_parts(plan):
        wood = region(plan.section.dilated(stage.offset)).intersection(
            shapely.box(0.0, 0.0, 1e3, plan.section.height)
        )
        for part in parts:
            assert region(part.outline).intersection(wood).area < 1e-3


@every_vessel
def test_pieces_are_handy_and_the_rail_has_their_holes(name):
    plan = planned(name)
    parts, bar = plan.outside, plan.rail
    longest = plan.job.gauges.longest_in_hand
    assert all(piece.high - piece.low <= longest + 1e-9 for piece in plan.gauges.pieces)
    assert bool(bar) == plan.gauges.railed == (plan.section.height - plan.gauges.faceplate > longest)
    if bar:
        wanted = sorted(tuple(np.round(hole.bounds, 6)) for hole in bar[0].holes)
        got = {tuple(np.round(hole.bounds, 6)) for part in parts for hole in part.holes}
        assert wanted == sorted(got)
        assert all(len(part.holes) == 2 for part in parts)
        whole = region(bar[0].outline)
        for part in parts:
            lap = region(part.outline).intersection(whole)
            assert lap.bounds[2] == pytest.approx(part.outline.bounds[2])
            assert lap.bounds[2] - lap.bounds[0] == pytest.approx(40.0)


@every_vessel
def test_every_gauge_is_a_sound_plate_and_its_file_is_right(name):
    plan = planned(name)
    for part in all_parts(plan):
        assert part.outline.area > 0
        assert problems(part.outline) == ()
        plate = region(part.outline)
        for hole in part.holes:
            assert hole.area < 0
            assert plate.buffer(-2.0).contains(region(hole))
        if part.process == "cut":
            stream = io.BytesIO()
            write_dxf(part, stream)
            stream.seek(0)
            measure(part, read_dxf(stream))
            continue
        back = reread(part)
        for found in measure(part, back):
            assert abs(found.measured - found.nominal) < 0.01
        if part.bevel:
            assert problems(part.bevel.top) == ()
            assert plate.buffer(1e-3).covers(region(part.bevel.top))


@every_vessel
def test_files_follow_the_offset_profile_and_not_only_the_part(name):
    """The mesh's own outline against the section: no probe, no part between them."""
    plan = planned(name)
    line = shapely.LineString(dense(plan.section.outer)[0])
    for stage, parts in stage_parts(plan):
        distance = stage.offset + plan.gauges.fit
        for part in parts:
            outline = reread(part).contours[0].points
            points = shapely.points(np.concatenate((outline, (outline + np.roll(outline, -1, axis=0)) / 2)))
            gaps, along = shapely.distance(points, line), shapely.line_locate_point(line, points)
            near = (gaps < distance + 0.3) & (along > 1e-6) & (along < line.length - 1e-6)
            assert near.any()
            assert np.abs(gaps[near] - distance).max() < 0.01


@every_vessel
def test_inside_edges_are_the_inside_moved_into_the_hollow(name):
    plan = planned(name)
    line = shapely.LineString(dense(plan.section.inner)[0])
    stages = [stage for stage in plan.gauges.stages if stage.inside]
    assert stages
    for stage in stages:
        distance = stage.offset + plan.gauges.fit
        points = shapely.points(dense(stage.inside)[0])
        gaps, along = shapely.distance(points, line), shapely.line_locate_point(line, points)
        beside = (along > 1e-6) & (along < line.length - 1e-6)
        assert beside.sum() > 0.5 * len(points)
        assert np.abs(gaps[beside] - distance).max() < 0.01
        assert gaps.min() > distance - 0.01
        assert stage.inside.end[1] == pytest.approx(plan.section.height)


@every_vessel
def test_the_inside_gauge_passes_the_mouth_and_touches(name):
    """Lowered beside the axis, then moved sideways until its edge touches; it never meets the wood of its stage."""
    plan = planned(name)
    gauges = plan.inside
    for stage, part in zip((s for s in plan.gauges.stages if s.inside), gauges, strict=True):
        wood = stage_wood(plan, stage.offset)
        plate = region(part.outline, within=0.01)
        depth = plan.section.height - plan.gauges.reach.low
        shift = next(s for s in np.arange(0.0, 100.0, 1.0) if lowered(plate, wood, s, depth))
        for s in np.linspace(shift, 0.0, 40):
            assert affinity.translate(plate, -s, 0.0).intersection(wood).area < 1e-6
        assert plate.distance(wood) == pytest.approx(0.0, abs=1e-6)  # the hook lies on the rim
        touching = shapely.LineString(dense(stage.inside)[0]).distance(wood)
        assert touching == pytest.approx(plan.gauges.fit, abs=0.02)


def stage_wood(plan, offset):
    """The whole section with what a stage leaves on it, its rim faced."""
    half = region(plan.section.dilated(offset), within=0.01)
    whole = half.union(affinity.scale(half, -1.0, 1.0, origin=(0.0, 0.0)))
    return whole.intersection(shapely.box(-1e3, -1e3, 1e3, plan.section.height))


def lowered(plate, wood, shift, depth):
    lifts = np.linspace(0.0, depth + 2.0, 60)
    return all(affinity.translate(plate, -shift, lift).intersection(wood).area < 1e-6 for lift in lifts)


def test_an_inside_gauge_reaches_the_floor_of_open_vessels_and_only_so_far_into_closed_ones():
    for name in ("vase", "platter", "flared bowl", "tall vase", "cylinder"):
        plan = planned(name)
        assert plan.gauges.unguided is None
        offset = plan.gauges.stages[0].offset + plan.gauges.fit
        assert plan.gauges.reach.low == pytest.approx(plan.section.inner.bottom + offset, abs=1e-6)
        assert gauge_findings(plan.job, plan.section, plan.gauges) == []
    for name in ("closed vase", "bottle"):
        plan = planned(name)
        (note,) = gauge_findings(plan.job, plan.section, plan.gauges)
        low, high = plan.gauges.unguided
        assert (note.severity, note.code) == ("note", "inside-unguided")
        assert low == plan.section.inner.bottom
        assert high == plan.gauges.reach.low > low + 10


def test_a_mouth_too_narrow_for_any_plate_gets_a_note_and_no_gauge():
    narrow = """title = "Bud vase"
[profile]
stations = [[0, 60], [50, 90], [100, 28], [130, 26]]
[wall]
thickness = 5
"""
    plan = planned_text(narrow + RINGS.replace("[8, 12, 16]", "8"))
    assert plan.inside == []
    (note,) = gauge_findings(plan.job, plan.section, plan.gauges)
    assert note.severity == "note"
    assert "no inside gauge passes" in note.message


def test_a_thick_plate_is_thinned_where_it_would_ride_high():
    """The arris of the full plate would stand p²/8r off a circle of radius r; the land stands less than 0.03."""
    plan = planned("tall vase")
    part = plan.inside[-1]
    assert part.thickness**2 / (8 * plan.section.mouth_radius) > 0.03
    narrowest = min(plan.gauges.stages[-1].inside.points[3:, 0])
    assert part.bevel.land**2 / (8 * narrowest) <= 0.031
    moved = np.abs(part.bevel.top.points - part.outline.points)
    assert moved[:, 0].max() == pytest.approx(part.thickness - part.bevel.land)
    assert moved[:, 1].max() == 0.0
    assert planned("platter").inside[-1].bevel is None


@every_vessel
def test_the_wall_gauge_goes_over_the_wall_of_each_stage_as_deep_as_its_slots(name):
    plan = planned(name)
    slots = plan.gauges.wall
    if slots is None:
        assert plan.wall == []
        assert "no-wall-gauge" in [f.code for f in gauge_findings(plan.job, plan.section, plan.gauges)]
        return
    (part,) = plan.wall
    assert len(slots.widths) == len(plan.gauges.stages)
    for stage, width in zip(plan.gauges.stages, slots.widths, strict=True):
        assert width == pytest.approx(slots.wall + 2 * (stage.offset + plan.gauges.fit))
        outline = reread(part).contours[0]
        opening = [x for x, y in outline.points.tolist() if abs(y) < 1e-6]
        assert any(
            abs(b - a - width) < 0.01 for a, b in zip(sorted(opening), sorted(opening)[1:], strict=False)
        )
    assert goes_over(plan, slots.wall + 0.2 + 1e-6, slots.depth)
    assert not goes_over(plan, slots.wall - 0.05, slots.depth)


def goes_over(plan, width, depth):
    """Whether a slot of this width, turned this way or that, holds the finished wall as deep as it is."""
    outer, inner, top = plan.section.outer, plan.section.inner, plan.section.height
    points = np.vstack([dense(side.between(top - depth - 1, top), 0.1)[0] for side in (outer, inner)])
    for angle in np.linspace(-1.4, 1.4, 2801):
        along = points @ (np.sin(angle), np.cos(angle))
        held = points[along >= along.max() - depth]
        if np.ptp(held @ (np.cos(angle), -np.sin(angle))) <= width:
            return True
    return False


def test_slots_are_the_wall_at_the_rim():
    assert planned("cylinder").gauges.wall.wall == pytest.approx(6.0)
    assert planned("flared bowl").gauges.wall.wall == pytest.approx(5.0, abs=0.2)
    assert planned("cylinder").gauges.wall.depth == pytest.approx(25.0)


@every_vessel
def test_gauges_say_what_they_are(name):
    plan = planned(name)
    for part in all_parts(plan):
        text = text_of(part)
        assert plan.job.title.upper() in text.replace(",", "")
        for word in ("LATHE STOPPED", "REST AWAY"):
            assert word in text.replace(",", "")
    for stage, parts in stage_parts(plan):
        for k, part in enumerate(parts, 1):
            text = text_of(part)
            assert stage.label in text
            assert "← AXIS" in text
            assert ("ON FACEPLATE ↓" if k == 1 else f"ON PIECE {k - 1} ↓") in text
            assert (f"PIECE {k} OF {len(parts)}" in text) == (len(parts) > 1)
    for stage, part in zip((s for s in plan.gauges.stages if s.inside), plan.inside, strict=True):
        assert stage.label in text_of(part)
        assert "HOOK ON RIM →" in text_of(part)


@every_vessel
def test_marks_keep_clear_of_edges_and_of_each_other(name):
    plan = planned(name)
    for part in [*plan.outside, *plan.inside, *plan.wall]:
        plate = region(part.bevel.top if part.bevel else part.outline, *part.holes)
        drawn = [
            shapely.MultiLineString([line.points for line in as_lines([mark])]).buffer(part.mark_width / 2)
            for mark in part.marks
        ]
        assert all(plate.buffer(-0.5).covers(shape) for shape in drawn)
        for k, shape in enumerate(drawn):
            assert all(shape.distance(other) > 0.3 for other in drawn[k + 1 :])


@every_vessel
def test_ticks_stand_at_their_heights_with_the_finished_diameter(name):
    plan = planned(name)
    seen = 0
    for part in plan.outside:
        ticks = [mark for mark in part.marks if isinstance(mark, Line)]
        labels = [mark for mark in part.marks if isinstance(mark, Lettering) and mark.text.startswith("Ø")]
        assert len(ticks) == len(labels)
        seen += len(ticks)
        for tick, label in zip(ticks, labels, strict=True):
            (_, height), _ = tick.points
            factor = 25.4 if plan.job.unit == "in" else 1.0
            shown = float(label.text.removeprefix("Ø ")) * factor
            assert shown == pytest.approx(2 * plan.section.outer.radius_at(height), abs=0.051)
            assert label.origin[1] + label.height / 2 == pytest.approx(height)
    assert seen >= len(plan.gauges.stages)


def test_stations_come_before_joints_and_ticks_that_are_too_close_are_left_out():
    plan = planned_text(JOBS["cylinder"] + RINGS.replace("20", "5"))
    names = [mark.name for part in plan.outside for mark in part.marks if isinstance(mark, Line)]
    assert any(not name.startswith("joint") for name in names)
    for part in plan.outside:
        heights = sorted(mark.points[0][1] for mark in part.marks if isinstance(mark, Line))
        assert np.diff(heights).min(initial=np.inf) >= 1.7 * 4.0


def test_a_gauge_longer_than_its_bed_is_joined_and_its_edge_stays_whole():
    part = planned("tall vase").inside[-1]
    pieces = split_to_bed(part, (220.0, 220.0), 0.1)
    assert len(pieces) > 1
    for piece in pieces:
        measure(piece, reread(piece))
        assert any(isinstance(d.probe, ProfileForm) for d in piece.dimensions)
    assert sum(form(piece).length for piece in pieces) == pytest.approx(form(part).length, abs=1e-3)


@pytest.mark.parametrize(
    ("keys", "count"),
    [("longest_in_hand = 60", 4), ("longest_in_hand = 250", 1), ("longest_in_hand = 40", 6)],
)
def test_as_many_pieces_as_asked_for(keys, count):
    plan = planned_text(f"{JOBS['vase']}{RINGS}[gauges]\n{keys}\n")
    assert len(plan.gauges.pieces) == count
    for part in all_parts(plan):
        measure(part, reread(part)) if part.process == "print" else None


def test_a_deep_waste_block_leaves_working_edge_on_every_piece():
    plan = planned_text(JOBS["vase"] + RINGS + "waste_block = 100\n[gauges]\nlongest_in_hand = 60\n")
    assert plan.gauges.faceplate == pytest.approx(-103.0)
    assert all(part.outline.bounds[3] >= 10 for part in plan.outside)
    assert all(form(part).length >= 5 for part in plan.outside)


def test_an_edge_shifted_by_two_hundredths_does_not_measure():
    part = planned("vase").outside[0]
    moved = replace(part, outline=Contour(part.outline.vertices + np.array((0.02, 0.0, 0.0))))
    with pytest.raises(MeasureError, match="working edge, out by"):
        measure(part, reread(moved))
