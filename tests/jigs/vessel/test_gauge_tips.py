"""Flat tips of printed gauges are cut square, those of sheet are kept; the dry fit knows both."""

from math import radians, sin, tan

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.contour import polygon
from geometry.plane.profile import profile
from jigs.asked.jobfile import load
from jigs.dryfit.model import Plate, polygon_of
from jigs.dryfit.vessel.lid import knob_checks
from jigs.dryfit.vessel.outside import edge_checks
from jigs.dryfit.vessel.work import work_of
from jigs.forms.solve import solve
from jigs.parts.gauges.edge import blunted
from jigs.stages.knob.parts import knob_gauge
from tests.jigs.vessel.gauge_jobs import JOBS, planned
from tests.jigs.vessel.lids import written

WIDTH = 0.8  # mm: two nozzles of 0.4
CORNER = WIDTH / 2 * (1 / sin(radians(25) / 2) - 1)  # mm from a disc in a corner of 25 degrees to its tip
SHEET = '[made]\ngauges = "cut"\n'


def thin(shape):
    """How far a plate's corners stick out of all discs as wide as WIDTH that it holds, mm."""
    discs = shape.buffer(-WIDTH / 2 + 1e-4, quad_segs=64).buffer(WIDTH / 2, quad_segs=64)
    return max(shapely.distance(shapely.points(shape.exterior.coords), discs))


@pytest.mark.parametrize("name", JOBS)
def test_no_printed_gauge_ends_thin(name):
    plan = planned(name)
    assert max(thin(polygon_of(part.outline)) for part in (*plan.outside, *plan.inside)) < CORNER + 0.05


def test_a_gauge_cut_from_sheet_keeps_its_tip():
    plan = planned("platter", SHEET)
    assert thin(polygon_of(plan.outside[-1].outline)) > 1.5 * CORNER
    assert not any("cut square" in note for part in plan.outside for note in part.notes)


@given(
    angle=st.floats(1.0, 60.0), rise=st.floats(1.0, 60.0), foot=st.floats(1.0, 60.0), falling=st.booleans()
)
def test_whatever_its_angle_no_tip_is_sharp_and_thin(angle, rise, foot, falling):
    """A plate right of an edge that leaves one end at an angle, upright above it."""
    across = rise / tan(radians(angle))
    edge = profile((10, 0), (10 + across, rise), (10 + across, rise + 20))
    if falling:
        edge = profile((10 + across, -rise - 20), (10 + across, -rise), (10, 0))
    cut = blunted(edge, planned("platter").job.workshop, None if falling else 10 + foot)
    far = 200 + across
    rows = [*map(tuple, cut.edge.reversed().points.tolist())]
    if falling:
        rows += [(far, edge.bottom), (far, edge.top), *cut.above]
    elif cut.below and cut.edge.start[0] > 10 + foot - 1e-6:
        rows += [(10 + foot, -50), (far, -50), (far, edge.top)]
    else:
        rows += [*cut.below, (10 + foot, 0), (10 + foot, -50), (far, -50), (far, edge.top)]
    assert thin(polygon_of(polygon(rows))) < CORNER + 0.05
    left = edge.between(cut.edge.bottom, cut.edge.top)
    assert left.length == pytest.approx(cut.edge.length)
    assert bool(cut.lost) == (cut.edge.length < edge.length - 1e-6)


def test_the_platters_gauge_tells_what_it_does_not_guide():
    part = planned("platter").outside[-1]
    start = min(x for x, y in part.outline.vertices[:, :2].tolist() if y < 1e-9)
    told = [note for note in part.notes if "cut square" in note]
    assert len(told) == 1
    assert f"{2 * start:.2f}".rstrip("0").rstrip(".") in told[0]


def misfits(part, face):
    plan = planned("platter")
    plate = Plate(part.name, face, part.thickness, None)
    return [
        check.what
        for check in edge_checks(work_of(plan.job), plate, plan.gauges.stages[-1].offset)
        if not check.fits
    ]


def test_the_dry_fit_takes_the_cut_tip_and_no_shorter_one():
    part = next(part for part in planned("platter").outside if "finished" in part.name)
    face = polygon_of(part.outline)
    start = min(x for x, y in part.outline.vertices[:, :2].tolist() if abs(y) < 1e-9)
    assert misfits(part, face) == []
    shorter = face.difference(shapely.box(start - 1, 0.0, start + 1.5, 3.0))
    assert misfits(part, shorter) == ["working edge off the work's parallel"]
    assert misfits(part, face.buffer(-0.1)) == ["working edge off the work's parallel"]


@pytest.fixture(scope="module")
def flat_knob(tmp_path_factory):
    """A lid whose knob ends in a flat dome."""
    return solve(load(written(tmp_path_factory.mktemp("lid"), lid=[("[24, 14]", "[20, 2]")])))


def test_a_flat_knobs_gauge_is_cut_and_fits_and_no_shorter_one_does(flat_knob):
    (part,) = knob_gauge(flat_knob)
    face, job = polygon_of(part.outline), flat_knob.job
    assert thin(face) < CORNER + 0.05
    assert "cut square" in part.notes[-1]

    def wrong(shape):
        checks = knob_checks(job.knob, work_of(job), Plate(part.name, shape, part.thickness, None))
        return [check.what for check in checks if not check.fits]

    assert wrong(face) == []
    start = min(x for x, y in part.outline.vertices[:, :2].tolist() if abs(y - 20) < 1e-9)
    assert wrong(face.difference(shapely.box(start - 1, 16, start + 2, 21)))
