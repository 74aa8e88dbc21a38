"""What a changed job does to the rack: which old jigs are now wrong, why, and by how much."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from hashlib import sha256
from math import cos, dist, hypot, inf, pi, sin
from typing import Any

import numpy as np

from geometry.measuring.drawn_size import DrawnSize
from geometry.plane.nearest import distances
from geometry.plane.profile import profile
from geometry.readback.alike import astray
from geometry.readback.edge_form import edge_form
from geometry.readback.free_edge import FreeEdge
from geometry.records import Record, replace
from jigs.measured.printer import KEEP, working_sizes
from jigs.parts.part import Bore, Dimension, Lettering, Line, Part, Point
from jigs.parts.probes import ArcRadius, EdgeAngle, EdgeGap, EdgeLength, Extent, HoleDiameter, ProfileForm
from jigs.parts.readback import ReadBack
from jigs.words.lengths import MM_PER_INCH, Unit, show_length

LENGTH_TOLERANCE = 0.02  # mm: what a working size may be out; the dry fit allows a new one 0.03
# From edge to edge in inches: callipers show no less, each edge is out by half of it.
THOUSANDTH = MM_PER_INCH / 1000
ARC_TOLERANCE = 0.01  # mm, of a gauge's radius
ANGLE_TOLERANCE = 0.015  # degrees; the dry fit allows 0.02
SAME = 1e-3  # mm
HANGING = 5.0  # mm, the holes that plates hang by
ON_EDGE = 0.05  # mm
AS_IT_IS = DrawnSize()
BORED_TO = 0.5  # mm that a bore made by hand may be out


class Difference(Record):
    """One old jig against the new one of the same name."""

    part: str
    reasons: tuple[str, ...]  # beyond tolerance; none when the old jig still serves
    within: tuple[str, ...]  # changed by less than the tolerance
    to_do: tuple[str, ...] = ()  # to a jig that still serves: lettering, plates that are missing

    @property
    def wrong(self) -> bool:
        return bool(self.reasons)


def part_print(part: Part, kerf: float, drawn: DrawnSize = AS_IT_IS) -> str:
    """Digest of all that a part's file shows."""
    digest = sha256()
    sizes = (part.thickness, part.mark_width, part.mark_height, kerf)
    words = (part.name, part.process, *sizes, part.facts, drawn)
    digest.update(repr(words).encode())
    for contour in (part.outline, *part.holes, *(() if part.bevel is None else (part.bevel.top,))):
        digest.update(contour.vertices.tobytes() + b"|")
    digest.update(repr((part.bevel and part.bevel.land, part.marks, part.dimensions)).encode())
    return digest.hexdigest()


def judged_by(part: Part, kerf: float, drawn: DrawnSize = AS_IT_IS) -> dict[str, Any]:
    """What the manifest keeps of a jig, beside its dimensions and its file, so that it can be judged later."""
    lines = [
        [mark.name, [[round(x, 3), round(y, 3)] for x, y in mark.points]]
        for mark in part.marks
        if isinstance(mark, Line) and mark.witness
    ]
    lettered = [mark.text for mark in part.marks if isinstance(mark, Lettering)]
    bore = part.bore and [round(size, 3) for size in (part.bore.along, part.bore.up, part.bore.across)]
    return {
        "thickness": round(part.thickness, 4), "kerf": kerf, "lines": lines, "lettered": lettered,
        **({"bore": bore} if bore else {}),
        **({} if drawn.exact else {"drawn": [drawn.outside, drawn.inside, drawn.scale]}),
    }  # fmt: skip


def difference(part: Part, old: Mapping[str, Any], old_file: ReadBack | None, unit: Unit) -> Difference:
    """Hold an old jig, as its manifest entry and its file have it, against the new part; told in the job's unit.

    It is judged by what it does: its dimensions, the edges and holes that work, the lines that the work is set to.
    """
    reasons: list[str] = []
    within: list[str] = []
    for wrong, told in _of_dimensions(part, old, old_file, unit):
        (reasons if wrong else within).append(told)
    for wrong, told in () if reasons else _of_plate(part, old, old_file, unit):
        (reasons if wrong else within).append(told)
    return Difference(
        part.name, tuple(reasons), tuple(within), () if reasons else tuple(_to_do(part, old, unit))
    )


