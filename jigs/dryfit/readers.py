"""Files as other libraries and the dry fit read them: a DXF by its tags, an STL by numpy-stl, an SVG by svgelements."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import chain, pairwise
from math import pi, tan
from pathlib import Path
from xml.etree.ElementTree import ParseError

import numpy as np
import shapely
from stl import mesh as stl_mesh
from svgelements import SVG, Arc, Circle, Close, Group, Line
from svgelements import Path as Curve

from geometry.plane.contour import Contour, circle
from geometry.plane.edges import FloatArray
from geometry.records import Record
from jigs.dryfit.model import Drawn, Drill, Plate
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


class Entities(Record, eq=False):
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
NOT_PLAIN = {PAPER_SPACE, EXTRUSION}
MILLIMETRES = 4  # $INSUNITS, DXF reference
BELOW = "it is drawn as seen from below: another program has mirrored it"

QUARTERS, QUARTER_ARC = np.array(((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))), tan(pi / 8)

Tag = tuple[int, str]
Codes = tuple[int, ...]
Head = tuple[str, bool, bool, str]  # an entity without its rows


class Entity(Record, eq=False):
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
    try:
        known = {code: int(code) for code in set(lines[::2])}
    except ValueError as error:
        raise ValueError("it is no drawing") from error
    codes, values = tuple([known[code] for code in lines[::2]]), lines[1::2]
    codes = codes[: len(values)]
    if (codes[-1:], values[-1:]) != ((STRUCTURE,), ["EOF"]):
        raise ValueError("it breaks off before its end")
    first = values.index("ENTITIES")
    if _unit(codes[:first], values) != MILLIMETRES:
        raise ValueError("it does not say that it is in millimetres")
    heads, places, bulges, ends = list[Head](), list[float](), list[float](), [0]
    end = codes.index(STRUCTURE, first)
    while values[start := end] not in ("ENDSEC", "EOF"):
        end = codes.index(STRUCTURE, start + 1)
        if values[start] in KINDS:
            head = _added(places, bulges, values[start], codes[start + 1 : end], values[start + 1 : end])
            heads += [head] * (len(bulges) > ends[-1])
            ends += [len(bulges)] * (len(bulges) > ends[-1])
    every = np.column_stack([np.array(places).reshape(-1, 2), bulges])  # letters are thousands of short lines
    return [Entity(*head, every[a:b]) for head, (a, b) in zip(heads, pairwise(ends), strict=True)]


def _unit(codes: Codes, values: Sequence[str]) -> int:
    """The unit that it states before its entities, 0 where it states none."""
    places = (i for i, code in enumerate(codes[:-1]) if code == UNIT[0] and values[i] == UNIT[1])
    return int(next((values[i + 1] for i in places if codes[i + 1] == FLAGS), 0))


@lru_cache(maxsize=256)
def _stroke(codes: Codes) -> tuple[int, int, int] | None:
    """Where a stroke of lettering has its layer, its flags and its first place; of what is more or less, None."""
    counts = Counter(codes)
    at = codes.index(X) if counts[X] else 0
    plain = codes[at:] == (X, Y) * counts[X] and counts[LAYER] == counts[FLAGS] == 1
    return (codes.index(LAYER), codes.index(FLAGS), at) if plain and not counts.keys() & NOT_PLAIN else None


def _added(places: list[float], bulges: list[float], kind: str, codes: Codes, values: list[str]) -> Head:
    """What an entity is by its tags; its rows are added to all, none of what is empty or in the paper space."""
    circle = kind == "CIRCLE"
    if not circle and (stroke := _stroke(codes)):
        layer, flags, at = stroke
        places += map(float, values[at:])
        bulges += [0.0] * ((len(values) - at) // 2)
        return values[layer], False, bool(int(values[flags]) & 1), ""
    tags = list(zip(codes, values, strict=True))
    last = dict(tags)
    if float(last.get(EXTRUSION, 1)) < 0:
        raise ValueError(BELOW)
    marked = pairwise(tags) if OUR_DATA[0] in last else ()
    name = next((b[1] for a, b in marked if a == OUR_DATA and b[0] == TEXT), "")
    if X in last and not int(last.get(PAPER_SPACE, 0)):
        across, along = ([float(value) for code, value in tags if code == axis] for axis in (X, Y))
        places += chain.from_iterable(zip(across, along, strict=True))
        bulges += [2 * float(last[RADIUS])] if circle else _bulges(tags)
    return last.get(LAYER, "0"), circle, circle or bool(int(last.get(FLAGS, 0)) & 1), name


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


LEVEL = 1e-6  # mm, of a face
FLOOR = 1e-3  # mm


def read_stl(file: Path) -> Plate:
    """A plate lying on the bed, or one piece of it. Raises Refused where it cannot be read."""
    try:
        triangles = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False).vectors.astype(np.float64)
    except (OSError, RuntimeError, AssertionError, ValueError) as error:
        raise Refused([Finding("unreadable", f"{file}: {error}", "make the job again")]) from error
    heights = triangles[:, :, 2]
    floor = heights.min()
    level = np.ptp(heights, axis=1) < LEVEL
    plate = float(heights[level & (heights[:, 0] > floor + LEVEL)].min())
    walls = np.unique(np.round(heights[(heights > floor + FLOOR) & (heights < plate - FLOOR)], 4))
    land = float(walls[0] if len(walls) else plate) - float(floor)
    bed = triangles[level & (np.abs(heights[:, 0] - floor) < LEVEL)]
    return Plate(what_of(file), _face(bed[:, :, :2]), plate - float(floor), land)


def _face(triangles: FloatArray) -> shapely.Polygon:
    """What flat triangles (t, 3, 2) cover: the edges that only one of them has, joined to loops."""
    corners, ids = np.unique(triangles.reshape(-1, 2), axis=0, return_inverse=True)
    ids = ids.reshape(-1, 3)
    sides = np.sort(np.concatenate([ids[:, [0, 1]], ids[:, [1, 2]], ids[:, [2, 0]]]), axis=1)
    pairs, counts = np.unique(sides, axis=0, return_counts=True)
    rings = shapely.polygonize(shapely.linestrings(corners[pairs[counts == 1]]))
    parts: list[shapely.Polygon] = list(rings.geoms)
    return max(parts, key=lambda part: float(part.area))


PIXELS = 25.4  # an inch, so that one is a millimetre
SAME = 1e-6  # mm


def read_svg(file: Path) -> Drawn:
    """A drawing on paper, y up. Its lines have no names. Raises Refused where it cannot be read."""
    try:
        document = SVG.parse(str(file), ppi=PIXELS)
    except (OSError, ParseError, ValueError) as error:
        raise Refused([Finding("unreadable", f"{file}: {error}", "make the job again")]) from error
    corner = (float(document.viewbox.x), float(document.viewbox.y))
    layers = {group.id: list(group) for group in document if isinstance(group, Group)}
    outlines = layers.get("cut", [])
    cut = [_ring(e, corner) if isinstance(e, Circle) else _rows(e, corner) for e in outlines]
    contours = sorted((Contour(rows) for rows in cut), key=lambda contour: -abs(contour.area))
    if not contours:
        raise Refused([Finding("unreadable", f"{file} has no closed outline", "make the job again")])
    drills = [_drill(e, corner) for e in layers.get("drill", []) if isinstance(e, Circle)]
    marks = [_rows(e, corner)[:, :2] for e in layers.get("engrave", [])]
    engraved = np.concatenate(marks) if marks else np.zeros((0, 2))
    return Drawn(what_of(file), contours[0].ccw(), tuple(contours[1:]), tuple(drills), {}, engraved)


def _drill(element: Circle, corner: tuple[float, float]) -> Drill:
    return Drill((float(element.cx) + corner[0], -float(element.cy) - corner[1]), 2 * float(element.rx))


def _ring(element: Circle, corner: tuple[float, float]) -> FloatArray:
    drill = _drill(element, corner)
    return circle(drill.centre, drill.diameter / 2).vertices


def _rows(element: Curve, corner: tuple[float, float]) -> FloatArray:
    """x, y and bulge (k, 3) of every edge's start, and of an open curve's end."""
    rows = [
        (s.start.x, s.start.y, -tan(s.sweep / 4) if isinstance(s, Arc) else 0.0)
        for s in element
        if isinstance(s, Line | Arc | Close)
    ]
    if not isinstance(element[-1], Close):
        rows.append((element[-1].end.x, element[-1].end.y, 0.0))
    elif np.hypot(rows[-1][0] - rows[0][0], rows[-1][1] - rows[0][1]) < SAME:
        rows.pop()  # the closing edge has no length
    x, y, bulge = np.array(rows, dtype=np.float64).T
    return np.column_stack([x + corner[0], -y - corner[1], bulge])
