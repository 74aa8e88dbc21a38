"""The jigs of a patterned layup: what the drawn sleds cut, and whether tray and holders are for these pieces."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, radians, sin

import numpy as np

from geometry.plane.edges import FloatArray
from jigs.asked.job import Job
from jigs.asked.job_wood import LayupWish
from jigs.dryfit.bench import SLACK, tab_checks, tabs
from jigs.dryfit.files import Files
from jigs.dryfit.layup_sleds import SIDE, Sides, blade_at, fence_frame, sled_checks, trim_checks
from jigs.dryfit.model import Check, Drawn

DRAWN = ("layup-base", "layup-trim-base", "layup-tray")  # whose lines are gone by


def layup_checks(job: Job, files: Files, wanted: Sequence[Sides]) -> list[Check]:
    """Every layup's jigs; each size that is wanted has some, and each of them is for one that is wanted."""
    wish = job.layup
    if wish is None:
        return []
    made = [(end, _stops(files, end)) for end in endings(files)]
    return [
        *_all_there(made, wanted),
        *(check for end, sizes in made for check in _checks(job, wish, files, end, _nearest(sizes, wanted))),
    ]


def endings(files: Files) -> list[str]:
    """What the names of each layup's parts end with."""
    found = (re.fullmatch(r"layup-base(-\d+)?", name) for name in files.names())
    return [match[1] or "" for match in found if match]


def _stops(files: Files, end: str) -> tuple[float, float]:
    """a and b by the square stops: from the blade to their edge."""
    blade = blade_at(files.drawn(f"layup-trim-base{end}"), "blade, piece's side")
    a, b = (files.drawn(f"layup-square-stop-{side}{end}").outline.bounds[2] for side in "ab")
    return blade - a, blade - b


def _nearest(sizes: tuple[float, float], wanted: Sequence[Sides]) -> Sides:
    return min(wanted, key=lambda one: _apart(sizes, one))


def _apart(sizes: tuple[float, float], one: Sides) -> float:
    return max(abs(sizes[0] - one.a), abs(sizes[1] - one.b))


def _all_there(made: list[tuple[str, tuple[float, float]]], wanted: Sequence[Sides]) -> Iterator[Check]:
    for end, sizes in made:
        yield Check(
            f"layup-trim-base{end}", "stops off the pieces", _apart(sizes, _nearest(sizes, wanted)), 0.0, SIDE
        )
    for one in wanted:
        off = min((_apart(sizes, one) for _, sizes in made), default=float("nan"))
        yield Check("layup", f"jigs for pieces of {one.a:.2f} x {one.b:.2f}, off by", off, 0.0, SIDE)


def _checks(job: Job, wish: LayupWish, files: Files, end: str, piece: Sides) -> list[Check]:
    angle = fence_frame(files.drawn(f"layup-base{end}"), "blade, slab's side", job).angle
    return [
        *sled_checks(job, wish, files, end, piece),
        *trim_checks(job, files, end, angle, piece),
        *tray_checks(job, wish, files, end, piece),
        *holder_checks(files, end, piece),
    ]


LEFT = 0.005  # mm of sanding, for which there is a holder


def tray_checks(job: Job, wish: LayupWish, files: Files, end: str, piece: Sides) -> list[Check]:
    """Outline, seams and strips' joints, from the faces of the two fences."""
    tray, sheet = files.drawn(f"layup-tray{end}"), job.workshop.boards.sheet
    own = [hole for hole in tray.holes if len(hole) == 4]
    low = [hole.bounds for hole in own if hole.bounds[2] - hole.bounds[0] > hole.bounds[3] - hole.bounds[1]]
    left = [hole.bounds for hole in own if hole.bounds[2] - hole.bounds[0] < hole.bounds[3] - hole.bounds[1]]
    corner = np.array([left[0][0] + sheet, low[0][1] + sheet])
    outline = tray.lines["outline as glued"] - corner
    wide, tall = piece.done[0] * piece.columns, piece.done[1] * piece.rows
    return [
        tray.near("outline across", float(outline[:, 0].max()), wide, SIDE),
        tray.near("outline up", float(outline[:, 1].max()), tall, SIDE),
        *tray.all_near("lower fence in one line", [box[1] for box in low], low[0][1], SLACK),
        *tray.all_near("left fence in one line", [box[0] for box in left], left[0][0], SLACK),
        *_seam_checks(tray, corner, piece),
        *_ply_checks(tray, corner, wish, piece),
        *_tray_fence_checks(job, files, end, tray, corner),
    ]


