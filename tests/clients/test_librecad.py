"""LibreCAD prints a wedge, or the plate that a vessel's fences are set by, in its true size."""

import ezdxf
import numpy as np
import pytest
from ezdxf import bbox

from tests.conftest import JOBS

DPI = 508  # 0.05 mm a pixel; LibreCAD itself steps by 1/1200 in
STEP = 0.1  # mm
LONG = 40.0  # mm: only the foot and the scale line are
PLATES = ("sled-wedge", "joint-plate")


@pytest.fixture(scope="module")
def plates(racks):
    """A plate of each job, and its DXF."""
    cut = [[one for one in made.files("cut") if one[0].name.startswith(PLATES)] for made in racks]
    return {made.job.name: own[0] for made, own in zip(racks, cut, strict=True)}


@pytest.fixture(scope="module")
def pages(plates, run, tmp_path_factory):
    """The folder of all pages, printed in one run."""
    folder = tmp_path_factory.mktemp("printed")
    run("librecad", "dxf2pdf", "-c", "-s", 1, "-t", folder, *(file for _, file in plates.values()))
    return folder


@pytest.fixture(scope="module", params=[file.stem for file in JOBS])
def printed(request, plates, pages, run):
    """The plate, its DXF, and the page as printed: True where there is ink, (rows, columns)."""
    part, file = plates[request.param]
    page = pages / file.stem
    run("pdftoppm", "-gray", "-singlefile", "-r", DPI, f"{page}.pdf", page)
    return part, file, grey(page.with_suffix(".pgm")) < 250


def grey(file):
    """Read a binary PGM."""
    kind, width, height, _, pixels = file.read_bytes().split(maxsplit=4)
    assert kind == b"P5"
    return np.frombuffer(pixels, np.uint8, int(width) * int(height)).reshape(int(height), int(width))


def mm(pixels):
    """Between the middles of the first and the last pixel."""
    return (pixels - 1) * 25.4 / DPI


def longest_run(row):
    edges = np.flatnonzero(np.diff(np.concatenate([[False], row, [False]])))
    return int(np.max(edges[1::2] - edges[::2], initial=0))


def test_a_plate_and_its_scale_line_are_printed_at_full_length(printed):
    part, _, ink = printed
    runs = [mm(longest_run(row)) for row in ink if longest_run(row) > 1]
    foot, scale = [length for length in runs if length > LONG]
    x0, _, x1, _ = part.outline.bounds
    assert foot == pytest.approx(x1 - x0, abs=STEP)
    assert scale == pytest.approx(50, abs=STEP)


def test_the_print_is_as_wide_and_high_as_the_drawing(printed):
    _, file, ink = printed
    drawn = bbox.extents(ezdxf.readfile(file).modelspace()).size
    found = [mm(np.ptp(np.flatnonzero(ink.any(axis=axis))) + 1) for axis in (0, 1)]
    assert found == pytest.approx([drawn.x, drawn.y], abs=STEP)
