"""The plug that holds a vessel by its mouth, and the warnings about its base, against the finished section."""

import io
import re
from dataclasses import replace
from functools import cache
from math import atan, cos, degrees, radians, sin, tan

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.affinity import translate

from geometry.fasteners import clearance_hole
from geometry.profile import profile
from geometry.sample import sample
from jigs.checks.vessel.base import WIDE_DISC, base_findings, moves
from jigs.checks.vessel.reversing import reversing_findings
from jigs.families.vessel.reversing import reversing
from jigs.findings import Refused
from jigs.jobfile import parse
from jigs.part import ProfileForm
from jigs.solve import solve
from jigs.solving.vessel.reversing import reversing_plan
from jigs.solving.vessel.section import solve_section
from jigs.solving.vessel.stack import solve_stack
from jigs.wood import SPECIES
from jigs.writers.dxf import read_dxf, write_dxf
from jigs.writers.readback import measure
from jigs.writers.stl import read_stl, write_stl
from tests.jigs.inspection import faults, text_of
from tests.jigs.vessel.jobs import JOBS, job

WAYS = ("auto", "taper", "inside", "bolt")
TOUCH = 0.02  # mm2: chords of sampled arcs


def solved(asked):
    section = solve_section(asked)
    stack = solve_stack(asked, section)
    return section, stack, reversing_plan(asked, section, stack)


@cache
def whole(name):
    return solve(job(name))


def held(name, hold="auto", **more):
    """One of JOBS, held in a way; all else of its plan is as it was."""
    plan = whole(name)
    asked = replace(plan.job, reversing=replace(plan.job.reversing, hold=hold, **more))
    return replace(plan, job=asked, reversing=reversing_plan(asked, plan.section, plan.stack))


def plug_of(name, hold, **more):
    plan = held(name, hold, **more)
    return plan.section, plan.reversing.plug


def made(edges, wall=6.0, floor=10.0, extra="", reverse="", corner=5):
    """A vessel of straight edges."""
    return parse(
        f'title = "Made"\n[profile]\nedges = {edges}\n'
        f"[wall]\nthickness = {wall}\nfloor = {floor}\ninner_corner = {corner}\n"
        f'[rings]\nheights = 20\nsegments = 12\nspecies = "maple"\n{extra}\n[reversing]\n{reverse}\n',
        "made.toml",
    )


def own_inside(inside, edges, reverse=""):
    """A vessel with an inside of its own."""
    return parse(
        f'title = "Own"\n[profile]\nedges = {edges}\n[inside]\nedges = {inside}\n'
        f'[rings]\nheights = 20\nsegments = 12\nspecies = "maple"\n[reversing]\n{reverse}\n',
        "own.toml",
    )


def solid(contour):
    return shapely.Polygon(sample(contour, 0.001))


def turned(plug):
    """The plug's half section without its hole, as a stranger would build it from the plan's numbers."""
    side = np.array([edge.point_at(t) for edge in plug.bearing.edges() for t in np.linspace(0, 1, 30)])
    neck = plug.bearing.end[0]
    tail = [(neck, plug.face), (plug.flange, plug.face), (plug.flange, plug.back), (0, plug.back)]
    return shapely.Polygon([(0, plug.tip), *side, *tail])


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
@pytest.mark.parametrize("name", ["vase", "open", "staved"])
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


def test_a_plug_turned_to_the_inside_lies_on_it():
    section, plug = plug_of("bowl", "inside", lining=2)
    side = np.array([edge.point_at(t) for edge in plug.bearing.edges() for t in np.linspace(0, 1, 9)])
    wood = solid(section.contour)
    gaps = shapely.distance(shapely.points(side), wood)
    assert gaps == pytest.approx(2.0, abs=0.01)
    assert plug.face > section.height
    assert not plug.stands


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
    plan = held(name, base_hole=11.0).reversing
    each = {way: plug_of(name, way, base_hole=11.0)[1] for way in WAYS[1:]}
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


# What a refusal names is put into the job, which then is held.


