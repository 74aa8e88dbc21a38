"""Jigs of the saws in whole jobs, angle plates, and what is refused."""

import re
from dataclasses import replace
from math import asin, atan, cos, degrees, hypot, pi, sin
from pathlib import Path

import numpy as np
import pytest

from jigs.files.dxf import read_dxf, write_dxf
from jigs.parts.readback import measure
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.parts.flat_sleds import angle_plates, flat_sleds, stop_sticks
from jigs.stages.flat_segments.solve import saw_plan
from jigs.stages.stack.plan import Layer
from jigs.stages.staves.parts import stave_sled
from tests.jigs.inspection import faults, text_of
from tests.jigs.vessel.saw_bench import stick_length, sticks
from tests.jigs.vessel.saw_stacks import STAVES, findings, layer, plan_of

ASKED: tuple[tuple[object, ...], ...] = (
    (20, 12),
    (20, "[8, 12, 16]"),
    (30, 4),
    (20, 24, STAVES),
    (15, 12, 'spacer = 2\nspacer_species = "walnut"\n'),
    (20, 8, "gap = 4\n", '[reversing]\nhold = "none"\n'),
    (20, 12, 'base = "segmented"\n'),
)


@pytest.mark.parametrize("asked", ASKED, ids=str)
def test_parts_of_whole_jobs_are_sound_have_names_of_their_own_and_measure_back(
    asked: tuple[object, ...], tmp_path: Path
) -> None:
    plan = plan_of(*asked)
    parts = [*flat_sleds(plan), *angle_plates(plan), *stop_sticks(plan), *stave_sled(plan)]
    assert len({part.name for part in parts}) == len(parts)
    assert {part.family for part in parts} == {"segments", "angles"}
    for part in parts:
        assert faults(part) == []
        file = tmp_path / f"{part.name}.dxf"
        write_dxf(part, file)
        for found in measure(part, read_dxf(file)):
            assert found.measured == pytest.approx(found.nominal, abs=0.01), (part.name, found)


def test_a_ring_of_pie_pieces_is_cut_to_points() -> None:
    plan = plan_of(20, 12, 'base = "segmented"\ncore_plug = 0\n')
    strip = next(s for sled in plan.saws.sleds for x in sled.settings for s in x.strips if 1 in s.rings)
    assert strip.inner_edge == pytest.approx(2 * 0.1 / cos(pi / 12))


def test_sticks_say_which_rings_which_edge_and_how_long() -> None:
    for _, setting, stick in sticks(plan_of(20, 12)):
        said = text_of(stick)
        assert "BLADE" in said
        assert "STOP" in said
        assert f"{setting.stop:.2f} MM" in said
        for number in setting.rings:
            assert re.search(rf"\b{number}\b", said)


def test_a_short_stick_is_a_tongue_with_room_for_its_words() -> None:
    (found,) = [s for _, x, s in sticks(replaced(layer(1, 24, 34.0, 12.0, 20.0, 0.1)))]
    assert 5 < stick_length(found) < 12
    assert "RING 1" in text_of(found)
    assert "TONGUE" in text_of(found)


def replaced(*layers: Layer) -> VesselPlan:
    plan = plan_of(20, 12)
    return replace(plan, saws=saw_plan(plan.job, layers, None))


@pytest.mark.parametrize("count", [4, 5, 6, 7, 8, 12, 16, 24, 40, 96])
def test_the_joint_plate_has_the_angle_between_neighbours(count: int) -> None:
    (plate,) = angle_plates(replaced(layer(1, count, 200.0, 20.0, 20.0, 0.1)))
    assert plate.name == f"joint-plate-n{count}"
    assert faults(plate) == []
    points = plate.outline.points
    foot, slope = (points[k] - points[k - 1] for k in (1, 3))  # the third edge runs back along the slope
    assert degrees(float(np.arccos(-(foot @ slope) / hypot(*foot) / hypot(*slope)))) == pytest.approx(
        360 / count
    )


def test_the_staves_plates_set_the_compound_angle() -> None:
    plan = plan_of(20, 12, STAVES)
    band = plan.stack.staves
    assert band is not None
    plates = {part.name: part for part in angle_plates(plan)}
    tilt = max(plates["stave-tilt-plate"].outline.points.tolist(), key=lambda p: (p[1], -p[0]))
    assert atan(tilt[0] / tilt[1]) == pytest.approx(asin(cos(band.lean) * sin(pi / 16)))
    for part in plates.values():
        assert ("16 STAVES" in text_of(part)) == part.name.startswith("stave")


def test_a_strip_too_thick_for_the_blade_is_refused_and_the_remedy_works() -> None:
    found = findings(75, 12)["strip-too-thick"]
    assert "75.3 mm" in found.message  # with what flattening takes
    assert "90.3 mm" in found.message
    most = float(re.findall(r"at most ([\d.]+) mm", found.remedy)[0])
    saw = float(re.findall(r"at least ([\d.]+) mm", found.remedy)[0])
    assert "strip-too-thick" not in findings(most, 12)
    assert "strip-too-thick" in findings(most + 0.2, 12)
    tall = f"[saw]\nblade_height = {saw}\n"
    assert "strip-too-thick" not in findings(75, 12, tall)


def test_segments_too_short_to_hold_are_refused_and_the_remedy_works() -> None:
    found = findings(20, 60)["short-segment"]
    most = int(re.findall(r"at most (\d+) segments", found.remedy)[0])
    assert "short-segment" not in findings(20, most)
    assert "short-segment" in findings(20, most + 1)


def test_where_no_count_makes_segments_long_enough_the_least_that_holds_is_named() -> None:
    found = findings(20, 4, "least_segment = 100\nturning_allowance = 1\n")["short-segment"]
    least = re.findall(r"least_segment of at most ([\d.]+) mm", found.remedy)[0]
    assert "short-segment" not in findings(20, 4, f"least_segment = {least}\n")


def test_a_saw_without_room_beside_the_blade_is_refused_with_the_least_that_does() -> None:
    found = findings(20, 12, "[saw]\nthroat = 200\n")["throat"]
    least = re.findall(r"at least ([\d.]+) mm", found.remedy)[0]
    assert "throat" not in findings(20, 12, f"[saw]\nthroat = {least}\n")


def test_a_stave_too_thick_for_the_blade_is_refused_with_the_least_that_does() -> None:
    found = findings(10, 12, STAVES, "[saw]\nblade_height = 26\n")["stave-too-thick"]
    least = re.findall(r"at least ([\d.]+) mm", found.remedy)[0]
    assert "stave-too-thick" not in findings(10, 12, STAVES, f"[saw]\nblade_height = {least}\n")


def test_a_blade_that_stands_over_half_of_itself_is_refused() -> None:
    assert "blade-over-half" in findings(20, 12, "[saw]\nblade_height = 130\n")


def test_a_usual_bowl_leaves_the_saws_nothing_to_say() -> None:
    assert findings(20, "[8, 12, 16]") == {}


@pytest.mark.parametrize("title", ["M" * 40, "Wide bowl of many rings and woods"])
def test_a_long_title_is_left_off_a_stick_before_the_rings_are(title: str) -> None:
    rings = tuple(layer(n, 12, 20.0 + 30 * (n % 2), 12.0, 20.0, 0.1) for n in range(1, 25))
    plan = replaced(*rings)
    plan = replace(plan, job=replace(plan.job, title=title))
    for part in [*flat_sleds(plan), *angle_plates(plan), *stop_sticks(plan)]:
        assert faults(part) == []
    for _, _, stick in sticks(plan):
        assert "23" in text_of(stick) or "24" in text_of(stick)
