"""A workshop with offcuts, and plates to lay out."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from shapely import STRtree
from shapely.geometry import Polygon

from geometry.plane.contour import rectangle
from geometry.plane.sample import sample
from jigs.asked.job_wood import Board
from jigs.asked.jobfile import load
from jigs.files.drawing import widened
from tests.examples import parts_of_example, plan_of_example
from tests.jigs.plates import part

CONFIGS = Path(__file__).parents[3] / "configs"
DEVIATION = 1e-3  # mm, of the chords that stand for arcs
FAR = 30.0
ROUNDING = 1e-6


@cache
def shop(bed=(900.0, 600.0), spacing=5.0, kerf=0.0, offcuts=()):
    base = load(CONFIGS / "garland.toml").workshop
    cutter = replace(base.cutter, bed=bed, spacing=spacing, kerf=kerf)
    return replace(base, cutter=cutter, stock=replace(base.stock, sheets=tuple(offcuts)))


@cache
def racked(name):
    """An example job's parts and its workshop."""
    return parts_of_example(name), plan_of_example(name).job.workshop


def offcut(width, length, thickness=12.0, count=1):
    return Board("birch ply", thickness, width, length, count)


def plate(name="plate", width=100.0, height=50.0, quantity=1, thickness=12.0, **fields):
    outline = fields.pop("outline", None) or rectangle(0, 0, width, height)
    given = {"name": name, "process": "cut", "material": "sheet, as measured", **fields}
    return part(outline, quantity=quantity, thickness=thickness, **given)


def shape(item, contour=None):
    """A placed outline as shapely has it."""
    return Polygon(sample(item.contour(contour or item.part.outline), DEVIATION))


def gap(sheet, grown=0.0):
    """Least distance between the lines on a sheet and from them to its edges, outlines grown as they are drawn.

    -1 where one leaves the sheet; pairs farther apart than FAR are not measured.
    """
    drawn = [widened(item.part.outline.ccw(), grown) for item in sheet.placed]
    to_edge = min(
        _to_edge(item.contour(line), sheet.size) for item, line in zip(sheet.placed, drawn, strict=True)
    )
    if to_edge < -ROUNDING:
        return -1.0
    shapes = [shape(item, line) for item, line in zip(sheet.placed, drawn, strict=True)]
    pairs = STRtree(shapes).query(shapes, predicate="dwithin", distance=FAR).T
    return min([to_edge, *(shapes[a].distance(shapes[b]) for a, b in pairs if a < b)])


def _to_edge(line, size):
    """From a contour's exact bounds, since chords of its arcs stand a little outside it."""
    x0, y0, x1, y1 = line.bounds
    return min(x0, y0, size[0] - x1, size[1] - y1)
