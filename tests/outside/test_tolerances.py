"""What a set's files measure, held against general tolerances; and the unit that the drawings state."""

import json
from bisect import bisect_left
from pathlib import Path
from typing import Any

import pytest
from ezdxf import bbox, units
from ezdxf.enums import InsertUnits
from ezdxf.filemanagement import readfile

from tests.jigs.set_files import in_set

CONFIGS = Path(__file__).parents[2] / "configs"

# ISO 2768-1:1989, table 1: tolerances for lengths (mm) from 0.5 up to each bound, class m
# (medium); table 3: for angles by the shorter leg, class m. From reproductions.
LENGTHS = (3.0, 6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0)
MEDIUM = (0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2)
LONGEST_LEG = 5.0 / 60.0  # degrees, legs over 400 mm: the least

SHARE = 0.1  # of the tolerance that our files may use up; the machine and the wood want the rest


@pytest.fixture(scope="module")
def made(set_of) -> Path:
    return set_of("garland")[1]


@pytest.fixture(scope="module")
def dimensions(made: Path) -> list[dict[str, Any]]:
    files = json.loads((made / "manifest.json").read_text("utf-8"))["files"]
    return [dimension for file in files for dimension in file["dimensions"]]


def test_every_length_is_far_within_the_medium_class(dimensions: list[dict[str, Any]]) -> None:
    lengths = [d for d in dimensions if d["unit"] == "mm" and d["value"] >= 0.5]
    assert len(lengths) > 20
    for length in lengths:
        allowed = MEDIUM[bisect_left(LENGTHS, length["value"])]
        assert abs(length["measured"] - length["value"]) < SHARE * allowed, length


def test_every_angle_is_far_within_the_longest_legs_tolerance(dimensions: list[dict[str, Any]]) -> None:
    angles = [d for d in dimensions if d["unit"] == "deg"]
    assert len(angles) >= 4
    for angle in angles:
        assert abs(angle["measured"] - angle["value"]) < SHARE * LONGEST_LEG, angle


def test_drawings_of_parts_and_of_whole_sheets_state_millimetres(made: Path) -> None:
    # Autodesk DXF reference, header: $INSUNITS 4 means millimetres; $MEASUREMENT 1 means metric.
    for file in (in_set(made, "cut/tilt-plate.dxf"), next(made.glob("sheets/*.dxf"))):
        header = readfile(file).header
        assert (header["$INSUNITS"], header["$MEASUREMENT"]) == (4, 1)
        assert units.decode(header["$INSUNITS"]) == "mm"


def test_a_drawing_brought_into_inches_has_its_size(made: Path, dimensions: list[dict[str, Any]]) -> None:
    document = readfile(in_set(made, "cut/tilt-plate.dxf"))
    cut = document.modelspace().query('LWPOLYLINE[layer=="cut"]')
    factor = units.conversion_factor(document.header["$INSUNITS"], InsertUnits.Inches)
    high = bbox.extents(cut).size.y * factor
    assert high == pytest.approx(60.0 / 25.4, rel=1e-6)
