"""What a changed job does to the rack: which old jigs are now wrong, why, and by how much."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

import numpy as np

from geometry.contour import Contour
from geometry.crossings import distances
from jigs.part import Bevel, Dimension, EdgeAngle, Extent, Part
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


def _bevel(bevel: Bevel | None) -> tuple[Contour, ...]:
    return () if bevel is None else (bevel.top,)


def difference(part: Part, old: Mapping[str, Any], old_file: ReadBack | None) -> Difference:
    """Hold an old jig, as its manifest entry and its file have it, against the new part."""
    before = {entry["name"]: entry for entry in old["dimensions"]}
    reasons: list[str] = []
    within: list[str] = []
    for dimension in part.dimensions:
        if isinstance(dimension.probe, Extent) or dimension.name not in before:
            continue
        off = dimension.value - before[dimension.name]["value"]
        if abs(off) > 1e-6:
            (reasons if abs(off) > _tolerance(dimension) else within).append(_told(dimension, off))
    shift = _outline_shift(part, old_file)
    if not reasons and shift > SAME:
        (reasons if shift > OUTLINE_TOLERANCE else within).append(
            f"its outline differs by up to {shift:.2f} mm"
        )
    return Difference(part.name, tuple(reasons), tuple(within))


def _tolerance(dimension: Dimension) -> float:
    return ANGLE_TOLERANCE if isinstance(dimension.probe, EdgeAngle) else LENGTH_TOLERANCE


def _told(dimension: Dimension, off: float) -> str:
    unit = "°" if dimension.unit == "deg" else " mm"
    return f"{dimension.name} {dimension.value - off:.3f} -> {dimension.value:.3f}{unit} ({off:+.3f})"


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