def as_cut(found: Difference, wider: float, unit: Unit) -> Difference:
    """The same for an old jig whose drawing allows for another width of cut."""
    if abs(wider) <= LENGTH_TOLERANCE:
        return found
    off = f"{show_length(abs(wider), unit, exact=True)} {'narrower' if wider > 0 else 'wider'}"
    told = f"it is drawn for a cut {off} than yours is now: keep it if it measures right"
    return replace(found, reasons=(*found.reasons, told), to_do=())


def as_printed(found: Difference, part: Part, was: DrawnSize, now: DrawnSize, unit: Unit) -> Difference:
    """The same for an old print that was drawn otherwise than its printer turned out to need."""
    if was == now:
        return found
    off = max(
        (abs(now.made(was.drawn(size, side), side) - size) for size, side in working_sizes(part)), default=0.0
    )
    told = f"printed before the printer was measured, it is out by up to {show_length(off, unit, exact=True)}"
    if off > KEEP:
        return replace(found, reasons=(*found.reasons, told), to_do=())
    return replace(found, within=(*found.within, told))


def _of_dimensions(
    part: Part, old: Mapping[str, Any], old_file: ReadBack | None, unit: Unit
) -> Iterator[tuple[bool, str]]:
    """Each working dimension that differs: whether that is too much, and in words."""
    before = {entry["name"]: entry["value"] for entry in old["dimensions"]}
    for dimension in part.dimensions:
        if isinstance(dimension.probe, Extent) or dimension.name not in before or dimension.may == "differ":
            continue
        off, told = _off(part, dimension, before[dimension.name], old_file, unit)
        if told and not (dimension.may == "more" and off < 0):
            yield abs(off) > _tolerance(part, dimension, unit), told


def _of_plate(
    part: Part, old: Mapping[str, Any], old_file: ReadBack | None, unit: Unit
) -> Iterator[tuple[bool, str]]:
    """Its thickness, its edges and holes, its lines, where they differ."""
    thick = part.thickness - old.get("thickness", part.thickness)
    if abs(thick) > SAME and part.process == "cut":
        yield (
            abs(thick) > LENGTH_TOLERANCE,
            f"it is drawn for sheet {show_length(abs(thick), unit, exact=True)} {_than(thick)}",
        )
    if old_file is None:
        return
    shift, moved = _astray(part, old_file)
    if shift > max(SAME, old_file.tolerance):
        told = f"out by up to {show_length(shift, unit, exact=True)}" if shift < inf else "others"
        yield shift > part.works_to, f"its edges or holes are {told}"
    if not _same_lines(part, old, moved):
        yield True, "its witness lines lie elsewhere"


def _than(thicker: float) -> str:
    way = "thinner" if thicker > 0 else "thicker"
    return f"{way} than yours is now: keep it if it was cut from the one you measured"


def _to_do(part: Part, old: Mapping[str, Any], unit: Unit) -> Iterator[str]:
    """What is left to do to an old jig that serves."""
    if part.bore:
        yield from _to_bore(part.bore, old.get("bore"), unit)
    more = part.quantity - old.get("quantity", part.quantity)
    if more > 0:
        yield f"make {more} more"
    lettered = [mark.text for mark in part.marks if isinstance(mark, Lettering)]
    words = [text for text in lettered if len(text) > 1]  # letters on a curve stand alone
    new = [text.strip(",") for text in words if text not in old.get("lettered", lettered)]
    if new:
        yield f"re-letter it: {', '.join(new)}"


def _to_bore(bore: Bore, old: Sequence[float] | None, unit: Unit) -> Iterator[str]:
    """What is to be done to a bore made by hand, which shows in no drawing."""
    along, up, across = (show_length(size, unit) for size in (bore.along, bore.up, bore.across))
    place = f"{across} across, {along} from the thin end, {up} above the base"
    if old is None:
        yield f"see that its bore is {place}"
    elif not _goes_through(bore, old):
        yield f"glue a dowel into its old bore, then mark it through the fence and bore it again: {place}"


