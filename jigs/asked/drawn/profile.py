"""The outside or the inside of a vessel, read from a drawing and stood on its foot."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path

import numpy as np

from geometry.curves.biarcs import TOLERANCE as TOLERANCE
from geometry.curves.biarcs import biarcs
from geometry.plane.edges import SAME_POINT, FloatArray
from geometry.plane.profile import Profile
from geometry.records import Record
from jigs.asked.drawn.bezier import Bezier
from jigs.asked.drawn.chain import backwards, joined, without_empty_edges
from jigs.asked.drawn.dxf import read_dxf
from jigs.asked.drawn.strokes import MEETS, Sheet, Stroke, unreadable
from jigs.asked.key import Wrong
from jigs.asked.toml_source import check_ordinary
from jigs.words.lengths import Unit, fine_length, show_length


class Drawn(Record, eq=False):
    """A profile read from a drawing.

    `rows` (n, 3): radius and height in mm and the bulge of the edge to the next row, from the foot up, the
    lowest point at height 0. `said`: what was read, in plain sentences. `within`: how far, mm, the arcs
    leave the drawn curves; 0 where every edge is exact.
    """

    rows: FloatArray
    said: tuple[str, ...]
    within: float


def read_drawing(
    path: Path, layer: str | None, unit: Unit | None, axis: float | None, inside: bool = False
) -> Drawn:
    """Read the one open line on a layer of a DXF, or in a group of an SVG, as a profile.

    `layer` may be None where only one holds lines; `unit` where the drawing says it itself. `axis` is the
    drawing's x, in its own unit, at which the turning axis stands; None is 0, but only for a line that reaches it.
    A level line from the axis to an outside's foot is left out; an `inside` has its floor there. Raises Wrong, which
    says what would do.
    """
    sheet = _sheet(path, unit)
    strokes = _chosen(sheet, layer)
    lines = [_rows(stroke) for stroke in strokes]
    drawn_in: Unit = "in" if sheet.inches else "mm"
    rows, gap = joined([rows for rows, _ in lines], drawn_in)
    at = (axis or 0.0) * sheet.unit
    standing, moves = _stood(without_empty_edges(rows), at, drawn_in)
    if axis is None:
        _ask_for_axis(standing, drawn_in)
    if not inside and _starts_under_the_foot(standing):
        standing = standing[1:]
        moves.append("Left out: the line under the foot, from the axis.")
    worst = max(leave for _, leave in lines)
    first = _first_said(standing, at, drawn_in)
    said = (first, *_read_said(path, sheet, strokes), *_fit_said(strokes, worst, gap, drawn_in), *moves)
    return Drawn(standing, said, worst)


def _sheet(path: Path, unit: Unit | None) -> Sheet:
    kind = path.suffix.lower()
    if kind not in (".dxf", ".svg"):
        message = f"{path.name} is not a drawing that can be read"
        raise Wrong("not-a-drawing", message, "Give a .dxf or .svg file")
    try:
        check_ordinary(path)
        with np.errstate(all="ignore"):  # numbers out of all bounds are told by what comes of them
            return _read(path, unit, path.read_bytes())
    except Wrong:
        raise
    except Exception as error:  # a broken file makes the libraries raise anything
        raise unreadable(path, error) from error


@lru_cache(maxsize=2)  # a page reads the job at each step of the hand
def _read(path: Path, unit: Unit | None, content: bytes) -> Sheet:
    """A drawing whose bytes are these: with others it is read anew."""
    if path.suffix.lower() == ".dxf":
        return read_dxf(path, unit)
    from jigs.asked.drawn.svg import read_svg  # loads the XML reader

    return read_svg(path, unit)


def _chosen(sheet: Sheet, layer: str | None) -> list[Stroke]:
    """The strokes on the named layer, or on the only one that has any."""
    layers = sorted({stroke.layer for stroke in sheet.strokes})
    if layer is None and len(layers) > 1:
        message = f"lines stand on {len(layers)} layers: {_listed(layers)}"
        raise Wrong("several-layers", message, "Name the profile's layer in the job")
    strokes = [stroke for stroke in sheet.strokes if layer is None or _called(stroke, layer)]
    if not strokes:
        raise _nothing(sheet, layer, layers)
    for stroke in strokes:
        if stroke.fault is not None:
            raise stroke.fault
    return strokes


def _called(stroke: Stroke, layer: str) -> bool:
    return layer.casefold() in (name.casefold() for name in stroke.names)


def _nothing(sheet: Sheet, layer: str | None, layers: Sequence[str]) -> Wrong:
    where = "in the drawing" if layer is None else f'on a layer "{layer}"'
    kinds = [kind for name, kind in sheet.others if layer is None or name.casefold() == layer.casefold()]
    found = _counted(kinds) if kinds else "nothing"
    message = f"there is no line {where}, only {found}" if kinds else f"there is {found} {where}"
    if layers:
        message += f"; lines stand on {_listed(layers)}"
        return Wrong("no-profile", message, "Name the layer of the profile")
    remedy = "Draw the profile as one open line: a polyline, a spline, or lines and arcs that meet; break up blocks"
    return Wrong("no-profile", message, remedy)


def _rows(stroke: Stroke) -> tuple[FloatArray, float]:
    """A stroke as one chain, its curves as arcs, and how far those leave them."""
    chains = [biarcs(part, TOLERANCE) if isinstance(part, Bezier) else part for part in stroke.parts]
    within = TOLERANCE if any(isinstance(part, Bezier) for part in stroke.parts) else 0.0
    return np.vstack((*(rows[:-1] for rows in chains), chains[-1][-1])), within


def _ask_for_axis(rows: FloatArray, unit: Unit) -> None:
    """Raise Wrong for a line that does not reach x = 0: as drawn it may be a vessel of any size."""
    line = Profile(rows)
    if line.radii(line.bottom, line.top)[0] <= MEETS:
        return
    foot, most = (show_length(mm, unit) for mm in _sizes(line))
    message = (
        "the line does not reach x = 0, so the drawing does not say where the axis stands; with the axis at x = 0 the "
        f"foot is {foot} across and the greatest diameter {most}"
    )
    raise Wrong("axis-unknown", message, "Give axis = 0 if that is right, or the x at which the axis stands")


def _starts_under_the_foot(rows: FloatArray) -> bool:
    """Whether its first edge is level, from the axis."""
    (x, y, bulge), (_, y1, _) = rows[:2]
    return len(rows) > 2 and x <= MEETS and abs(y1 - y) <= MEETS and bulge == 0.0


def _first_said(rows: FloatArray, axis: float, unit: Unit) -> str:
    foot, most = (show_length(mm, unit) for mm in _sizes(Profile(rows)))
    at = show_length(axis, unit)
    return f"Axis at x = {at} of the drawing: foot {foot} across, greatest diameter {most}."


def _sizes(line: Profile) -> tuple[float, float]:
    """Diameters of the foot, and of the widest place."""
    return 2 * line.start[0], 2 * line.radii(line.bottom, line.top)[1]


def _stood(rows: FloatArray, axis: float, unit: Unit) -> tuple[FloatArray, list[str]]:
    """Right of the axis, from the foot up, the foot at height 0; and what that took. Raises Wrong."""
    rows = rows - (axis, 0.0, 0.0)
    said: list[str] = []
    if _is_left(rows, unit):
        rows = rows * (-1.0, 1.0, -1.0)
        said.append("Mirrored: it was drawn left of the axis.")
    rows[:, 0] = np.maximum(rows[:, 0], 0.0)
    if rows[-1, 1] < rows[0, 1]:
        rows = backwards(rows)
        said.append("Reversed: it was drawn from the rim down.")
    fold = Profile(rows).fold()
    if fold is not None:
        raise _runs_down(fold - rows[0, 1], unit)
    _check_doubled(rows, unit)
    foot = float(rows[0, 1])
    if abs(foot) > MEETS:
        way = "down" if foot > 0.0 else "up"
        said.append(f"Moved {way} by {show_length(abs(foot), unit)}, so that its foot stands at height 0.")
    return rows - (0.0, foot, 0.0), said


def _is_left(rows: FloatArray, unit: Unit) -> bool:
    """Whether the profile stands left of the axis. Raises Wrong where it stands on both sides."""
    if len(rows) < 2:
        raise Wrong("no-profile", "the line has no length", "Draw the profile from foot to rim")
    line = Profile(rows)
    least, most = line.radii(line.bottom, line.top)
    if least >= -MEETS:
        return False
    if most <= MEETS:
        return True
    reach = f"from {show_length(least, unit)} to {show_length(most, unit)}"
    remedy = "Draw one side only, or give the x at which the axis stands in the drawing"
    raise Wrong("crosses-axis", f"the line stands on both sides of the axis, {reach}", remedy)


def _runs_down(height: float, unit: Unit) -> Wrong:
    message = f"the profile runs downward at {show_length(height, unit)} above its end at the foot"
    remedy = "Draw it so that it only rises from foot to rim; a hollow in the foot is given apart"
    return Wrong("runs-downward", message, remedy)


def _check_doubled(rows: FloatArray, unit: Unit) -> None:
    """Raises Wrong where a level line runs back over the last one: no wood is left in such a fin."""
    x, y = np.diff(rows[:, :2], axis=0).T
    level = (abs(y) <= SAME_POINT) & (rows[:-1, 2] == 0.0)
    for k in np.flatnonzero(level[:-1] & level[1:] & (x[:-1] * x[1:] < 0.0)):
        height = show_length(rows[k + 1, 1] - rows[0, 1], unit)
        message = f"a level line runs back over another at {height} above the profile's end at the foot"
        raise Wrong("runs-back", message, "Leave one level line there, drawn once")


def _read_said(path: Path, sheet: Sheet, strokes: Sequence[Stroke]) -> list[str]:
    layer = strokes[0].layer
    said = [f'Read from {path.name}, layer "{layer}": {_counted([stroke.kind for stroke in strokes])}.']
    said.append(f"Its unit: {sheet.unit_said}.")
    others = [kind for name, kind in sheet.others if name == layer]
    return [*said, f"Left out on that layer: {_counted(others)}."] if others else said


def _fit_said(strokes: Sequence[Stroke], worst: float, gap: float, unit: Unit) -> Iterator[str]:
    if any(isinstance(part, Bezier) for stroke in strokes for part in stroke.parts):
        yield f"Its curves became arcs, at most {fine_length(worst, unit)} from what is drawn."
    if gap >= 0.001:
        yield f"Ends up to {fine_length(gap, unit)} apart were joined half-way."


def _counted(kinds: Sequence[str]) -> str:
    return ", ".join(f"{count} {kind}" for kind, count in sorted(Counter(kinds).items()))


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)
