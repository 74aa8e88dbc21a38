"""A vessel's profiles from stations, from edges or from a drawing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import pairwise
from math import asin, dist, tan
from pathlib import Path
from typing import Any, cast

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.plane.profile import Profile, profile
from jigs.asked.jobfile.read import ALL, Read
from jigs.asked.key import Wrong
from jigs.asked.vessel_job import SHAPES, Shape
from jigs.words.findings import Finding
from jigs.words.lengths import Unit, fine_length, show_length

MEETS = 1e-6  # mm; points nearer than this are one
MOST_EDGES = 1000
_TABLES = ("profile", "inside", "knob")

Row = tuple[float, ...]
Shapes = Mapping[str, Shape]


def read_shapes(asked: Read, folder: Path) -> tuple[Shapes, tuple[Finding, ...]]:
    """The profiles that can be had, by table, and what is wrong with the others. Drawings stand in `folder`."""
    shapes: dict[str, Shape] = {}
    faults: list[Finding] = []
    for table in _TABLES:
        given = shape_given(asked, table)
        faults += _count_faults(asked, table, given)
        if len(given) == 1 and given[0] in asked.values:
            try:
                shapes[table] = _shape(given[0], asked, folder)
            except Wrong as wrong:
                key = f"{table}.axis" if wrong.code == "axis-unknown" else given[0]
                faults.append(asked.fault(wrong.code, wrong.message, wrong.remedy, key, given[0]))
    return shapes, tuple(faults)


def shape_given(asked: Read, table: str) -> list[str]:
    """The keys of a table that give a profile, as far as they are written."""
    return [f"{table}.{way}" for way in SHAPES if f"{table}.{way}" in asked.written]


def _count_faults(asked: Read, table: str, given: Sequence[str]) -> Iterator[Finding]:
    """A profile is given in one way; an inside may be left out."""
    needed = table == "profile" or any(path.startswith(f"{table}.") for path in asked.written)
    if needed and not given:
        remedy = f"Give stations, edges or a drawing in [{table}]"
        yield asked.fault("missing-key", "states no profile", remedy, table, "rings", "wall")
    for path in given[1:]:
        message = f"the profile is given by {given[0]} already"
        yield asked.fault("too-many", message, "Leave one of the two out", path)


def _shape(given: str, asked: Read, folder: Path) -> Shape:
    """The profile that the key `given` gives. Raises Wrong."""
    table, _, way = given.rpartition(".")
    rows = cast("Sequence[Row]", asked.values[given])
    if way == "drawing":
        return _drawn(_drawing(asked, table), folder, table == "inside", asked.unit)
    if table != "inside" and rows[0][0] > 0:
        first, where = show_length(rows[0][0], asked.unit), "foot" if table == "profile" else "knob"
        raise Wrong("no-foot", f"the first height is {first}", f"Begin at height 0, where the {where} stands")
    return through_stations(rows, asked.unit) if way == "stations" else _along(rows, asked.unit)


def through_stations(stations: Sequence[Row], unit: Unit) -> Shape:
    """The smooth curve through (height, diameter). Raises Wrong."""
    from geometry.curves.biarcs import TOLERANCE

    outline = _smooth(tuple(_points(stations, unit)))
    return Shape("stations", outline, TOLERANCE, _heights(stations), (), None)


@lru_cache(maxsize=32)  # of a job that is read again, its stations mostly as they were
def _smooth(points: tuple[tuple[float, float], ...]) -> Profile:
    from geometry.curves.biarcs import TOLERANCE, biarcs
    from geometry.curves.fewer_arcs import MANY, fewer_arcs
    from geometry.curves.spline import through

    curve = through(np.array(points))
    rows = biarcs(curve)
    if len(rows) > MANY:
        rows = fewer_arcs(biarcs(curve, TOLERANCE / 2), TOLERANCE / 2)
    return _few_enough(rows)


def _along(edges: Sequence[Row], unit: Unit) -> Shape:
    points = _points(edges, unit)
    bulges = [_bulge(*ends, row, unit) for ends, row in zip(pairwise(points), edges[1:], strict=True)]
    given = [(*point, bulge) for point, bulge in zip(points, [*bulges, 0.0], strict=True)]
    rows, within = _fewer(profile(*given).vertices)
    return Shape("edges", _few_enough(rows), within, _heights(edges), (), None)


def _fewer(rows: FloatArray) -> tuple[FloatArray, float]:
    """A chain of very many edges as arcs, and how far these may leave it."""
    from geometry.curves.biarcs import TOLERANCE
    from geometry.curves.fewer_arcs import fewer_arcs

    found = fewer_arcs(rows)
    return found, 0.0 if found is rows else TOLERANCE


def _few_enough(rows: FloatArray) -> Profile:
    """The profile. Raises Wrong where it is of too many arcs for any work: its points are not on a smooth line."""
    if len(rows) > MOST_EDGES:
        message = (
            f"the profile is of {len(rows) - 1} arcs and lines, its smallest waves left out: it is rough"
        )
        raise Wrong("too-many", message, f"Smooth it, or give fewer points: {MOST_EDGES} arcs are the most")
    return Profile(rows)


def _heights(rows: Sequence[Row]) -> tuple[float, ...]:
    return tuple(dict.fromkeys(row[0] for row in rows))


def _points(rows: Sequence[Row], unit: Unit) -> list[tuple[float, float]]:
    """Radius and height of each."""
    points = [(row[1] / 2, row[0]) for row in rows]
    for below, point in pairwise(points):
        if dist(below, point) < MEETS:
            message = f"the point at height {show_length(point[1], unit)} stands twice"
            raise Wrong("bad-order", message, "Leave one of the two out")
    return points


def _bulge(start: Row, end: Row, row: Row, unit: Unit) -> float:
    """Of the edge that ends at `row`: the smaller arc of its radius, + swelling outward."""
    if len(row) < 3:
        return 0.0
    chord, radius = dist(start, end), row[2]
    if 2 * abs(radius) < chord:
        arc, span = show_length(abs(radius), unit), show_length(chord, unit)
        message = f"an arc of radius {arc} does not span {span}, to height {show_length(end[1], unit)}"
        least = show_length(chord / 2 + 0.03, unit)
        raise Wrong(
            "out-of-range", message, f"Give a radius of at least {least}, or none for a straight edge"
        )
    return tan(asin(chord / (2 * radius)) / 2)


def _drawing(asked: Read, table: str) -> dict[str, Any]:
    keys = [ALL[f"{table}.{name}"] for name in ("drawing", "layer", "drawing_unit", "axis")]
    return {key.name: asked.values.get(key.path, key.default) for key in keys}


def _drawn(values: Mapping[str, Any], folder: Path, inside: bool, unit: Unit) -> Shape:
    from jigs.asked.drawn.profile import read_drawing

    source = folder / values["drawing"]
    drawn = read_drawing(source, values["layer"], values["drawing_unit"], values["axis"], inside)
    rows, within = _fewer(drawn.rows)
    said = drawn.said
    if within:
        said = (
            *said,
            f"Its {len(drawn.rows) - 1} edges became {len(rows) - 1} arcs, "
            f"at most {fine_length(within, unit)} from them.",
        )
    return Shape("drawing", _few_enough(rows), max(drawn.within, within), (), said, source)