def cone(reverse):
    """Its last 30 mm lean by atan(2 / 30), 3.8 degrees."""
    return made([[0, 90], [60, 100], [90, 104]], reverse=reverse)


def number(remedy, words):
    """The number that stands behind some words of a remedy."""
    found = re.search(rf"{words} ([0-9.]+)", remedy)
    assert found, remedy
    return float(found[1])


def refusal(asked, code):
    section, _, plan = solved(asked)
    found = [f for f in reversing_findings(asked, section, plan) if f.code == code]
    assert [f.severity for f in found] == ["refused"]
    assert plan.plug is None
    return found[0]


def works(asked):
    section, _, plan = solved(asked)
    return plan.plug is not None and not [
        f for f in reversing_findings(asked, section, plan) if f.severity != "note"
    ]


def test_a_flare_that_a_steeper_taper_takes_names_the_taper():
    found = refusal(cone('hold = "taper"'), "not-held-taper")
    assert "3.8 degrees" in found.message
    taper = number(found.remedy, "taper of at least")
    assert taper == 3.9
    assert works(cone(f'hold = "taper"\ntaper = {taper}'))
    assert not works(cone(f'hold = "taper"\ntaper = {taper - 0.2:.1f}'))


def test_a_flare_too_wide_for_any_taper_names_the_way_that_works_and_the_lean():
    wide = made([[0, 90], [60, 150], [90, 240]], reverse='hold = "taper"')
    found = refusal(wide, "not-held-taper")
    assert 'hold = "inside"' in found.remedy
    assert works(made([[0, 90], [60, 150], [90, 240]], reverse='hold = "inside"'))
    length, lean = number(found.remedy, "the last"), number(found.remedy, "at most")
    # From the foot on, the inside's last stretch leans by what is allowed.
    more = 2 * (length + 6) * tan(radians(lean - 0.01))
    straight = [[0, 90], [90 - length - 6, 150], [90, 150 + more]]
    assert works(made(straight, reverse='hold = "taper"'))


def test_a_taper_that_slips_names_the_most_that_jams():
    def asked(taper):
        return made([[0, 90], [90, 90]], reverse=f'hold = "taper"\ntaper = {taper}\nfriction = 0.06')

    found = refusal(asked(5.0), "not-held-taper")
    most = number(found.remedy, "taper of at most")
    assert most <= degrees(atan(0.06)) < most + 0.1
    assert works(asked(most))


@pytest.mark.parametrize("hold", ["taper", "inside"])
def test_a_shallow_inside_names_the_floor(hold):
    def asked(floor):
        return made([[0, 200], [16, 240]], floor=floor, corner=0, reverse=f'hold = "{hold}"\ntaper = 5')

    found = refusal(asked(12), f"not-held-{hold}")
    assert "4.0 mm deep" in found.message
    most = number(found.remedy, "floor of at most")
    assert most == 9.0
    shallow = solved(asked(most))[2].barred
    assert not [barred for barred in shallow if barred.fault == "shallow"]


def test_a_slim_plug_names_the_mouth():
    def asked(mouth):
        return made([[0, 60], [60, 60], [90, mouth]], reverse='hold = "taper"')

    found = refusal(asked(30), "not-held-taper")
    inner = number(found.remedy, "mouth of at least")
    inside_now = 2 * solve_section(asked(30)).mouth_radius
    assert works(asked(30 + inner - inside_now + 0.5))


def test_a_rim_too_wide_for_the_lathe_names_the_lathe():
    def asked(swing):
        lathe = f"[lathe]\nswing_over_bed = {swing}"
        return made([[0, 380], [60, 384]], reverse='hold = "taper"', extra=lathe)

    found = refusal(asked(390), "not-held-taper")
    least = number(found.remedy, "swings at least")
    assert works(asked(least))
    assert not works(asked(least - 0.2))


def test_a_straight_inside_names_the_taper_instead():
    found = refusal(made([[0, 90], [90, 90]], reverse='hold = "inside"'), "not-held-inside")
    assert 'hold = "taper"' in found.remedy
    assert works(made([[0, 90], [90, 90]], reverse='hold = "taper"'))
    assert number(found.remedy, "let") == 5.0


