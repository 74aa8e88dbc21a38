"""Where a vessel's diameters are gauged, and their sizes where these are plain."""

import numpy as np
import pytest

from geometry.measuring.turned import Station
from geometry.plane.profile import profile
from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.stages.finished_form.solve import solve_section
from jigs.stages.sizes.parts.gap_gauges import gap_gauges
from jigs.stages.sizes.solve.vessel import MOST_WIDER, extremes, sizes_findings, stations
from jigs.stages.stack.tables import tables
from tests.jigs.inspection import text_of
from tests.jigs.vessel.jobs import job, planned

RINGS = '[rings]\nheights = 20\nsegments = 10\nspecies = "maple"\n'


def vessel(rows, wall, more=""):
    return parse(f'title = "Medlar"\n[profile]\nstations = {rows}\n[wall]\nthickness = {wall}\n{RINGS}{more}')


def test_on_an_upright_wall_the_sizes_are_the_diameter_and_twice_the_stage():
    text = 'title = "Beaker"\n[profile]\nedges = [[0, 80], [100, 80]]\n[wall]\nthickness = 6\n'
    plan = solve(parse(text + RINGS))
    assert len(plan.sizes.gaps) == 2
    for gap in plan.sizes.gaps:
        assert gap.go.diameter == pytest.approx(80 + 2 * 0.25)
        assert gap.before.diameter == pytest.approx(80 + 2 * 1)
        assert gap.wider == pytest.approx(0.0)
    last = plan.sizes.mouth[-1]
    assert last.go.diameter == pytest.approx(68 - 2 * 0.25)
    assert last.before.diameter == pytest.approx(68 - 2 * 1)


def test_wide_and_narrow_places_are_found_where_the_profile_turns():
    wavy = profile((30.0, 0.0), (50.0, 20.0), (50.0, 40.0), (20.0, 60.0), (45.0, 80.0), (40.0, 90.0))
    expected = [(30.0, "wide place"), (60.0, "narrow place"), (80.0, "wide place 2")]
    assert extremes(wavy) == expected
    half_round = profile((40.0, 0.0, -0.5), (40.0, 60.0))
    assert extremes(half_round)[0][0] == pytest.approx(30.0)
    assert extremes(profile((30.0, 0.0), (50.0, 20.0))) == []
    rippled = profile((30.0, 0.0), (40.0, 20.0), (39.7, 25.0), (39.9, 40.0), (39.6, 60.0), (20.0, 90.0))
    assert extremes(rippled) == [(20.0, "wide place")]


def test_near_stations_are_one_and_there_are_ten_at_most():
    section = solve_section(job("vase"))
    stated = [Station(float(z), section.outer.radius_at(z), f"station {z}") for z in range(1, 180)]
    found = stations(section, stated, "foot")
    assert len(found) == 10
    assert [found[0].name, found[-1].name] == ["foot", "rim"]
    assert "wide place" in [station.name for station in found]
    for k, a in enumerate(found):
        for b in found[k + 1 :]:
            assert abs(a.height - b.height) >= 5.0 or abs(a.radius - b.radius) >= 1.0
    gaps = np.diff([station.height for station in found])
    assert gaps.max() < 60.0


def test_a_mouth_too_narrow_for_a_stick_is_noted_with_the_mouth_that_would_do():
    rows, by_hand = [[0, 60], [60, 90], [120, 40], [150, 24]], '[reversing]\nhold = "none"\n'
    plan = solve(vessel(rows, 5, by_hand))
    assert plan.sizes.mouth == ()
    (finding,) = sizes_findings(plan.job, plan.sizes)
    assert finding.code == "no-mouth-stick"
    assert finding.severity == "note"
    wider = float(finding.remedy.split("at least ")[1].split()[0]) + 2 * 5 + 0.5
    more = solve(vessel([*rows[:3], [150, wider], [152, wider]], 5, by_hand))
    assert more.sizes.mouth
    assert sizes_findings(more.job, more.sizes) == []


def test_on_a_slope_the_gauge_says_how_much_its_plate_covers_more():
    plan = planned("vase")
    gap = next(gap for gap in plan.sizes.gaps if gap.station.name == "rim")
    expected = 2 * (plan.section.outer.radii(174, 180)[1] - 48)
    assert gap.wider == pytest.approx(expected)
    part = next(part for part in gap_gauges(plan) if part.name == "gap-gauge-rim")
    assert any(f"{gap.wider:.1f}" in note and "slope" in note for note in part.notes)


def test_on_a_slope_too_steep_for_a_gap_gauge_there_is_a_stick():
    plan = planned("bowl")
    assert "foot" in {stick.station.name for stick in plan.sizes.sticks}
    assert 2 * (plan.section.outer.radii(0, 6)[1] - 40) > MOST_WIDER
    assert all(gap.wider <= MOST_WIDER for gap in plan.sizes.gaps)


def test_heights_are_lettered_from_the_foot_and_from_the_faceplate():
    plan = planned("cup")
    part = next(part for part in gap_gauges(plan) if part.name == "gap-gauge-rim")
    assert "70.00 MM OVER FOOT" in text_of(part)
    over = 70.0 + plan.job.rings.turning_allowance + plan.job.rings.waste_block
    assert f"{over:.2f} MM OVER FACEPLATE" in text_of(part)


def test_printed_plates_are_thinner_and_cover_less_of_a_slope():
    cut, printed = (planned("vase", "mm", more) for more in ("", "[made]\nsizes = 'print'\n"))
    assert printed.sizes.plate < cut.sizes.plate
    assert printed.sizes.gaps[0].wider < cut.sizes.gaps[0].wider


def test_the_table_names_the_stations_that_are_turned_to():
    plan = planned("vase")
    table = next(one for one in tables(plan) if one.id == "stations")
    assert {row[0] for row in table.rows} == {station.name for station, _ in plan.sizes.finished}
