"""PrusaSlicer opens every bed-load: each copy one closed body of its size in its place, solid where it has to be."""

import pytest

from tests.clients.test_prusa_slicer import CHORDS, size

SOLID = ("Fill", "solid")
# Thick lines in few layers: whether there is any filling shows in those too.
HOLLOW = (
    "--nozzle-diameter", 1, "--layer-height", 0.8, "--first-layer-height", 0.8, "--perimeters", 1,
    "--fill-density", 0, "--top-solid-layers", 0, "--bottom-solid-layers", 0, "--gcode-label-objects",
    "--perimeter-generator", "classic",
)  # fmt: skip


def strays(found, wanted):
    """Rows of numbers that are not among those wanted, within what chords take off."""
    left = list(found)
    for row in wanted:
        near = [one for one in left if one == pytest.approx(row, abs=CHORDS)]
        if near:
            left.remove(near[0])
    return left


def test_every_copy_is_one_closed_body_of_its_size_in_its_place(racks, infos):
    loads = {file: load for made in racks for file, load in made.bed_loads()}
    for file, found in infos(list(loads)).items():
        placed = loads[file].placed
        assert len(found) == len(placed), file.name
        assert all(body["manifold"] == "yes" and body["number_of_parts"] == "1" for body in found), file.name
        low = [[float(body[key]) for key in ("min_x", "min_y")] for body in found]
        assert not strays(low, [list(item.contour(item.part.outline).bounds[:2]) for item in placed])
        sizes = [sorted(float(body[f"size_{axis}"]) for axis in "xyz") for body in found]
        assert not strays(sizes, [sorted(size(item.part)) for item in placed])


def test_parts_that_must_be_solid_are_filled_though_the_slicer_is_set_to_hollow(racks, sliced):
    """One plate that has such beside others, of those in all sets: that they ask for it, test_three_mf.py knows."""
    solid = {
        file: {f"{part.code} {part.name}" for part in load.counts if SOLID in part.facts}
        for made in racks
        for file, load in made.bed_loads()
        if {SOLID in part.facts for part in load.counts} == {True, False}
    }
    file = min(solid, key=lambda file: file.stat().st_size)
    assert filled(sliced([file], *HOLLOW)[file]) == solid[file]


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
