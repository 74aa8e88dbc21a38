"""What a changed job does to the rack: which old jigs are now wrong, why, and by how much."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

import numpy as np

from geometry.contour import Contour
from geometry.crossings import distances
from geometry.edge_form import edge_form
from geometry.profile import profile
from jigs.job import Unit
from jigs.lengths import show_length
from jigs.part import Bevel, Dimension, EdgeAngle, Extent, Line, Part, ProfileForm
from jigs.writers.readback import ReadBack

LENGTH_TOLERANCE = 0.05  # mm: what a jig may be out before the work shows it
ANGLE_TOLERANCE = 0.02  # degrees
SAME = 1e-3  # mm
OUTLINE_TOLERANCE = 0.2  # mm: slots, tabs, holes and edges of a cut part


@dataclass(frozen=True)
class Difference:
    """One old jig against the new one of the same name."""

    part: str
    reasons: tuple[str, ...]  # beyond tolerance; none when the old jig still serves
    within: tuple[str, ...]  # changed by less than the tolerance

    @property
    def wrong(self) -> bool:
        return bool(self.reasons)


def part_print(part: Part, kerf: float) -> str:
    """Digest of all that a part's file shows."""
    digest = sha256()
    words = (part.name, part.process, part.thickness, part.mark_width, part.mark_height, kerf)
    digest.update(repr(words).encode())
    for contour in (part.outline, *part.holes, *_bevel(part.bevel)):
        digest.update(contour.vertices.tobytes() + b"|")
    digest.update(repr((part.bevel and part.bevel.land, part.marks, part.dimensions)).encode())
    return digest.hexdigest()


def witness_print(part: Part) -> str:
    """Digest of where the lines are that the work is set to; nothing for a part without any."""
    x, y, _, _ = part.outline.bounds
    lines = [
        (mark.name, [(round(px - x, 2), round(py - y, 2)) for px, py in mark.points])
        for mark in part.marks
        if isinstance(mark, Line) and mark.witness
    ]
    return sha256(repr(lines).encode()).hexdigest() if lines else ""


def _bevel(bevel: Bevel | None) -> tuple[Contour, ...]:
    return () if bevel is None else (bevel.top,)


def difference(part: Part, old: Mapping[str, Any], old_file: ReadBack | None, unit: Unit) -> Difference:
    """Hold an old jig, as its manifest entry and its file have it, against the new part; told in the job's unit."""
    before = {entry["name"]: entry["value"] for entry in old["dimensions"]}
    reasons: list[str] = []
    within: list[str] = []
    for dimension in part.dimensions:
        if isinstance(dimension.probe, Extent) or dimension.name not in before:
            continue
        off, told = _off(part, dimension, before[dimension.name], old_file, unit)
        if told:
            (reasons if abs(off) > _tolerance(dimension) else within).append(told)
    if witness_print(part) != old.get("witness_sha256", ""):
        reasons.append("its witness lines lie elsewhere")
    shift = _outline_shift(part, old_file)
    if not reasons and shift > SAME:
        (reasons if shift > OUTLINE_TOLERANCE else within).append(
            f"its outline differs by up to {show_length(shift, unit, exact=True)}"
        )
    return Difference(part.name, tuple(reasons), tuple(within))


def _tolerance(dimension: Dimension) -> float:
    return ANGLE_TOLERANCE if isinstance(dimension.probe, EdgeAngle) else LENGTH_TOLERANCE


def _off(
    part: Part, dimension: Dimension, before: float, old_file: ReadBack | None, unit: Unit
) -> tuple[float, str]:
    """How far an old jig is out in one dimension, and that in words; no words where it has not changed."""
    if isinstance(dimension.probe, ProfileForm):
        out = _edge_shift(part, dimension.probe, old_file)
        return out, f"{dimension.name} {show_length(out, unit, exact=True)}" if out else ""
    off = dimension.value - before
    was, now, more = (_shown(size, dimension.unit, unit) for size in (before, dimension.value, off))
    told = f"{dimension.name}: {was} -> {now} ({'+' if off > 0 else ''}{more})"
    return off, told if abs(off) > 1e-6 else ""


def _shown(size: float, of: str, unit: Unit) -> str:
    """An angle, or a length in decimals, of which one sees at once which is the larger."""
    return f"{size:.3f}°" if of == "deg" else show_length(size, unit, exact=True)


def _edge_shift(part: Part, form: ProfileForm, old_file: ReadBack | None) -> float:
    """How far an old jig's edge lies from a whole working edge, mm; 0 within what its file keeps to.

    Radii count as they are lettered; heights may be counted from another place than before, which does not
    change the edge.
    """
    if old_file is None:
        return 0.0
    wanted, outline = profile(*form.rows), old_file.contours[0]
    lower = part.outline.bounds[1] - outline.bounds[1]
    out = min(edge_form((outline.moved(0.0, by),), wanted) for by in (0.0, lower))
    return out if out > old_file.tolerance else 0.0


def _outline_shift(part: Part, old_file: ReadBack | None) -> float:
    """How far a cut or turned part's outline and holes differ, wherever the part lies in its drawing, mm.

    A printed gauge's panel may grow freely: its working edge is among its dimensions.
    """
    if part.process == "print" or old_file is None:
        return 0.0
    new, old = _cornered((part.outline, *part.holes)), _cornered(old_file.contours)
    return max(_farthest(new, old), _farthest(old, new))


def _cornered(contours: tuple[Contour, ...]) -> tuple[Contour, ...]:
    """Moved so that the lower left corner of the first one's bounds is the origin."""
    x, y, _, _ = contours[0].bounds
    return tuple(contour.moved(-x, -y) for contour in contours)


def _farthest(of: tuple[Contour, ...], to: tuple[Contour, ...]) -> float:
    points = np.array([p for c in of for edge in c.edges() for p in (edge.start, edge.midpoint)])
    return float(distances([edge for c in to for edge in c.edges()], points).max())