def test_a_narrow_mouth_names_a_mouth_that_lets_the_plug_in():
    outer = [[0, 90], [60, 130], [90, 130]]

    def asked(mouth):
        return own_inside([[10, 40], [60, 100], [90, mouth]], outer, 'hold = "inside"')

    found = refusal(asked(40), "not-held-inside")
    least = number(found.remedy, "of at least")
    assert works(asked(least))
    assert not works(asked(least - 0.5))


def test_no_hole_and_a_small_hole_name_the_least_that_passes_a_bolt():
    def asked(hole):
        return made([[0, 90], [90, 90]], reverse=f'hold = "bolt"\nbase_hole = {hole}')

    for hole in (0, 5):
        found = refusal(asked(hole), "not-held-bolt")
        assert number(found.remedy, "base_hole of at least") == 6.6  # ISO 273, M6, medium
    assert works(asked(6.6))
    assert solved(asked(6.6))[2].plug.bolt.thread == "M6"


def test_a_bolt_of_the_workshop_is_kept():
    extra = '[bolts]\ncentre = "M12"'
    asked = made([[0, 90], [90, 90]], reverse='hold = "bolt"\nbase_hole = 10', extra=extra)
    assert number(refusal(asked, "not-held-bolt").remedy, "at least") == 13.5  # ISO 273, M12, medium


@pytest.mark.parametrize("recess", [16, 20])
def test_a_washer_without_room_names_the_hollow(recess):
    def asked(width):
        foot = f"[foot]\nrecess_diameter = {width}\nrecess_depth = 3"
        return made([[0, 90], [90, 90]], reverse='hold = "bolt"\nbase_hole = 9', extra=foot)

    found = refusal(asked(recess), "not-held-bolt")
    assert works(asked(number(found.remedy, "at least")))


def test_a_washer_without_room_names_the_foot():
    def asked(foot):
        return made([[0, foot], [60, 90], [90, 90]], reverse='hold = "bolt"\nbase_hole = 20')

    found = refusal(asked(36), "not-held-bolt")
    assert works(asked(number(found.remedy, "at least")))


def test_nothing_that_holds_is_a_warning_when_the_job_did_not_ask():
    asked = made([[0, 60], [60, 60], [90, 30]])
    section, _, plan = solved(asked)
    found = reversing_findings(asked, section, plan)
    assert plan.plug is None
    assert {f.severity for f in found} == {"warning"}
    assert [f.code for f in found] == ["not-held-taper", "not-held-inside", "not-held-bolt"]


@pytest.mark.parametrize("name", JOBS)
def test_one_way_that_holds_is_enough_when_the_job_did_not_ask(name):
    plan = held(name)
    assert plan.reversing.plug is not None
    codes = [f.code for f in reversing_findings(plan.job, plan.section, plan.reversing)]
    assert not [code for code in codes if code.startswith("not-held")]


def test_a_mouth_with_a_sharp_edge_asks_for_a_lining():
    def notes(lining):
        reverse = f'hold = "taper"\nlining = {lining}'
        asked = own_inside([[10, 60], [40, 130], [60, 60]], [[0, 80], [40, 150], [60, 80]], reverse)
        section, _, plan = solved(asked)
        return [f.code for f in reversing_findings(asked, section, plan)]

    assert notes(0) == ["sharp-mouth"]
    assert notes(1) == []


@settings(max_examples=20, deadline=None)
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


# Parts


@pytest.fixture(params=[(name, hold) for name in JOBS for hold in ("auto", "bolt")], ids="-".join)
def plan(request):
    name, hold = request.param
    return held(name, hold, base_hole=11.0)


def test_every_part_is_whole_lettered_and_measures_back(plan):
    parts = reversing(plan)
    assert len(parts) == 4
    title = plan.job.title.upper()
    for part in parts:
        assert not faults(part)
        assert part.notes
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


