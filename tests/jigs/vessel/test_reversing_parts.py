"""The parts of the plug: whole, lettered, measured back, of the plug that fits."""

import io

import numpy as np
import pytest
import shapely

from geometry.plane.profile import profile
from jigs.files.dxf import read_dxf, write_dxf
from jigs.files.stl import read_stl, write_stl
from jigs.forms.solve import solve
from jigs.parts.probes import ProfileForm
from jigs.parts.readback import measure
from jigs.stages.holding_by_mouth.parts import reversing
from jigs.stages.holding_by_mouth.steps.whole import operations
from jigs.work.model import Rack
from tests.jigs.inspection import faults, text_of
from tests.jigs.vessel.held import TOUCH, held, made, solid, turned
from tests.jigs.vessel.jobs import JOBS

# joints that a nut may open which is turned as hard as the bolt needs; a floor that it breaks
SPLIT, BREAKS = ("bottle", "cup"), ("platter",)
WAYS = [
    (name, hold) for name in JOBS for hold in ("auto", "bolt") if hold == "auto" or name not in SPLIT + BREAKS
]


@pytest.fixture(params=WAYS, ids="-".join)
def plan(request):
    name, hold = request.param
    return held(name, hold, base_hole=0.0 if name == "platter" else 11.0)


def test_every_part_is_whole_lettered_and_measures_back(plan):
    parts = reversing(plan)
    assert len(parts) == 4
    title = plan.job.title.upper()
    for part in parts:
        assert not faults(part)
        if part.name != "mouth-plug-layer" or plan.reversing.plug.front_blank > 90:
            assert title in text_of(part)
        file = io.BytesIO()
        if part.process == "print":
            write_stl(part, file)
            assert measured(part, read_stl, file)
        else:
            write_dxf(part, file)
            assert measured(part, read_dxf, file)


def measured(part, read, file):
    file.seek(0)
    return measure(part, read(file))


def test_the_section_is_the_plug_that_fits(plan):
    section, *_ = reversing(plan)
    plug = plan.reversing.plug
    body = turned(plug).difference(shapely.box(-1, -1e3, plug.hole / 2, 1e3))
    assert solid(section.outline).symmetric_difference(body).area < 0.05
    wood = solid(plan.section.contour)
    assert wood.intersection(solid(section.outline)).area < TOUCH


def test_the_gauge_lies_on_the_plug_and_its_hook_on_the_front_face(plan):
    _, gauge, *_ = reversing(plan)
    plug, fit = plan.reversing.plug, plan.job.gauges.fit
    plate, body = solid(gauge.outline), turned(plug)
    assert plate.intersection(body).area < TOUCH
    form = next(d.probe for d in gauge.dimensions if isinstance(d.probe, ProfileForm))
    edge = shapely.LineString([row[:2] for row in form.rows])
    assert edge.length > 4.0
    side = shapely.LineString([e.point_at(t) for e in plug.bearing.edges() for t in np.linspace(0, 1, 30)])
    places = [e.point_at(t) for e in profile(*form.rows).edges() for t in np.linspace(0, 1, 30)]
    beside = [place for place in places if place[0] <= plug.bearing.end[0]]
    assert shapely.distance(shapely.points(beside), side) == pytest.approx(fit, abs=0.005)
    hook = shapely.LineString([(0, plug.tip), (plug.bearing.start[0], plug.tip)])
    assert plate.intersection(hook).length > 4.0
    assert gauge.outline.bounds[3] == pytest.approx(plug.high)


def test_a_plug_says_what_presses_the_vessel_on_it(plan):
    told = operations(plan, Rack(reversing(plan)))
    said = " ".join(move for one in told for move in (one.does, *one.how)).lower()
    for words in ("light cuts", "tape"):
        assert words in said
    plug = plan.reversing.plug
    assert ("bore the flange's back for a nut" in said) == (plug.bolt is not None)
    held = next(one for one in told if one.id == "reversing.held")
    assert ("tailstock" in " ".join(held.how)) == (plug.bolt is None)


@pytest.mark.parametrize("name", SPLIT)
def test_no_bolt_holds_what_its_nut_may_split(name):
    plan = held(name, "bolt", base_hole=11.0)
    assert {(barred.way, barred.fault) for barred in plan.reversing.barred} == {("bolt", "splits")}
    assert reversing(plan) == []


def test_no_plug_makes_no_parts():
    plan = solve(made([[0, 60], [60, 60], [90, 30]], reverse='hold = "none"'))
    assert reversing(plan) == []
