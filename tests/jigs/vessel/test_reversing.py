"""The plug that holds a vessel by its mouth, against the finished section."""

from math import cos, radians, sin, tan

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.affinity import translate

from geometry.hardware.fittings import clearance_hole
from jigs.stages.holding_by_mouth.check import reversing_findings
from jigs.words.findings import Refused
from tests.jigs.vessel.held import TOUCH, held, made, solid, solved, turned
from tests.jigs.vessel.jobs import JOBS

WAYS = ("auto", "taper", "inside", "bolt")


def plug_of(name, hold, **more):
    plan = held(name, hold, **more)
    return plan.section, plan.reversing.plug


@pytest.mark.parametrize("hold", WAYS)
@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("lining", [0, 2])
def test_the_plug_comes_in_by_the_mouth_and_overlaps_no_wood(name, hold, lining):
    section, plug = plug_of(name, hold, base_hole=11.0, lining=lining)
    if plug is None:
        pytest.skip("held another way")
    wood, body = solid(section.contour), turned(plug)
    for out in (0.0, 0.5, 2.0, 7.0, 20.0, section.height / 2, section.height):
        assert wood.intersection(translate(body, 0, out)).area < TOUCH


@pytest.mark.parametrize("lining", [0.0, 1.5])
@pytest.mark.parametrize("name", ["vase", "staved"])
def test_a_taper_jams_on_the_mouths_edge_and_the_flange_stops_it(name, lining):
    section, plug = plug_of(name, "taper", lining=lining)
    assert plug.jam_diameter == pytest.approx(2 * (section.mouth_radius - lining / cos(plug.slope)), abs=1e-9)
    assert plug.high == section.height
    assert plug.face == pytest.approx(section.height + plug.press)
    edge = shapely.Point(section.mouth_radius, section.height)
    assert shapely.LineString(plug.bearing.points).distance(edge) == pytest.approx(lining, abs=1e-9)
    at_flange = plug.bearing.radius_at(plug.face)
    assert plug.stretch == pytest.approx(2 * (at_flange - plug.bearing.radius_at(section.height)))
    assert plug.stretch < 0.2
    assert section.mouth_radius < plug.flange
    assert plug.stands


def test_a_bare_taper_pressed_home_strains_the_mouth_no_more_than_its_mitres_may_stand():
    section, plug = plug_of("vase", "taper")
    along_the_grain = 12000.0  # N/mm2
    strain = plug.stretch / (2 * section.mouth_radius)
    assert strain * along_the_grain <= plug.hoop_allowed + 1e-9
    assert plug.press > 0.2


def test_a_plug_turned_to_the_inside_lies_on_it():
    section, plug = plug_of("bowl", "inside", lining=2)
    side = np.array([edge.point_at(t) for edge in plug.bearing.edges() for t in np.linspace(0, 1, 9)])
    wood = solid(section.contour)
    gaps = shapely.distance(shapely.points(side), wood)
    assert gaps == pytest.approx(2.0, abs=0.01)
    assert plug.face > section.height
    assert not plug.stands


@pytest.mark.parametrize("deep", [2, 4])
def test_a_plug_turned_to_the_inside_bears_under_a_lids_ledge_at_the_walls_own_lean(deep):
    """The ledge lies flat: with it, the slope came out steeper, and the push on the joints too small."""
    asked = made([[0, 100], [100, 200]], wall=10, extra=f"[rebate]\nwidth = 3\ndepth = {deep}")
    section, _, plan = solved(asked)
    plug = plan.plug
    assert plug.way == "inside"
    assert plug.high <= section.height - deep - 2
    assert tan(plug.slope) == pytest.approx(0.5)  # of the outside, 50 mm on 100


@pytest.mark.parametrize("hold", ["taper", "inside"])
def test_the_forces_balance_the_push(hold):
    section, plug = plug_of("bottle" if hold == "inside" else "vase", hold)
    friction = 0.35
    push = plug.normal_force * (sin(plug.slope) + friction * cos(plug.slope))
    assert push == pytest.approx(1.0)
    assert plug.spread == pytest.approx(plug.normal_force * (cos(plug.slope) - friction * sin(plug.slope)))
    assert plug.sticks == (tan(plug.slope) < friction)
    assert section.height > plug.tip