def _goes_through(bore: Bore, old: Sequence[float]) -> bool:
    """Whether what goes through the new bore passes the old one with some play, and this leaves the wood beside it."""
    apart = hypot(bore.along - old[0], bore.up - old[1])
    larger = (old[2] - bore.across) / 2
    return apart - larger <= bore.play / 2 - BORED_TO and apart + larger <= bore.play / 2


def _tolerance(part: Part, dimension: Dimension, unit: Unit) -> float:
    if isinstance(dimension.probe, ArcRadius):
        return ARC_TOLERANCE
    if isinstance(dimension.probe, EdgeAngle):
        return ANGLE_TOLERANCE
    if unit == "in" and isinstance(dimension.probe, EdgeGap) and part.works_to >= LENGTH_TOLERANCE:
        return THOUSANDTH
    return min(LENGTH_TOLERANCE, part.works_to)


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


def _astray(part: Part, old_file: ReadBack) -> tuple[float, Point]:
    """How far an old jig is out where it works, wherever it lies in its drawing, mm; and how far it lies elsewhere.

    Of a printed one only those edges work that a dimension measures or that it bears on; what a part says of its
    own edges goes before that.
    """
    free = part.free if part.process != "print" else (*_unmeasured(part), *part.free)
    loose = (*part.loose, *_hanging(part))
    return astray((part.outline, *part.holes), old_file.contours, free, loose, part.process != "turn")


def laid_on(part: Part, old_file: ReadBack) -> Point:
    """How an old jig has to be moved to lie on the new one."""
    return _astray(part, old_file)[1]


def _hanging(part: Part) -> tuple[Point, ...]:
    """The hole that a plate hangs by: no dimension measures it."""
    measured = [d.probe.centre for d in part.dimensions if isinstance(d.probe, HoleDiameter)]
    return tuple(
        hole.centroid
        for hole in part.holes
        if abs(hole.bounds[2] - hole.bounds[0] - HANGING) < SAME
        and not any(dist(hole.centroid, centre) < SAME for centre in measured)
    )


def _unmeasured(part: Part) -> tuple[FreeEdge, ...]:
    """The edges of a plate that no dimension measures and on which it does not bear."""
    measured = np.array([*part.bearing, *(p for d in part.dimensions for p in _probed(d))]).reshape(-1, 2)
    edges = part.outline.edges()
    if not len(measured):
        return tuple(FreeEdge(edge.midpoint) for edge in edges)
    return tuple(
        FreeEdge(edge.midpoint) for edge in edges if float(distances([edge], measured).min()) > ON_EDGE
    )


def _probed(dimension: Dimension) -> tuple[Point, ...]:
    """Places on the edges that a dimension measures."""
    match dimension.probe:
        case ArcRadius(centre, start, end):
            x, y, middle = *centre, start + ((end - start) % (2 * pi)) / 2
            return ((x + dimension.value * cos(middle), y + dimension.value * sin(middle)),)
        case EdgeAngle(first, second) | EdgeGap(first, second):
            return first, second
        case EdgeLength(point):
            return (point,)
        case ProfileForm(rows):
            return tuple(edge.midpoint for edge in profile(*rows).edges())
        case _:
            return ()


def _same_lines(part: Part, old: Mapping[str, Any], moved: Point) -> bool:
    """Whether the lines that the work is set to lie on the old jig, laid on the new one, as they have to."""
    lines = judged_by(part, 0.0)["lines"]
    before = old.get("lines", lines)
    most = min(LENGTH_TOLERANCE, part.works_to)
    return len(lines) == len(before) and all(
        any(_apart(points, other, moved) <= most for was, other in before if was == name)
        for name, points in lines
    )


def _apart(points: list[list[float]], other: list[list[float]], moved: Point) -> float:
    if len(points) != len(other):
        return inf
    return float(np.abs(np.array(points) - np.array(other) - np.array(moved)).max())
