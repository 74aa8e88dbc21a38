"""Outside gauges: their edges lie off the finished work as their stage says, and their files follow."""

import io
from itertools import pairwise

import numpy as np
import pytest
import shapely

from jigs.files.dxf import read_dxf, write_dxf
from jigs.parts.readback import measure
from tests.geometry.validity import problems
from tests.jigs.vessel.gauge_jobs import planned
from tests.jigs.vessel.gauge_parts import all_parts, dense, every_vessel, form, region, reread, stage_parts


def lowest(parts):
    """Where the edge begins: at the foot, or above a flat tip that is cut off (test_gauge_tips.py)."""
    start = form(parts[0]).start[1]
    assert start == pytest.approx(0.0, abs=1e-9) or start == pytest.approx(0.8)
    return start


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
        within = (moved[:, 1] > lowest(parts) + 0.01) & (moved[:, 1] < plan.section.height - 0.01)
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
        assert edges[0].start[1] == pytest.approx(lowest(parts), abs=1e-9)
        assert edges[-1].end[1] == pytest.approx(plan.section.height)
        for below, above in pairwise(edges):
            assert above.start == pytest.approx(below.end, abs=1e-6)
        for below, above in pairwise(parts):
            assert below.outline.bounds[3] == pytest.approx(above.outline.bounds[1])
        guided = stage.outside.between(lowest(parts), stage.outside.top)
        assert guided.length == pytest.approx(sum(edge.length for edge in edges))


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
