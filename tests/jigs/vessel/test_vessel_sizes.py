import io
from dataclasses import replace
from functools import cache
from math import pi

import numpy as np
import pytest

from geometry.plane.contour import Contour
from geometry.plane.sample import sample
from jigs.asked.jobfile import parse
from jigs.files.stl import read_stl, write_stl
from jigs.forms.solve import solve
from jigs.parts.coding import settled
from jigs.parts.processes import as_made
from jigs.parts.readback import ReadBack, measure
from jigs.parts.splitting import split_to_bed
from jigs.stages.sizes.parts.gap_gauges import gap_gauges
from jigs.stages.sizes.parts.sticks import stepped_sticks
from jigs.stages.sizes.solve.vessel import MOST_WIDER, stations
from tests.jigs.inspection import faults, text_of
from tests.jigs.vessel.jobs import job, planned

shapely = pytest.importorskip("shapely")

BY_HAND = '[reversing]\nhold = "none"\n'
ALONE = '[gauges]\nstages = ["finished"]\n'
PRINTED = '[made]\nsizes = "print"\n'
RINGS = '[rings]\nheights = "20 mm"\nsegments = 10\nspecies = "maple"\n'
CLOSE = 0.01


def vessel(stations, wall, more=""):
    lengths = [[f"{z} mm", f"{d} mm"] for z, d in stations]
    shape = f'[profile]\nstations = {lengths}\n[wall]\nthickness = "{wall} mm"\n'
    return parse(f'title = "Medlar"\n{shape}{RINGS}{more}')


def test_a_jig_is_for_the_foot_but_for_a_station_by_its_number():
    """No "the station 2"."""
    plan = solve(job("vase"))
    told = {part.purpose for part in (*gap_gauges(plan), *stepped_sticks(plan))}
    assert any("the foot" in line for line in told)
    assert any(" station 2" in line for line in told)
    assert not [line for line in told if "the station" in line]


def large(more):
    stations = [(0, 180), (60, 340), (120, 400), (200, 300)]
    return vessel(stations, 10, f"[lathe]\nswing_over_bed = 500\n{more}")


OTHERS = {
    "tiny": lambda: vessel([(0, 20), (14, 30), (30, 24)], 3, BY_HAND),
    "large": lambda: large(""),
    "large, printed": lambda: large(PRINTED),
    "inches": lambda: job("cup", "in"),
    "alone": lambda: job("bottle", "mm", ALONE),
    "printed": lambda: job("vase", "mm", PRINTED),
    "every size by gap": lambda: job("vase", "mm", "[gauges]\nwidest_gap = 1000\n"),
    "every size by stick": lambda: job("cup", "mm", "[gauges]\nwidest_gap = 20\n"),
}


@cache
def known(name):
    return solve(OTHERS[name]()) if name in OTHERS else planned(name)


@pytest.fixture(scope="module", params=["vase", "bowl", "platter", "bottle", "cup", *OTHERS])
def plan(request):
    return known(request.param)


gaps_of, sticks_of = cache(gap_gauges), cache(stepped_sticks)


def parts_of(plan):
    return [*gaps_of(plan), *sticks_of(plan)]


def solid(part):
    return shapely.Polygon(sample(part.outline, 0.1))


def disc(diameter, y):
    angle = np.linspace(0, 2 * pi, 2001)
    return shapely.Polygon(np.column_stack((np.cos(angle), np.sin(angle))) * diameter / 2 + (0.0, y))


def clear(part, diameter, y):
    """Whether work of this diameter has room about (0, y) beside the plate."""
    return solid(part).intersection(disc(diameter, y)).area < 1e-3


def span_at(part, y):
    """From where to where a plate reaches at a height."""
    cut = solid(part).intersection(shapely.LineString([(-1e4, y), (1e4, y)]))
    return cut.bounds[0], cut.bounds[2]


def along(surface):
    """Places (n, 2) on a profile, dense."""
    chords = sample(Contour(surface.vertices), 1e-4)
    part = np.linspace(0, 1, 50)[:, None, None]
    return (chords[:-1] * (1 - part) + chords[1:] * part).reshape(-1, 2)


