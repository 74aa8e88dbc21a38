"""What a drawing holds, whatever its format."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from pathlib import Path

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.records import Record
from jigs.asked.drawn.bezier import Bezier
from jigs.asked.key import Wrong

_FARTHEST = 1e5  # mm; no drawing of a vessel reaches so far
MEETS = 0.01  # mm; ends no farther apart were meant to meet

Part = FloatArray | Bezier  # rows of x, y, bulge (n, 3) of an open chain, or a curve; mm, y up


class Stroke(Record, eq=False):
    """One line of a drawing: its parts in order, each starting where the one before ends.

    `names` are the names that it can be asked for by, its layer's first. `fault` says why it cannot be used.
    """

    names: tuple[str, ...]
    kind: str
    parts: tuple[Part, ...]
    fault: Wrong | None = None

    @property
    def layer(self) -> str:
        return self.names[0]


class Sheet(Record, eq=False):
    """A drawing: its strokes, its unit in mm and what says so, and what else it holds, by layer."""

    strokes: tuple[Stroke, ...]
    unit: float
    unit_said: str
    inches: bool  # whether its lengths are shown in inches
    others: tuple[tuple[str, str], ...]  # layer and kind


def closed(kind: str) -> Wrong:
    remedy = "Open it: draw only the outside from foot to rim, each line once"
    return Wrong("closed-profile", f"the {kind} is closed, and a profile has two ends", remedy)


def judged(names: tuple[str, ...], kind: str, parts: Iterable[Part], loops: bool) -> Stroke:
    """The stroke of these parts, with what is wrong with it; `loops` where the drawing says that it is closed."""
    chain = tuple(parts)
    if not all(_is_sound(part) for part in chain):
        message = f"the {kind} reaches farther than {_FARTHEST / 1000.0:g} m, or has no place at all"
        fault = Wrong("wild-drawing", message, "Check the drawing's unit, or draw it anew")
        return Stroke(names, kind, (), fault)
    return Stroke(names, kind, chain, _fault(kind, chain, loops))


def _fault(kind: str, parts: Sequence[Part], loops: bool) -> Wrong | None:
    starts, ends = [_end(part, 0) for part in parts], [_end(part, -1) for part in parts]
    if any(math.dist(a, b) > MEETS for a, b in zip(ends, starts[1:], strict=False)):
        return Wrong("broken-entity", f"the {kind} has a gap in it", "Draw it anew")
    if loops or math.dist(starts[0], ends[-1]) <= MEETS:
        return closed(kind) if _is_wide(parts) else Wrong("no-length", f"a {kind} has no length", "Delete it")
    return None


def _is_sound(part: Part) -> bool:
    numbers = part.polygon if isinstance(part, Bezier) else part
    return bool((np.abs(numbers) <= _FARTHEST).all())


def _is_wide(parts: Sequence[Part]) -> bool:
    return float(np.ptp(np.vstack([_frame(part) for part in parts]), axis=0).max()) > MEETS


def _end(part: Part, which: int) -> FloatArray:
    return np.asarray(_frame(part)[which])


def _frame(part: Part) -> FloatArray:
    """The vertices or control points, (n, 2), of which the first and the last are the part's ends."""
    return part.polygon if isinstance(part, Bezier) else part[:, :2]


def unreadable(path: Path, error: Exception | None = None) -> Wrong:
    """What the system says of the file; what a reader stumbles over in it tells a turner nothing."""
    if isinstance(error, OSError) and error.strerror:
        reason, remedy = error.strerror, "Check its name and folder"
    else:
        reason = f"it is no whole {path.suffix[1:].upper()}"
        remedy = "Save the drawing anew as DXF (R2010) or SVG"
    return Wrong("unreadable-drawing", f"{path.name} cannot be read: {reason}", remedy)


def unit_unknown(why: str) -> Wrong:
    remedy = 'Give drawing_unit = "mm" or drawing_unit = "in" beside drawing in the job'
    return Wrong("no-drawing-unit", f"the drawing does not say its unit: {why}", remedy)


def unit_disagrees(drawing: str, job: str) -> Wrong:
    message = f"the unit is {drawing} by the drawing and {job} by the job"
    return Wrong(
        "unit-disagrees", message, "Leave drawing_unit out of the job, or save the drawing in the other"
    )
