"""Whole sheets, as the cutter gets them: every piece on them is a part of the set as it was drawn, none is short."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import numpy as np
import shapely

from geometry.grouping import gathered
from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray
from geometry.records import Record
from jigs.asked.job import Job
from jigs.dryfit.files import Files, Standing
from jigs.dryfit.model import Check, Drawn, counted, polygon_of
from jigs.dryfit.readers import Entities, read_sheet
from jigs.dryfit.thickness import off_sheet, thickness_checks

SAME = 0.02  # mm, of a piece off its part
BENT = 1e-3  # of a bulge
NEAR = 0.1  # mm less than the spacing: chords for arcs
LETTERED = 0.5  # of a part's engraving, at least: each copy of a stack's plate is lettered otherwise
WIDE = 1 << 32  # cells of a grid in a row
COARSE = 0.05  # mm, chords of the outlines that are held apart


class Piece(Record, eq=False):
    """One outline on a sheet with all that lies inside it; rows are x, y, bulge."""

    outline: FloatArray
    shape: shapely.Polygon
    holes: FloatArray
    drills: FloatArray  # x, y, diameter
    engraved: FloatArray


def sheet_checks(job: Job, files: Files) -> list[Check]:
    """Of every part how often it lies on the sheets; of every sheet what lies on it."""
    parts = {name: files.as_written(file) for name, file in files.cut_parts.items()}
    by_counts = gathered(((len(p.outline.vertices), len(p.drills)), name) for name, p in parts.items())
    found, counts = list[Check](), Counter[str]()
    for file in sorted(files.folder.glob("sheets/*.dxf")):
        pieces = _pieces(Standing.of(file))
        near = [by_counts.get((len(piece.outline), len(piece.drills)), []) for piece in pieces]
        alike = [[n for n in names if _is(p, parts[n])] for p, names in zip(pieces, near, strict=True)]
        for piece, names in sorted(zip(pieces, alike, strict=True), key=lambda one: len(one[1])):
            counts.update(_one_of(names, piece, parts, counts, files.quantities))
        found += [*_on_one_sheet(job, file, pieces, alike.count([])), off_sheet(file, alike, files)]
    found += thickness_checks(job, files)
    return [*found, *(_copies(job, files, name, part, counts[name]) for name, part in parts.items())]


@lru_cache(maxsize=64)
def _pieces(standing: Standing) -> list[Piece]:
    return pieces_of(read_sheet(standing.file))


def _one_of(
    names: list[str], piece: Piece, parts: dict[str, Drawn], counts: Counter[str], wanted: dict[str, int]
) -> list[str]:
    """Of parts that are alike the one that is lettered most like the piece, and that is still short."""
    likeness = sorted(names, key=lambda name: abs(len(parts[name].engraved) - len(piece.engraved)))
    return [name for name in likeness if counts[name] < wanted[name]][:1] or likeness[:1]


def pieces_of(entities: Entities) -> list[Piece]:
    """Outlines with what lies in each. An outline is a contour that lies in no other."""
    shapes = [polygon_of(Contour(rows)) for rows in entities.closed]
    order = sorted(range(len(shapes)), key=lambda i: -shapes[i].area)
    tree = shapely.STRtree(shapes)
    larger = {i: k for k, i in enumerate(order)}

    def is_outline(i: int) -> bool:
        place = shapely.Point(*entities.closed[i][0, :2])
        return not any(larger[int(j)] < larger[i] and j != i for j in tree.query(place, "intersects"))

    outer = [i for i in order if is_outline(i)]
    tree = shapely.STRtree([shapes[i] for i in outer])
    inner = [entities.closed[i] for i in order if i not in set(outer)]
    holes = _owned(tree, inner, len(outer))
    drills = _owned(tree, [row[None] for row in entities.drills], len(outer))
    engraved = _owned(tree, entities.engraved, len(outer))
    return [
        Piece(entities.closed[i], shapes[i], holes[k], drills[k], engraved[k]) for k, i in enumerate(outer)
    ]


def _owned(tree: shapely.STRtree, rows: list[FloatArray], count: int) -> list[FloatArray]:
    """For each outline the rows that begin in it, in their order."""
    found: list[list[FloatArray]] = [[] for _ in range(count)]
    if rows:
        mine, owner = tree.query(shapely.points([row[0, :2] for row in rows]), "intersects")
        for i, k in zip(mine.tolist(), owner.tolist(), strict=True):
            found[k].append(rows[i])
    return [np.concatenate(own) if own else np.zeros((0, 3)) for own in found]


def _is(piece: Piece, part: Drawn) -> bool:
    """Whether the piece is the part of as many corners and drills, turned by quarter turns and moved."""
    own = part.outline.vertices
    if np.abs(_extent(own) - _extent(piece.outline)).max() > 2 * SAME:
        return False
    if len(piece.engraved) < LETTERED * len(part.engraved):
        return False
    holes = np.concatenate([hole.vertices for hole in part.holes]) if part.holes else np.zeros((0, 3))
    drills = np.array([(*d.centre, d.diameter) for d in part.drills]).reshape(-1, 3)
    pairs = ((own, piece.outline), (holes, piece.holes), (drills, piece.drills))
    lines = np.concatenate([*part.lines.values(), np.zeros((0, 2))])
    return any(
        all(_alike(a @ turn + moved, b) for a, b in pairs)
        and _all_held(lines @ turn[:2, :2] + moved[:2], piece.engraved)
        for turn, moved in _ways(own, piece.outline)
    )


def _extent(rows: FloatArray) -> FloatArray:
    """The lesser and the larger of width and height, whichever way it is turned."""
    return np.sort(np.ptp(rows[:, :2], axis=0))


def _ways(own: FloatArray, other: FloatArray) -> Iterator[tuple[FloatArray, FloatArray]]:
    """Each quarter turn of rows (k, 3), and how they are then moved to have the other's middle."""
    for c, s in ((1, 0), (0, 1), (-1, 0), (0, -1)):
        turn = np.array(((c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)))
        yield turn, (other.mean(axis=0) - (own @ turn).mean(axis=0)) * (1, 1, 0)