def grown(surface, offset, low, high):
    """Least and largest radius between two heights of discs of radius `offset` all along a surface."""
    x, y = along(surface).T
    off = np.maximum(0.0, np.maximum(low - y, y - high))
    near = off <= offset
    reach = np.sqrt(offset**2 - off[near] ** 2)
    return (x[near] - reach).min(), (x[near] + reach).max()


def covered(plan, station, offset):
    """Largest radius of the outside that a plate about a station covers, with `offset` to go."""
    low, high = (station.height + side * plan.sizes.plate / 2 for side in (-1, 1))
    return grown(plan.section.outer, offset, max(low, 0.0), min(high, plan.section.height))[1]


def test_every_plate_is_sound_and_measures_back(plan):
    parts = parts_of(plan)
    assert parts
    for part in parts:
        assert faults(part) == []
        measure(part, ReadBack((part.outline, *part.holes), None, 1e-6))
        assert len(part.holes) == 1


def test_every_station_has_a_gap_gauge_or_a_stick(plan):
    found = [gauge.station.height for gauge in (*plan.sizes.gaps, *plan.sizes.sticks)]
    wanted = stations(plan.section, plan.gauges.stations, plan.job.called.foot)
    assert sorted(found) == [station.height for station in wanted]
    assert {0.0, plan.section.height} <= set(found)
    names = [part.name for part in parts_of(plan)]
    assert len(set(names)) == len(names)


def test_the_sizes_of_a_gap_are_the_largest_that_its_plate_covers_at_a_stage(plan):
    for gap in plan.sizes.gaps:
        for size in (gap.go, gap.before):
            if size is None:
                continue
            offset = plan.gauges.stages[size.number - 1].offset
            assert size.diameter == pytest.approx(2 * covered(plan, gap.station, offset), abs=CLOSE)
        assert gap.go.diameter >= 2 * (gap.station.radius + plan.job.gauges.sanding_allowance) - 1e-9


def test_go_is_the_last_stage_and_smaller_than_not_yet(plan):
    for gap in plan.sizes.gaps:
        assert gap.go.number == len(plan.gauges.stages)
        if gap.before:
            assert gap.before.number == gap.go.number - 1
            assert gap.before.diameter > gap.go.diameter + 2 * 0.5
        else:
            assert len(plan.gauges.stages) == 1


def test_a_gap_takes_work_of_its_size_and_no_larger_and_its_tips_pass_the_middle(plan):
    for part, gap in zip(gaps_of(plan), plan.sizes.gaps, strict=True):
        _, bottom, _, top = part.outline.bounds
        ends = [(gap.go, bottom, 1), (gap.before, top, -1)] if gap.before else [(gap.go, bottom, 1)]
        for size, tip, inward in ends:
            middle = tip + inward * 2.0  # of the work, on the lathe's side: the tips are past it by 2 mm
            assert clear(part, size.diameter, middle)
            assert clear(part, size.diameter + 2 * gap.fit - CLOSE, middle)
            assert not clear(part, size.diameter + 2 * gap.fit + 0.05, middle)


def test_a_gap_gauge_is_no_wider_than_asked_and_its_legs_are_stiff(plan):
    for part, gap in zip(gaps_of(plan), plan.sizes.gaps, strict=True):
        assert 2 * gap.reach <= plan.job.gauges.widest_gap
        left, right = span_at(part, -1.0)
        assert right == pytest.approx(gap.reach)
        inner = gap.go.diameter / 2 + gap.fit
        assert right - inner >= 12.0 - 1e-9
        assert left == pytest.approx(-right)
    for stick in plan.sizes.sticks:
        widest = max(2 * covered(plan, stick.station, stage.offset) for stage in plan.gauges.stages[-2:])
        reach = widest + 2 * plan.gauges.fit + 2 * max(12.0, widest / 8)
        steep = 2 * (covered(plan, stick.station, 0.0) - stick.station.radius) > MOST_WIDER - CLOSE
        assert reach > plan.job.gauges.widest_gap - CLOSE or steep


