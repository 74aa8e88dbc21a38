"""PrusaSlicer keeps to the drawn edge where a flat dome's gauge ends; a tip left sharp it prints too thick."""

import re
from dataclasses import replace

import numpy as np
import pytest
import shapely

from jigs.asked.jobfile import load
from jigs.dryfit.model import polygon_of
from jigs.dryfit.vessel.outside import EDGE
from jigs.files.stl import write_stl
from jigs.forms.solve import solve
from jigs.stages.gauging.parts.outside import outside_gauges
from tests.jigs.vessel.lids import written

SLICING = ("--layer-height", 0.2, "--first-layer-height", 0.2)
FLAT = ("  [5, 30],\n  [19, 100, 70],", "  [19, 100, 52],")  # the dome begins at its foot, 6 degrees flat
SHEET = ("[lid]", '[made]\ngauges = "cut"\n\n[lid]')  # which leaves the tip as it is drawn
THIN = 2.4  # mm: one layer is looked at, the first one between what is solid below and above
GENERATORS = ("arachne", "classic")


def finished(folder, *changes):
    folder.mkdir()
    return outside_gauges(solve(load(written(folder, lid=[FLAT, *changes]))))[-1]


def extruded(gcode):
    """What one layer in the plate's middle covers: every line of plastic, round at its ends."""
    at, layer, kind, width, lines, walls = np.zeros(2), 0, "", 0.0, [], []
    for text in gcode.splitlines():
        key, _, value = text.partition(":")
        layer += key == ";LAYER_CHANGE"
        kind = value if key == ";TYPE" else kind
        width = float(value) if key == ";WIDTH" else width
        if text.startswith("G1 ") and (words := dict(re.findall(r"([XYE])(\S+)", text))).keys() & {"X", "Y"}:
            start, at = at, np.array([float(words.get(axis, at[i])) for i, axis in enumerate("XY")])
            if layer == 5 and "E" in words and tuple(start) != tuple(at):
                lines.append(shapely.LineString([start, at]).buffer(width / 2))
                walls += [lines[-1]] if kind == "External perimeter" else []
    return shapely.union_all(lines), shapely.union_all(walls).bounds


def stands_out(part, sliced, folder, generator):
    """How far plastic comes beyond a plate's outline, mm, its back and foot in line with those drawn."""
    file = folder / "part.stl"
    write_stl(replace(part, thickness=THIN, marks=()), file)
    code = sliced([file], *SLICING, "--perimeter-generator", generator)[file]
    printed, walls = extruded(code)
    plate = polygon_of(part.outline)
    moved = shapely.affinity.translate(printed, plate.bounds[2] - walls[2], plate.bounds[1] - walls[1])
    assert moved.intersection(plate).area > 0.1 * plate.area
    points = shapely.points(shapely.get_coordinates(moved))
    return float(shapely.distance(plate, points).max())


@pytest.mark.parametrize("generator", GENERATORS)
def test_a_flat_domes_gauge_is_printed_no_thicker_than_drawn(generator, sliced, tmp_path):
    assert stands_out(finished(tmp_path / "job"), sliced, tmp_path, generator) < EDGE


@pytest.mark.parametrize("generator", GENERATORS)
def test_a_tip_left_sharp_is_printed_thicker_than_drawn(generator, sliced, tmp_path):
    assert stands_out(finished(tmp_path / "job", SHEET), sliced, tmp_path, generator) > EDGE
