"""PrusaSlicer opens every bed-load: each copy one closed body of its size in its place, solid where it has to be."""

import re

import pytest

from tests.clients.test_prusa_slicer import BED, CHORDS, size

SOLID = ("Fill", "solid")
HOLLOW = (
    "--skirts", 0, "--brim-width", 0, "--layer-height", 0.2, "--first-layer-height", 0.2, "--perimeters", 2,
    "--fill-density", 0, "--top-solid-layers", 0, "--bottom-solid-layers", 0, "--gcode-label-objects",
    "--bed-shape", BED,
)  # fmt: skip


def bodies(text):
    """The facts of each body that --info lists, in millimetres."""
    parts = [part for part in text.split("[") if "size_x" in part]
    return [dict(re.findall(r"^(\w+) = +(\S+)", part, re.MULTILINE)) for part in parts]


def strays(found, wanted):
    """Rows of numbers that are not among those wanted, within what chords take off."""
    left = list(found)
    for row in wanted:
        near = [one for one in left if one == pytest.approx(row, abs=CHORDS)]
        if near:
            left.remove(near[0])
    return left


def test_every_copy_is_one_closed_body_of_its_size_in_its_place(made, run, tmp_path):
    for file, load in made.bed_loads():
        found = bodies(run("prusa-slicer", "--info", "--datadir", tmp_path / "settings", file))
        assert len(found) == len(load.placed), file.name
        assert all(body["manifold"] == "yes" and body["number_of_parts"] == "1" for body in found), file.name
        low = [[float(body[key]) for key in ("min_x", "min_y")] for body in found]
        assert not strays(low, [list(item.contour(item.part.outline).bounds[:2]) for item in load.placed])
        sizes = [sorted(float(body[f"size_{axis}"]) for axis in "xyz") for body in found]
        assert not strays(sizes, [sorted(size(item.part)) for item in load.placed])


def test_parts_that_must_be_solid_are_filled_though_the_slicer_is_set_to_hollow(made, run, tmp_path):
    for file, load in made.bed_loads():
        solid = {f"{part.code} {part.name}" for part in load.counts if SOLID in part.facts}
        if solid:
            code = tmp_path / "load.gcode"
            run(
                "prusa-slicer",
                "--datadir",
                tmp_path / "settings",
                "--export-gcode",
                *HOLLOW,
                "-o",
                code,
                file,
            )
            assert filled(code.read_text()) == solid, file.name


def filled(code):
    """Names of the bodies that have any filling."""
    found, body, kind = set(), "", ""
    for row in code.splitlines():
        if row.startswith("; printing object "):
            body, kind = row.removeprefix("; printing object ").partition(" id:")[0], ""
        elif row.startswith(";TYPE:"):
            kind = row
        elif row.startswith("G1 ") and " E" in row and "infill" in kind:
            found.add(body)
    return found
