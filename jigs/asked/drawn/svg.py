"""The lines of an SVG drawing, by svgelements, which only a job with a drawing loads."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import numpy as np

from geometry.plane.edges import FloatArray
from jigs.asked.drawn.bezier import bezier, elliptic_pieces
from jigs.asked.drawn.strokes import Part, Sheet, Stroke, judged, unit_disagrees, unit_unknown, unreadable
from jigs.asked.key import Wrong
from jigs.words.lengths import MM_PER_INCH, Unit, parse_length

PPI = 96.0  # a CSS inch is 96 px
MM: dict[str, float] = {
    "mm": 1.0,
    "cm": 10.0,
    "in": MM_PER_INCH,
    "pt": MM_PER_INCH / 72.0,
    "pc": MM_PER_INCH / 6.0,
    "px": MM_PER_INCH / PPI,
}
NO_LAYER = "(none)"
_LABEL = "{http://www.inkscape.org/namespaces/inkscape}label"
_SIZE = re.compile(r"\s*([0-9.]+(?:[eE][+-]?[0-9]+)?)\s*([a-z]+)\s*")
_ROUND = 1e-6  # share of the radius: an arc that is no farther from round is round
_SAME = 1e-4  # share: scales no farther apart are one


def read_svg(path: Path, unit: Unit | None) -> Sheet:
    """Every line that shows, in mm, y up. `unit` is the job's, for a drawing without a physical size.

    Raises Wrong where its unit is unknown or not the job's, and whatever svgelements does where it cannot read.
    """
    from svgelements import SVG

    refuse_too_large(path)
    document = SVG.parse(str(path), reify=False, ppi=PPI)
    if not isinstance(document, SVG):
        raise unreadable(path)
    attributes = document.values["attributes"]
    mm, said = _unit(attributes, unit)
    to_user = np.linalg.inv(_matrix(document.viewbox_transform))
    to_mm = np.diag((mm, -mm, 1.0)) @ to_user
    found = list(_shapes(document, ()))
    strokes = [stroke for names, shape in found for stroke in _strokes(names, shape, to_mm)]
    others = [(names[0], _tag(shape)) for names, shape in found if not _is_line(shape)]
    inches = bool(attributes.get("width", "").strip().endswith("in")) or (unit == "in")
    return Sheet(tuple(strokes), mm, said, inches, tuple(others))


def _unit(attributes: dict[str, str], unit: Unit | None) -> tuple[float, str]:
    """The user unit in mm, and where it comes from."""
    sizes = [_size(attributes.get(side, "")) for side in ("width", "height")]
    scales = [_scale(size, k, attributes.get("viewBox")) for k, size in enumerate(sizes) if size]
    if not scales and unit is None:
        raise unit_unknown("its width and height have no unit")
    if not scales and unit is not None:
        return parse_length(1.0, unit), f"{unit} (from the job; the drawing's width and height have no unit)"
    if max(scales) > min(scales) * (1.0 + _SAME):
        message = f"the drawing has two scales, {scales[0]:.6g} mm a unit across and {scales[1]:.6g} mm up"
        raise Wrong("two-scales", message, "Make the page's width and height those of its viewBox")
    said = f"{scales[0]:.6g} mm (from the drawing's width, height and viewBox)"
    if unit is not None and abs(scales[0] / parse_length(1.0, unit) - 1.0) > _SAME:
        raise unit_disagrees(f"{scales[0]:.6g} mm (width, height and viewBox)", unit)
    return scales[0], said


def _size(text: str) -> tuple[float, float] | None:
    """Amount and unit in mm of a width or a height; None where it is not a physical one."""
    match = _SIZE.fullmatch(text)
    if match is None or match[2] not in MM or not float(match[1]) > 0.0:
        return None
    return float(match[1]), MM[match[2]]


def _scale(size: tuple[float, float], side: int, viewbox: str | None) -> float:
    if viewbox is None:
        return MM["px"]  # without a viewBox a user unit is a px, whatever the page's size
    numbers = [float(item) for item in re.split(r"[\s,]+", viewbox.strip())]
    return size[0] * size[1] / numbers[2 + side]


def _shapes(group: Any, above: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """What shows: each with the names it goes by, its groups' from the outermost, its own last."""
    from svgelements import GraphicObject, Group, Use

    for element in group:
        names = (*above, *_names(element))
        if isinstance(element, Group | Use):
            yield from _shapes(element, names)
        elif isinstance(element, GraphicObject):
            yield names if above else (NO_LAYER, *names), element


def _names(element: Any) -> list[str]:
    own = element.values.get("attributes", {})
    return [own[key] for key in (_LABEL, "id") if own.get(key)]


def _tag(element: Any) -> str:
    return str(element.values.get("attributes", {}).get("tag", type(element).__name__))