def test_a_bolts_pull_is_not_turned_into_spread_where_the_rim_stands():
    _, plug = plug_of("vase", "bolt", base_hole=11.0)
    assert plug.stands
    assert (plug.normal_force, plug.spread, plug.sticks) == (pytest.approx(1.0), 0.0, False)
    assert plug.bolt.thread == "M8"
    assert plug.hole == clearance_hole("M8")
    assert plug.bolt.length >= plug.back + 10


@pytest.mark.parametrize("name", JOBS)
def test_auto_takes_the_first_way_that_works(name):
    hole = 0.0 if name == "platter" else 11.0  # beside which its floor stands no push
    plan = held(name, base_hole=hole).reversing
    each = {way: plug_of(name, way, base_hole=hole)[1] for way in WAYS[1:]}
    first = next((way for way in WAYS[1:] if each[way]), None)
    assert plan.plug is not None
    assert plan.plug.way == first
    assert [barred.way for barred in plan.barred] == list(WAYS[1 : 1 + len(plan.barred)])


@pytest.mark.parametrize("hold", WAYS)
@pytest.mark.parametrize("name", JOBS)
def test_the_discs_hold_the_turned_plug(name, hold):
    plan = held(name, hold, base_hole=11.0)
    asked, section, plug = plan.job, plan.section, plan.reversing.plug
    if plug is None:
        pytest.skip("held another way")
    assert plug.front_layers * plug.layer_thickness >= plug.face - plug.tip - 1e-9
    assert plug.back_layers * plug.layer_thickness >= plug.back - plug.face
    assert plug.back_layers * plug.layer_thickness >= 15
    assert plug.back_blank > 2 * plug.flange
    assert plug.front_blank > 2 * max(plug.bearing.points[:, 0])
    assert max(plug.back_blank, plug.front_blank) <= asked.workshop.lathe.swing_over_bed
    assert plug.tip >= section.inner.bottom + 1.9
    waste = asked.rings.turning_allowance + section.recess_depth
    assert plug.centre_depth < waste
    assert plug.centre_recess == pytest.approx(2 * plug.centre_depth * tan(radians(30)))


@given(
    st.lists(st.floats(50.0, 200.0), min_size=3, max_size=4),
    st.floats(4.0, 9.0),
    st.sampled_from((0, 1, 3)),
    st.floats(5.0, 40.0),
    st.sampled_from(WAYS),
)
def test_random_vessels_are_held_without_overlap_or_say_why(widths, wall, lining, depth, hold):
    edges = [[45.0 * k, round(width, 2)] for k, width in enumerate(widths)]
    reach = round(depth, 2)
    reverse = f'hold = "{hold}"\nlining = {lining}\ndepth = {reach}\nbase_hole = 9'
    try:
        asked = made(edges, wall=round(wall, 2), floor=9, reverse=reverse)
        section, _, plan = solved(asked)
    except Refused:
        assume(False)
    found = reversing_findings(asked, section, plan)
    if plan.plug is None:
        assert found
        assert all(f.remedy for f in found)
        return
    wood, body = solid(section.contour), turned(plan.plug)
    for out in (0.0, *np.linspace(0.4, section.height, 8)):
        assert wood.intersection(translate(body, 0, out)).area < TOUCH
    bearing = plan.plug.bearing
    assert min(bearing.top, section.height) - bearing.bottom <= reach + 1e-9
    rim = shapely.Point(section.mouth_radius, section.height)
    touching = rim if plan.plug.stands else wood
    side = shapely.LineString(
        [e.point_at(t) for e in plan.plug.bearing.edges() for t in np.linspace(0, 1, 40)]
    )
    loose = 0.2 if plan.plug.way == "bolt" and plan.plug.stands else 0.0
    assert side.distance(touching) == pytest.approx(lining + loose, abs=0.01)