def test_cautions_are_said(plan):
    section = reversing(plan)[0]
    said = " ".join(section.notes).lower()
    for words in ("face shield", "lowest speed", "light cuts", "tape", "one full turn by hand"):
        assert words in said
    plug = plan.reversing.plug
    assert ("hand-tight" in said) == (plug.bolt is not None)
    assert ("tailstock:" in said) == (plug.bolt is None)


def test_no_plug_makes_no_parts():
    plan = solve(made([[0, 60], [60, 60], [90, 30]]))
    assert reversing(plan) == []


# The base


def warned(asked):
    section, stack, _ = solved(asked)
    return {f.code: f for f in base_findings(asked, section, stack)}


def disc(width, species="maple", base="solid"):
    return parse(
        f'title = "Disc"\n[profile]\nedges = [[0, {width}], [90, {width}]]\n[wall]\nthickness = 6\nfloor = 10\n'
        f'[rings]\nheights = 20\nsegments = 12\nspecies = "{species}"\nbase = "{base}"\n',
        "disc.toml",
    )


def test_a_wide_disc_says_how_far_it_moves():
    found = warned(disc(100))["disc-moves"]
    assert found.severity == "warning"
    # 100 mm of sugar maple, 8 % of moisture: 100 * 0.00353 * 8 (GTR-190, table 13-5).
    assert moves(100, "maple") == pytest.approx(2.824)
    assert "2.82 mm" in found.message
    assert "2.9 mm of room" in found.remedy


def test_a_wood_that_is_not_known_is_taken_as_the_liveliest():
    assert moves(100, "greenheart") == max(moves(100, name) for name in SPECIES)
    assert "liveliest" in warned(disc(100, "greenheart"))["disc-moves"].message


def test_a_disc_no_wider_than_that_is_let_be():
    assert not {"disc-moves", "cross-grain"} & set(warned(disc(WIDE_DISC)))
    assert {"disc-moves", "cross-grain"} <= set(warned(disc(WIDE_DISC + 1)))


def test_a_segmented_base_ends_both_warnings():
    found = warned(disc(100))
    assert all('base = "segmented"' in found[code].remedy for code in ("disc-moves", "cross-grain"))
    assert not {"disc-moves", "cross-grain"} & set(warned(disc(100, base="segmented")))


def test_the_crossed_joint_is_the_one_between_disc_and_ring():
    asked = disc(100)
    section, stack, _ = solved(asked)
    found = warned(asked)["cross-grain"]
    numbers = [int(n) for n in re.findall(r"rings (\d+) and (\d+)", found.message)[0]]
    kinds = [layer.kind for layer in stack.layers if layer.number in numbers]
    assert kinds == ["disc", "segments"]
    assert section.foot_radius == 50


def rim(wall, least=3.0):
    return made([[0, 90], [90, 90]], wall=wall, extra=f"least_glue = {least}")


def test_a_thin_rim_joint_says_how_much_thicker_the_wall_has_to_be():
    found = warned(rim(4.0))["thin-rim-joint"]
    more = number(found.remedy, "make the wall")
    assert more == 0.5
    assert "thin-rim-joint" not in warned(rim(4.0 + more))
    assert "thin-rim-joint" not in warned(rim(4.0, least=2.6))


def pattern(count, woods=("ash", "walnut", "cherry", "beech", "maple")):
    names = ", ".join(f'"{name}"' for name in woods)
    return parse(
        f'title = "Pattern"\n[profile]\nedges = [[0, 90], [90, 90]]\n[wall]\nthickness = 6\nfloor = 10\n'
        f'[rings]\nheights = 20\nsegments = {count}\nspecies = ["ash", [{names}]]\n',
        "pattern.toml",
    )


def test_woods_that_do_not_close_round_a_ring_are_noted_with_the_counts_that_do():
    found = warned(pattern(24))["open-pattern"]
    assert found.severity == "note"
    counts = [int(n) for n in re.findall(r"\d+", found.remedy)]
    assert counts == [20, 25]
    for count in counts:
        assert "open-pattern" not in warned(pattern(count))
