"""A workshop with offcuts, and plates to lay out."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from shapely import STRtree
from shapely.geometry import Polygon

from geometry.contour import rectangle
from geometry.sample import sample
from jigs.job_wood import Board
from jigs.jobfile import load
from jigs.rack import rack
from jigs.solve import solve
from jigs.writers.drawing import widened
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
    plan = solve(load(CONFIGS / f"{name}.toml"))
    return tuple(rack(plan)[0]), plan.job.workshop


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
    shapes = [shape(item, widened(item.part.outline.ccw(), grown)) for item in sheet.placed]
    edge = Polygon([(0, 0), (sheet.size[0], 0), sheet.size, (0, sheet.size[1])])
    if not all(edge.buffer(ROUNDING).contains(one) for one in shapes):
        return -1.0
    pairs = STRtree(shapes).query(shapes, predicate="dwithin", distance=FAR).T
    apart = [shapes[a].distance(shapes[b]) for a, b in pairs if a < b]
    return min([*apart, *(one.distance(edge.exterior) for one in shapes)])
