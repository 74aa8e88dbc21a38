"""The DXF of one part, or of a whole sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise, repeat
from math import pi, tan
from pathlib import Path

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray
from geometry.records import dataclass
from jigs.dryfit.model import Drawn, Drill
from jigs.words.file_names import what_of
from jigs.words.findings import Finding, Refused

OUTLINES = ("cut", "section")


def read_dxf(file: Path) -> Drawn:
    """A drawing as written, the cutter's kerf still in it. Raises Refused where it cannot be read."""
    entities = read_entities(file)
    lines = [entity for entity in entities if not entity.is_circle]
    closed = [Contour(e.loop) for e in entities if e.closed and e.layer in OUTLINES]
    closed.sort(key=lambda contour: -abs(contour.area))
    circles = [e.rows[0].tolist() for e in entities if e.is_circle and e.layer == "drill"]
    if not closed:
        raise unreadable(file, "no closed outline")
    return Drawn(
        what_of(file),
        closed[0].ccw(),
        tuple(closed[1:]),
        tuple(Drill((x, y), diameter) for x, y, diameter in circles),
        _named_lines(lines),
        _places([line for line in lines if line.layer == "engrave"]),
    )


def _places(lines: Sequence[Entity]) -> FloatArray:
    return np.concatenate([np.zeros((0, 2)), *(line.rows[:, :2] for line in lines)])


def _named_lines(lines: Sequence[Entity]) -> dict[str, FloatArray]:
    names = dict.fromkeys(line.name for line in lines if line.name)
    return {name: _places([line for line in lines if line.name == name]) for name in names}


@dataclass(frozen=True, eq=False)
class Entities:
    """What is cut, drilled and engraved: contours (k, 3) of x, y, bulge; circles (n, 3) of x, y, diameter; lines."""

    closed: list[FloatArray]
    drills: FloatArray
    engraved: list[FloatArray]


def read_sheet(file: Path) -> Entities:
    """All entities of a sheet. Raises Refused where it cannot be read or is not in millimetres."""
    entities = read_entities(file)
    lines = [entity for entity in entities if not entity.is_circle]
    circles = [entity.rows for entity in entities if entity.is_circle and entity.layer == "drill"]
    return Entities(
        [entity.loop for entity in entities if entity.layer == "cut" and entity.closed],
        np.concatenate([np.zeros((0, 3)), *circles]),
        [line.rows for line in lines if line.layer == "engrave"],
    )


KINDS = ("LWPOLYLINE", "CIRCLE")
# group codes, DXF reference
STRUCTURE, NAME, LAYER, X, Y, RADIUS, BULGE, PAPER_SPACE, FLAGS, EXTRUSION = (
    0, 2, 8, 10, 20, 40, 42, 67, 70, 230
)  # fmt: skip
OUR_DATA, TEXT, UNIT = (1001, "JIGS"), 1000, (9, "$INSUNITS")
MILLIMETRES = 4  # $INSUNITS, DXF reference
BELOW = "it is drawn as seen from below: another program has mirrored it"

QUARTERS, QUARTER_ARC = np.array(((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))), tan(pi / 8)

Tag = tuple[int, str]
Row = tuple[float, float, float]
Head = tuple[str, bool, bool, str]  # an entity without its rows


@dataclass(frozen=True, eq=False)
class Entity:
    """A line by its rows (k, 3) of x, y, bulge, or a circle by its one row of x, y, diameter."""

    layer: str
    is_circle: bool
    closed: bool
    name: str  # of a marked line
    rows: FloatArray

    @property
    def loop(self) -> FloatArray:
        """The rows (k, 3) of a closed line; a circle's are four arcs, the same after a quarter turn."""
        if not self.is_circle:
            return self.rows
        x, y, diameter = self.rows[0]
        return np.column_stack([(x, y) + diameter / 2 * QUARTERS, np.full(4, QUARTER_ARC)])


def read_entities(file: Path) -> list[Entity]:
    """Lines and circles of the model space. Raises Refused unless it can be read to its end and is in millimetres."""
    try:
        return _entities(file.read_text("utf-8", "surrogateescape").rstrip())
    except (OSError, ValueError, KeyError) as error:
        raise unreadable(file, str(error)) from error


def unreadable(file: Path, why: str) -> Refused:
    return Refused([Finding("unreadable", f"{file}: {why}", "make the job again")])


def _entities(text: str) -> list[Entity]:
    lines = text.split("\n")
    known = {code: int(code) for code in set(lines[::2])}
    codes, values = [known[code] for code in lines[::2]], lines[1::2]
    del codes[len(values) :]
    if (codes[-1:], values[-1:]) != ([STRUCTURE], ["EOF"]):
        raise ValueError("it breaks off before its end")
    starts = [i for i, code in enumerate(codes) if code == STRUCTURE]
    first = values.index("ENTITIES")
    if _unit(list(zip(codes[:first], values[:first], strict=True))) != MILLIMETRES:
        raise ValueError("it does not say that it is in millimetres")
    heads, rows, ends = list[Head](), list[Row](), [0]
    for start, end in pairwise(starts):
        kind = values[start]
        if start > first and kind in KINDS:
            heads += _added(rows, kind, codes[start + 1 : end], values[start + 1 : end])
            ends += [len(rows)] * (len(rows) > ends[-1])
        elif start > first and kind == "ENDSEC":
            break
    every = np.array(rows).reshape(-1, 3)  # one array: letters are thousands of short lines
    return [Entity(*head, every[a:b]) for head, (a, b) in zip(heads, pairwise(ends), strict=True)]


def _unit(header: Sequence[Tag]) -> int:
    """The unit that it states, 0 where it states none."""
    stated = (b[1] for a, b in pairwise(header) if a == UNIT and b[0] == FLAGS)
    return int(next(stated, 0))


def _added(rows: list[Row], kind: str, codes: list[int], values: list[str]) -> list[Head]:
    """What an entity of the model space is by its tags, nothing of an empty line; its rows are added to all."""
    last = dict(zip(codes, values, strict=True))
    if float(last.get(EXTRUSION, 1)) < 0:
        raise ValueError(BELOW)
    if X not in last or int(last.get(PAPER_SPACE, 0)):
        return []
    layer, circle = last.get(LAYER, "0"), kind == "CIRCLE"
    closed = circle or bool(int(last.get(FLAGS, 0)) & 1)
    at = codes.index(X)
    if not circle and codes[at:] == [X, Y] * codes.count(X):  # a stroke of lettering
        rows += zip(map(float, values[at::2]), map(float, values[at + 1 :: 2]), repeat(0.0))
        return [(layer, circle, closed, "")]
    tags = list(zip(codes, values, strict=True))
    across, along = ([float(value) for code, value in tags if code == axis] for axis in (X, Y))
    third = [2 * float(last[RADIUS])] if circle else list(_bulges(tags))
    rows += zip(across, along, third, strict=True)
    marked = pairwise(tags) if OUR_DATA[0] in last else ()
    name = next((b[1] for a, b in marked if a == OUR_DATA and b[0] == TEXT), "")
    return [(layer, circle, closed, name)]


def _bulges(tags: Iterable[Tag]) -> Iterator[float]:
    """Of each place of a line the bulge that follows it, 0 where none does."""
    bulge = None
    for code, value in tags:
        if code == X and bulge is not None:
            yield bulge
        if code == X:
            bulge = 0.0
        elif code == BULGE:
            bulge = float(value)
    if bulge is not None:
        yield bulge