def _is_line(element: Any) -> bool:
    from svgelements import Shape

    return isinstance(element, Shape)


def _strokes(names: tuple[str, ...], shape: Any, to_mm: FloatArray) -> Iterator[Stroke]:
    """One stroke for each stretch that the pen draws without being lifted."""
    if not _is_line(shape):
        return
    from svgelements import Close, Path

    path = Path(shape)
    matrix = (to_mm @ _matrix(path.transform))[:2]
    for stretch in path.as_subpaths():
        drawn = [segment for segment in stretch if type(segment).__name__ != "Move"]
        parts = tuple(part for segment in drawn for part in _parts(segment, matrix))
        if parts:
            yield judged(names, _tag(shape), parts, any(isinstance(segment, Close) for segment in drawn))


def _parts(segment: Any, matrix: FloatArray) -> list[Part]:
    from svgelements import Arc, CubicBezier, QuadraticBezier

    if isinstance(segment, Arc):
        return _arc(segment, matrix)
    if isinstance(segment, CubicBezier):
        return [bezier(_mapped((segment.start, segment.control1, segment.control2, segment.end), matrix))]
    if isinstance(segment, QuadraticBezier):
        return [bezier(_mapped((segment.start, segment.control, segment.end), matrix))]
    a, b = _mapped((segment.start, segment.end), matrix)
    return [np.array(((*a, 0.0), (*b, 0.0)))]


def _arc(arc: Any, matrix: FloatArray) -> list[Part]:
    """Round after the map: one bulge, its sign turned where the map mirrors. Else the pieces of an ellipse."""
    centre, a, b, start, end = _mapped((arc.center, arc.prx, arc.pry, arc.start, arc.end), matrix)
    p, q = a - centre, b - centre
    size = float(np.hypot(*p))
    if abs(np.hypot(*q) - size) <= _ROUND * size and abs(p @ q) <= _ROUND * size**2:
        side = math.copysign(1.0, float(np.linalg.det(matrix[:, :2])))
        return [np.array(((*start, side * math.tan(arc.sweep / 4.0)), (*end, 0.0)))]
    cos, sin = np.linalg.solve(np.column_stack((p, q)), start - centre)
    return [*elliptic_pieces(centre, p, q, math.atan2(sin, cos), float(arc.sweep))]


def _mapped(points: tuple[Any, ...], matrix: FloatArray) -> FloatArray:
    plain = np.array([(point.x, point.y) for point in points], dtype=np.float64)
    return np.asarray(plain @ matrix[:, :2].T + matrix[:, 2])


def _matrix(transform: Any) -> FloatArray:
    from svgelements import Matrix

    m = Matrix(transform)
    return np.array(((m.a, m.c, m.e), (m.b, m.d, m.f), (0.0, 0.0, 1.0)))


MOST_DRAWN = 20_000  # elements: a profile is one line
_HREF = ("href", "{http://www.w3.org/1999/xlink}href")


def refuse_too_large(path: Path) -> None:
    """Raise Wrong where elements that use each other come to very many, or to no end; what cannot be read passes."""
    try:
        root = ElementTree.parse(path).getroot()
    except (ElementTree.ParseError, OSError, ValueError):
        return  # the reader that comes next says what is wrong
    named = {name: element for element in root.iter() if (name := element.get("id"))}
    drawn = _drawn(root, named)
    if drawn is None or drawn > MOST_DRAWN:
        many = "no end" if drawn is None else f"{drawn} elements"
        message = f"{path.name} draws {many}: elements in it use each other"
        raise Wrong("too-large", message, "Draw the profile as one plain line, without copies of copies")


def _drawn(root: ElementTree.Element, named: dict[str, ElementTree.Element]) -> int | None:
    """How many elements are drawn, None without end; each element is counted once it is known, without recursion."""
    known: dict[ElementTree.Element, int] = {}
    open_: set[ElementTree.Element] = set()
    waiting = [root]
    while waiting:
        element = waiting[-1]
        if element in known:
            waiting.pop()
            continue
        inside = _inside(element, named)
        missing = [one for one in inside if one not in known]
        if not missing:
            known[element] = 1 + sum(known[one] for one in inside)
            open_.discard(element)
            waiting.pop()
        elif element in open_:
            return None  # what it waits for waits for it
        else:
            open_.add(element)
            waiting += missing
    return known[root]


def _inside(element: ElementTree.Element, named: dict[str, ElementTree.Element]) -> list[ElementTree.Element]:
    """Its children, and what it uses."""
    found = list(element)
    if str(element.tag).rpartition("}")[2] == "use":
        target = next((element.get(key, "") for key in _HREF if element.get(key)), "")
        used = named.get(target.removeprefix("#"))
        found += [used] if used is not None else []
    return found