def _alike(a: FloatArray, b: FloatArray) -> bool:
    """The same rows in any order."""
    if len(a) != len(b):
        return False
    if not len(a) or _close(a - b).all():
        return True
    return len(a) < 500 and bool(_close(a[:, None] - b[None]).any(axis=1).all())


def _close(off: FloatArray) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    return np.asarray((np.abs(off[..., :2]).max(axis=-1) < SAME) & (np.abs(off[..., 2]) < BENT))


def _all_held(a: FloatArray, b: FloatArray) -> bool:
    """Whether every place (m, 2) is among the rows of b: within a cell of the grid, or beside it."""
    cells, others = np.round(a / SAME).astype(np.int64), np.round(b[:, :2] / SAME).astype(np.int64)
    taken, ours = others[:, 0] * WIDE + others[:, 1], cells[:, :1] * WIDE + cells[:, 1:]
    beside = [i * WIDE + j for i in (-1, 0, 1) for j in (-1, 0, 1)]
    return bool(np.isin(ours + beside, taken).any(axis=1).all())


def _on_one_sheet(job: Job, file: Path, pieces: list[Piece], strange: int) -> list[Check]:
    """Nothing strange, nothing over the bed's edge, nothing too near to its neighbour."""
    where, bed, spacing = f"sheets/{file.name}", job.workshop.cutter.bed, job.workshop.cutter.spacing
    bounds = np.array([piece.shape.bounds for piece in pieces]).reshape(-1, 4)
    low, high = bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0)
    over = min(max(high[0] - bed[0], high[1] - bed[1]), max(high[0] - bed[1], high[1] - bed[0]))
    shapes = [shapely.simplify(piece.shape, COARSE) for piece in pieces]
    near = shapely.STRtree(shapes).query(shapes, "dwithin", max(0.0, spacing - NEAR))
    return [
        counted(where, "pieces that are no part of the set", strange, 0),
        Check(where, "over the bed by", float(max(over, -low.min())), most=SAME),
        Check(where, "pairs nearer than the cutter's spacing", (near[0] < near[1]).sum(), 0, 0, "pairs"),
    ]


def _copies(job: Job, files: Files, name: str, part: Drawn, count: int) -> Check:
    """As many as are needed; none of a coupon, cut before, nor of solid wood or what is larger than the bed."""
    x0, y0, x1, y1 = part.outline.bounds
    sides, bed = sorted((x1 - x0, y1 - y0)), sorted(job.workshop.cutter.bed)
    spare = min(b - a for a, b in zip(sides, bed, strict=True)) - 2 * job.workshop.cutter.spacing
    wanted = 0 if name in files.solid_wood or name.endswith("coupon") else files.quantities[name]
    least = 0 if abs(spare) < NEAR and not count else wanted if spare > 0 else 0
    return Check(
        name, "copies on the sheets", count, least, max(least, wanted if spare > -NEAR else 0), "pieces"
    )
