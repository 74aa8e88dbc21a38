"""SVG in real units: one is one millimetre, arcs are arcs, one group and colour a layer; and its contours read back.

It holds what is cut and lettered, nothing else, in the order in which a machine should run it: lettering, round
holes, openings, the outline. y runs up in a part and down in SVG: every y changes its sign, nothing is moved.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import escape
from math import asin, ceil, floor, hypot, tan
from xml.etree import ElementTree

import numpy as np

from geometry.plane.contour import Contour, circle
from geometry.plane.edges import Edge, FloatArray
from geometry.plane.loops import part as part_of
from jigs.files.drawing import Circle, Layer, Shape, without_notes
from jigs.files.target import Target, get, put
from jigs.parts.part import Part
from jigs.parts.readback import ReadBack

Colours = Mapping[Layer, str]  # "#rrggbb" by layer, in the order in which they are run

BLACK: Colours = {"engrave": "#000000", "drill": "#000000", "cut": "#000000"}
CONTOUR_LAYERS = {"cut", "drill"}
LINE_WIDTH = 0.2  # mm
MARGIN = 2.0  # mm round the part
LARGEST_TURN = 2.0  # radians in one arc command; near half a turn its centre would hang on the last digit
STRAIGHT = 1e-6  # mm; an arc no higher is written as a straight line, for its radius has too few digits left
TOLERANCE = 1e-4  # mm
NAMESPACE = "http://www.w3.org/2000/svg"
_TOKEN = re.compile(r"[MLAZ]|-?[0-9.]+(?:e-?[0-9]+)?")


def write_svg(part: Part, target: Target, kerf: float = 0.0, colours: Colours = BLACK) -> None:
    """Write a part's drawing, grown by half the kerf (mm).

    Raises ValueError where the kerf leaves nothing of a contour.
    """
    shapes = without_notes(part, kerf)
    x0, y0, x1, y1 = _box(part, kerf)
    width, height = x1 - x0, y1 - y0
    size = f'width="{width}mm" height="{height}mm"'
    box = f'viewBox="{x0} {-y1} {width} {height}"'
    facts = "; ".join(f"{name}: {value}" for name, value in part.facts)
    groups = "".join(_group(layer, shapes, colour) for layer, colour in colours.items())
    text = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="{NAMESPACE}" {size} {box}>\n<title>{escape(f"{part.code} {part.name}")}</title>\n'
        f"<desc>{escape(facts)}</desc>\n{groups}</svg>\n"
    )
    put(text.encode(), target)


def _box(part: Part, kerf: float) -> tuple[int, int, int, int]:
    """What is drawn (xmin, ymin, xmax, ymax) with its margin, outward to whole millimetres."""
    x0, y0, x1, y1 = part.outline.bounds
    more = kerf / 2 + MARGIN
    return floor(x0 - more), floor(y0 - more), ceil(x1 + more), ceil(y1 + more)


def _group(layer: Layer, shapes: tuple[Shape, ...], colour: str) -> str:
    drawn = [_element(shape) for shape in shapes if shape.layer == layer]
    if not drawn:
        return ""
    style = f'fill="none" stroke="{colour}" stroke-width="{LINE_WIDTH:g}" stroke-linecap="round"'
    return f'<g id="{layer}" {style}>\n' + "".join(f"{line}\n" for line in drawn) + "</g>\n"


def _element(shape: Shape) -> str:
    if isinstance(shape, Circle):
        cx, cy, r = (_mm(value) for value in (shape.centre[0], -shape.centre[1], shape.radius))
        return f'<circle cx="{cx}" cy="{cy}" r="{r}"/>'
    if not shape.closed:  # lettering and lines, all straight
        form = "M%.4f %.4f" + "L%.4f %.4f" * (len(shape.vertices) - 1)
        return f'<path d="{form % tuple((shape.vertices[:, :2] * (1, -1)).ravel())}"/>'
    rows = shape.vertices.tolist()
    edges = [Edge((a[0], a[1]), (b[0], b[1]), a[2]) for a, b in zip(rows, [*rows[1:], rows[0]], strict=True)]
    path = "".join(_command(edge) for edge in edges)
    return f'<path d="M{_mm(rows[0][0])} {_mm(-rows[0][1])}{path}Z"/>'


def _command(edge: Edge) -> str:
    if not edge.is_arc or abs(edge.bulge) * edge.length / 2 < STRAIGHT:
        return f"L{_mm(edge.end[0])} {_mm(-edge.end[1])}"
    count = int(abs(edge.angle) / LARGEST_TURN) + 1
    sweep = 0 if edge.bulge > 0 else 1
    radius = _mm(edge.radius)
    ends = [part_of(edge, k / count, (k + 1) / count).end for k in range(count)]
    return "".join(f"A{radius} {radius} 0 0 {sweep} {_mm(x)} {_mm(-y)}" for x, y in ends)


def _mm(value: float) -> str:
    """A length, never with an exponent."""
    text = f"{value:.8f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def read_svg(target: Target) -> ReadBack:
    """Read a part's contours, outline first, from an SVG as written here; its arcs in the pieces drawn.

    An SVG has no thickness. Raises ValueError when its unit is not one millimetre or it holds no closed
    contour.
    """
    try:
        root = ElementTree.fromstring(get(target))
    except ElementTree.ParseError as error:
        raise ValueError(f"this is no SVG: {error}") from error
    _check_unit(root)
    contours = [
        found
        for group in root
        if group.get("id") in CONTOUR_LAYERS
        for element in group
        if (found := _contour(element)) is not None
    ]
    if not contours:
        raise ValueError("the SVG holds no closed contour on its cut or drill layer")
    outline, *holes = sorted(contours, key=lambda contour: -contour.area)
    return ReadBack((outline, *(hole.cw() for hole in holes)), None, TOLERANCE)


def _check_unit(root: ElementTree.Element) -> None:
    box = (root.get("viewBox") or "").split()
    size = [(root.get(name) or "") for name in ("width", "height")]
    if len(box) != 4 or [length.removesuffix("mm") for length in size] != box[2:] or "mm" not in size[0]:
        raise ValueError("one unit of the SVG is not one millimetre")


def _contour(element: ElementTree.Element) -> Contour | None:
    if element.tag == f"{{{NAMESPACE}}}circle":
        return circle((float(element.attrib["cx"]), -float(element.attrib["cy"])), float(element.attrib["r"]))
    path = element.get("d") or ""
    return Contour(_rows(path)).ccw() if path.endswith("Z") else None


def _rows(path: str) -> FloatArray:
    """The vertices (n, 3) of a closed path of M, L, A and Z; what returns to the start ends no new row."""
    tokens = _TOKEN.findall(path)
    rows: list[list[float]] = []
    at = 0
    while tokens[at] != "Z":
        count = 7 if tokens[at] == "A" else 2
        values = [float(token) for token in tokens[at + 1 : at + 1 + count]]
        x, y = values[-2], -values[-1]
        if tokens[at] == "A":
            rows[-1][2] = _bulge(rows[-1], (x, y), values[0], values[4] == 0)
        rows.append([x, y, 0.0])
        at += 1 + count
    return np.array(rows[:-1] if rows[-1][:2] == rows[0][:2] else rows)


def _bulge(start: list[float], end: tuple[float, float], radius: float, ccw: bool) -> float:
    """Bulge of an arc of less than half a turn: its chord is 2 r sin(angle / 2)."""
    half = asin(min(hypot(end[0] - start[0], end[1] - start[1]) / (2 * radius), 1.0))
    return tan(half / 2) if ccw else -tan(half / 2)
