"""What profile gauges say, and the pieces that they come in."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely

from geometry.plane.contour import Contour
from jigs.parts.part import Lettering, Line
from jigs.parts.places import as_lines
from jigs.parts.probes import ProfileForm
from jigs.parts.readback import MeasureError, measure
from jigs.parts.splitting import split_to_bed
from tests.geometry.shapes import dense
from tests.jigs.inspection import text_of
from tests.jigs.vessel.gauge_jobs import JOBS, RINGS, planned, planned_text
from tests.jigs.vessel.gauge_parts import all_parts, every_vessel, form, region, reread, stage_parts


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
        drawn = [shapely.MultiLineString([line.points for line in as_lines([mark])]) for mark in part.marks]
        assert shapely.covers(plate.buffer(-0.5 - part.mark_width / 2), drawn).all()
        near = shapely.STRtree(drawn).query(drawn, predicate="dwithin", distance=0.3 + part.mark_width)
        assert (near[0] == near[1]).all()


@cache
def grown_by(body, offset):
    return body.buffer(offset, quad_segs=64) if offset else body


@every_vessel
def test_ticks_stand_at_their_heights_with_the_diameter_of_the_work_now_and_finished(name):
    plan = planned(name)
    seen, body = 0, shapely.Polygon(dense(plan.section.contour))
    for stage, part in ((stage, part) for stage, parts in stage_parts(plan) for part in parts):
        grown = grown_by(body, stage.offset)
        ticks = [mark for mark in part.marks if isinstance(mark, Line)]
        labels = [
            mark for mark in part.marks if isinstance(mark, Lettering) and mark.text[:3].strip("Ø ").isdigit()
        ]
        assert len(ticks) == len(labels)
        seen += len(ticks)
        for tick, label in zip(ticks, labels, strict=True):
            (_, height), _ = tick.points
            factor = 25.4 if plan.job.unit == "in" else 1.0
            now, _, finished = label.text.removeprefix("Ø ").rstrip(")").partition(" (")
            own = 2 * plan.section.outer.radius_at(height)
            if 4.0 < height < plan.section.height - 4.0:  # nearer to an end the grown section goes round it
                cut = grown.intersection(shapely.LineString([(0, height), (900, height)]))
                assert float(now) * factor == pytest.approx(2 * cut.bounds[2], abs=0.06)
            assert float(now) * factor >= own - 0.051
            assert not finished or float(finished) * factor == pytest.approx(own, abs=0.051)
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