def _lines(tray: Drawn, name: str, corner: FloatArray) -> FloatArray:
    """(k, 2, 2) ends of every line of a name."""
    return (tray.lines.get(name, np.zeros((0, 2))) - corner).reshape(-1, 2, 2)


def _seam_checks(tray: Drawn, corner: FloatArray, piece: Sides) -> Iterator[Check]:
    found = _lines(tray, "seam", corner)
    upright = [line for line in found if abs(line[0, 0] - line[1, 0]) < SLACK]
    level = [line for line in found if abs(line[0, 1] - line[1, 1]) < SLACK]
    for axis, lines, count in ((0, upright, piece.columns), (1, level, piece.rows)):
        yield tray.counted(f"seams across {'ab'[axis]}", len(lines), count - 1)
        for line in lines:
            yield tray.near("seam from the fence", float(line[0, axis]), piece.done[axis], SIDE)


def _ply_checks(tray: Drawn, corner: FloatArray, wish: LayupWish, piece: Sides) -> Iterator[Check]:
    """Every line of a strip's joint is whole sheets from the corner of its piece, square to the plies."""
    sheet, beta = sum(ply.thickness for ply in wish.plies), radians(wish.angle)
    ends = _lines(tray, "strips meet", corner)
    p = _from_seam(ends[..., 0], piece.columns, piece.a, piece.done[0])
    q = _from_seam(ends[..., 1], piece.rows, piece.b, piece.done[1])
    if wish.turned:
        p = piece.a - p
    sheets = (p * sin(beta) + q * cos(beta)) / sheet
    off = np.abs(sheets - np.round(sheets)) * sheet
    yield tray.check("joints of strips off by", float(off.max(initial=0.0)), 0.0, SIDE)
    for line in np.round(sheets):
        if line[0] != line[1]:
            yield tray.check("a joint of strips leaves its ply", float(line[1] - line[0]), 0.0, 0.0)


def _from_seam(x: FloatArray, count: int, side: float, done: float) -> FloatArray:
    """Along a piece as cut, from its corner at the seam, or where it is not mirrored from its end."""
    return np.abs(x - done) + (side - done) if count == 2 else x + (side - done) / 2


def _tray_fence_checks(job: Job, files: Files, end: str, tray: Drawn, corner: FloatArray) -> Iterator[Check]:
    for side, axis in (("a", 0), ("b", 1)):
        fence = files.drawn(f"layup-tray-fence-{side}{end}")
        boxes = [hole.bounds for hole in tray.holes if len(hole) == 4]
        own = [b for b in boxes if b[2 + axis] - b[axis] > b[3 - axis] - b[1 - axis]]
        spans = sorted((b[axis] - corner[axis], b[2 + axis] - corner[axis]) for b in own)
        yield from tab_checks(fence.name, "tab in its slot", tabs(fence), spans, job)
        seams = fence.lines.get("seam", np.zeros((0, 2)))
        marked = [line for line in _lines(tray, "seam", corner) if abs(line[0, axis] - line[1, axis]) < SLACK]
        for line in marked:
            yield fence.near(
                "seam's tick at the seam", float(seams[:, 0].mean()), float(line[0, axis]), SLACK
            )


def holder_checks(files: Files, end: str, piece: Sides) -> Iterator[Check]:
    """Pockets as deep as the finished side; notches as cut and finished."""
    counts = (piece.columns, piece.rows)
    for side, count, cut, done in zip("ab", counts, (piece.a, piece.b), piece.done, strict=True):
        if count == 2 and cut - done > LEFT:
            pocket, gauge = (
                files.drawn(f"layup-{name}-{side}{end}") for name in ("sanding-pocket", "left-gauge")
            )
            floor = min(
                (e for e in pocket.straight() if abs(e.midpoint[0]) < 0.5), key=lambda e: abs(e.midpoint[1])
            )
            yield pocket.near("pocket's depth", pocket.outline.bounds[3] - floor.midpoint[1], done, SIDE)
            widths = _notches(gauge)
            yield gauge.near("first notch, as cut", widths[0], cut, SIDE)
            yield gauge.near("last notch, finished", widths[-1], done, SIDE)
            yield gauge.near("middle notch, half left", widths[1], (cut + done) / 2, SIDE)


def _notches(gauge: Drawn) -> list[float]:
    """Widths from the left; every other gap between upright edges from below is one."""
    low = gauge.outline.bounds[1]
    upright = sorted(e.midpoint[0] for e in gauge.straight() if e.apart[0] < 1e-6 and e.ends[1] < low + 1e-6)
    return [b - a for a, b in pairwise(upright)][1::2]