def test_a_calliper_stick_is_as_long_as_each_stage_at_its_station(plan):
    found = [part for part in sticks_of(plan) if part.name.startswith("calliper-stick")]
    for part, stick in zip(found, plan.sizes.sticks, strict=True):
        top = part.outline.bounds[3]
        assert len(stick.sizes) == len(plan.gauges.stages)
        for k, (size, stage) in enumerate(zip(stick.sizes, plan.gauges.stages, strict=True)):
            left, right = span_at(part, top - 12.0 * (len(stick.sizes) - k) + 6.0)
            assert right - left == pytest.approx(size.diameter, abs=1e-6)
            _, expected = grown(plan.section.outer, stage.offset, *[stick.station.height] * 2)
            assert size.diameter == pytest.approx(2 * expected, abs=CLOSE)


def test_a_mouth_stick_enters_the_mouth_at_its_stage_and_not_before(plan):
    plate = plan.sizes.plate
    found = [part for part in sticks_of(plan) if part.name.startswith("mouth-stick")]
    numbers = []
    for part, stick in zip(found, plan.sizes.mouth, strict=True):
        _, bottom, _, top = part.outline.bounds
        for size, y in ((stick.before, top - 1.0), (stick.go, bottom + 1.0)):
            if size is None:
                continue
            numbers.append(size.number)
            left, right = span_at(part, y)
            arris = np.hypot((right - left) / 2, plate / 2)
            assert 2 * arris == pytest.approx(size.diameter, abs=1e-6)
            offset = plan.gauges.stages[size.number - 1].offset
            least, _ = grown(plan.section.inner, offset, plan.section.height, plan.section.height)
            assert size.diameter == pytest.approx(2 * least, abs=CLOSE)
    assert numbers == list(range(len(plan.gauges.stages) - len(numbers) + 1, len(plan.gauges.stages) + 1))


def test_every_plate_says_what_it_is_for_where_and_that_the_lathe_stands_still(plan):
    for part, gauge in zip(parts_of(plan), [*plan.sizes.gaps, *plan.sizes.sticks], strict=False):
        for words in (gauge.station.name.upper(), "OVER FOOT", "OVER FACEPLATE"):
            assert words in text_of(part)
    for part in parts_of(plan):
        text = text_of(part)
        assert plan.job.title.upper() in text
        assert "LATHE STOPPED, REST AWAY" in text
        assert "FINISHED" in text or "MOUTH" in text


def test_each_end_of_a_gap_gauge_is_lettered_with_its_own_size():
    plan = known("cup")
    for made, gap in zip(gaps_of(plan), plan.sizes.gaps, strict=True):
        part = settled(made, "")
        rows = [mark for mark in part.marks if mark.text[0] in "↑↓"]
        assert [row.text[0] for row in sorted(rows, key=lambda row: row.origin[1])] == ["↓", "↑"]
        text = text_of(part)
        upper, lower = text.split("↓")
        assert f"Ø{gap.before.diameter:.2f} MM" in upper
        assert f"Ø{gap.go.diameter:.2f} MM" in lower
        assert clear(part, gap.before.diameter, part.outline.bounds[3] - 2.0)
        assert not clear(part, gap.before.diameter, part.outline.bounds[1] + 2.0)


def test_a_printed_stick_longer_than_the_bed_comes_in_pieces_that_measure_back():
    plan = known("large, printed")
    stick = next(part for part in sticks_of(plan) if part.name == "calliper-stick-wide-place")
    pieces = split_to_bed(as_made(stick, "print", plan.job.workshop), (220, 220), 0.1)
    assert len(pieces) > 1
    for piece in pieces:
        stream = io.BytesIO()
        write_stl(piece, stream)
        stream.seek(0)
        measure(piece, read_stl(stream))


def test_a_title_of_one_long_word_is_lettered_on_a_plate_wide_enough():
    plan = solve(replace(OTHERS["tiny"](), title="M" * 40))
    for part in parts_of(plan):
        assert faults(part) == []
        assert "M" * 40 in text_of(part)
