"""PrusaSlicer takes every printed part as it is, and prints it in its size."""

import re

import numpy as np
import pytest
import shapely

from geometry.plane.sample import sample

# Only the outer walls are measured, in few layers: nothing inside them.
SLICING = (
    "--layer-height", 0.4, "--first-layer-height", 0.2, "--fill-density", 0, "--top-solid-layers", 0,
    "--bottom-solid-layers", 0, "--perimeters", 1, "--perimeter-generator", "classic",
)  # fmt: skip
CHORDS = 0.01  # mm, of a curve broken into chords
WALL = (0.02, 0.02, 0.1)  # mm: the middle of the wall is worked out and rounded; height comes in layers
PLAIN = {
    "number_of_facets",
    "volume",
    *(f"{kind}_{axis}" for kind in ("size", "min", "max") for axis in "xyz"),
}


def size(part):
    """Width, height and thickness with the raised marks, mm."""
    x0, y0, x1, y1 = part.outline.bounds
    return x1 - x0, y1 - y0, part.thickness + (part.mark_height if part.marks else 0.0)


def mesh_faults(found, part):
    wanted = {"manifold": "yes", "number_of_parts": "1"}  # and nothing about edges or facets mended
    told = wanted | {key: value for key, value in found.items() if key not in PLAIN}
    faults = [f"{key} = {told[key]}" for key in told if told[key] != wanted.get(key) or key not in found]
    measured = [float(found[f"size_{axis}"]) for axis in "xyz"]
    if measured != pytest.approx(size(part), abs=CHORDS):
        faults.append(f"size {measured}, not {size(part)}")
    return faults


def printable(part, line):
    """The same as a round line of plastic can lay it: a corner askew to the axes comes out that much rounder."""
    plate = shapely.Polygon(sample(part.outline, 0.001))
    x0, y0, x1, y1 = plate.buffer(-line / 2, join_style="mitre", mitre_limit=50).bounds
    return x1 - x0 + line, y1 - y0 + line, size(part)[2]


def wall_size(gcode):
    """Width and height over the outer wall, half a line's width beyond its middle, the top layer; that line; mm."""
    at, boxes, kind, line, top = np.zeros(2), [], "", 0.0, 0.0
    for text in gcode.splitlines():
        key, _, value = text.partition(":")
        kind = value if key == ";TYPE" else kind
        line = float(value) if key == ";WIDTH" else line
        top = float(value) if key == ";Z" else top
        if text.startswith("G1 ") and (words := dict(re.findall(r"([XYE])(\S+)", text))).keys() & {"X", "Y"}:
            start, at = at, np.array([float(words.get(axis, at[i])) for i, axis in enumerate("XY")])
            if "E" in words and kind == "External perimeter":
                boxes += [(point - line / 2, point + line / 2) for point in (start, at)]
    low, high = np.array(boxes).transpose(1, 0, 2)
    outermost = high[:, 0].argmax()
    return (*(high.max(axis=0) - low.min(axis=0)).tolist(), top), float((high - low)[outermost, 0])


def test_every_printed_part_is_one_closed_body_of_its_size(racks, infos):
    parts = {file: part for made in racks for part, file in made.files("print")}
    for file, bodies in infos(list(parts)).items():
        [body] = bodies
        assert not mesh_faults(body, parts[file]), file.name


def test_a_torn_mesh_is_found_out(infos, torn):
    part, file = torn
    [body] = infos([file])[file]
    assert "manifold = no" in mesh_faults(body, part)


def test_every_sixteenth_printed_part_is_sliced_in_its_size(racks, sliced):
    """Slicing takes a while; what the program makes of the others' meshes is asked above."""
    parts = {file: part for k, made in enumerate(racks) for part, file in made.files("print")[k % 8 :: 16]}
    for file, code in sliced(list(parts), *SLICING).items():
        printed, line = wall_size(code)
        assert all(abs(np.subtract(printed, printable(parts[file], line))) <= WALL), file.name
