"""Polylines and splines of a plain DXF drawing by their tags, without ezdxf: loading it takes a fifth of a check.

Plain is what needs no more than the DXF reference's ENTITIES section of any file since R2000. What is not is left to
ezdxf, which reads it or says what is wrong: another entity, tag, order or version, a block, a letter beyond ASCII.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise, takewhile
from math import log10
from re import fullmatch

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.records import Record

Tag = tuple[int, str]

_VERSIONS = ("AC1015", "AC1018", "AC1021", "AC1024", "AC1027", "AC1032")  # R2000 to R2018
_NAMES = {"LWPOLYLINE": "AcDbPolyline", "SPLINE": "AcDbSpline"}
# group codes
_LOOKS = {62, 370, 420, 440}
_OF_KIND = {
    "LWPOLYLINE": {90, 70, 43, 10, 20, 42},
    "SPLINE": {210, 220, 230, 70, 71, 72, 73, 74, 42, 43, 44, 40, 41, 10, 20, 30},
}
_LETTERS = {"LWPOLYLINE": {10: "x", 20: "y", 42: "b"}, "SPLINE": {10: "x", 20: "y", 30: "z"}}
_UPWARD = {210: [0.0], 220: [0.0], 230: [1.0]}
_TOLERANCE = 1e-10  # of knots, where the file gives none


class Polyline(Record, eq=False):
    """Rows (n, 3) of x, y and bulge."""

    layer: str
    closed: bool
    rows: FloatArray


class Spline(Record, eq=False):
    """Control points (n, 3), their weights (n,), knots and degree."""

    layer: str
    closed: bool
    points: FloatArray
    weights: FloatArray
    knots: FloatArray
    degree: int


def plain_drawing(content: bytes) -> tuple[int, list[Polyline | Spline]] | None:
    """Its $INSUNITS and what stands in its model space; None where it is not plain."""
    try:
        sections = _sections(content.decode("ascii").replace("\r\n", "\n"))
        header = {name: value for (code, name), value in pairwise(sections["HEADER"]) if code == 9}
        _insist(header["$ACADVER"][1] in _VERSIONS and header["$INSUNITS"][0] == 70)
        _insist(all(code != 0 for code, _ in sections["HEADER"]))
        _insist(all(kind in ("BLOCK", "ENDBLK") for code, kind in sections["BLOCKS"] if code == 0))
        return int(header["$INSUNITS"][1]), [_entity(own) for own in _each(sections["ENTITIES"])]
    except (ValueError, KeyError, IndexError):
        return None


def _insist(plain: bool) -> None:
    if not plain:
        raise ValueError


def _sections(text: str) -> dict[str, list[Tag]]:
    _insist("\r" not in text and text.endswith("\n"))
    lines, found = text.split("\n")[:-1], dict[str, list[Tag]]()
    tags = [(int(code), value) for code, value in zip(lines[::2], lines[1::2], strict=True)]
    _insist(tags.pop() == (0, "EOF") and tags[-1] == (0, "ENDSEC"))
    rest = iter(tags)
    for tag in rest:
        code, name = next(rest, (0, ""))
        _insist(tag == (0, "SECTION") and code == 2 and name not in found)
        found[name] = list(takewhile(lambda tag: tag != (0, "ENDSEC"), rest))
    return found


def _each(tags: list[Tag]) -> Iterator[list[Tag]]:
    """The tags of one entity after another."""
    starts = [k for k, (code, _) in enumerate(tags) if code == 0]
    _insist(starts[:1] == [0][: len(tags)])
    for start, end in pairwise([*starts, len(tags)]):
        yield tags[start:end]


def _entity(tags: list[Tag]) -> Polyline | Spline:
    kind = tags[0][1]
    common, own = (k for k, tag in enumerate(tags) if tag in ((100, "AcDbEntity"), (100, _NAMES[kind])))
    for code, value in tags[1:common]:
        _insist(code in (5, 330) and int(value, 16) > 0)
    (layer,) = (value for code, value in tags[common + 1 : own] if code == 8)
    for code, value in tags[common + 1 : own]:
        _insist(code in (6, 8) or (code in _LOOKS and int(value) < 2**31))
    _insist(fullmatch(r"[\w-]+( [\w-]+)*", layer) is not None)
    order, values = "", dict[int, list[float]]()
    for code, value in tags[own + 1 :]:
        _insist(code in _OF_KIND[kind])
        order += _LETTERS[kind].get(code, "-")
        values.setdefault(code, []).append(int(value) if 60 <= code <= 99 else float(value))
    (flags,) = values.get(70, [0.0])
    return (_polyline if kind == "LWPOLYLINE" else _spline)(layer, bool(int(flags) & 1), order, values)


def _polyline(layer: str, closed: bool, order: str, values: dict[int, list[float]]) -> Polyline:
    _insist(fullmatch("-*(xyb?){2,}-*", order) is not None)
    bulges = iter(values.get(42, []))
    each = [next(bulges) if "b" in vertex else 0.0 for vertex in order.split("x")[1:]]
    return Polyline(layer, closed, np.column_stack((values[10], values[20], each)))


def _spline(layer: str, closed: bool, order: str, values: dict[int, list[float]]) -> Spline:
    """Knots are rounded to their tolerance, as ezdxf does it."""
    count, (degree,) = len(values[10]), values[71]
    (tolerance,) = values.get(42, [_TOLERANCE])
    digits = -int(log10(tolerance))
    _insist(fullmatch("-*(xyz)+-*", order) is not None)
    _insist(all(values.get(code, up) == up for code, up in _UPWARD.items()))
    _insist(degree == int(degree) >= 1 and count > degree and digits > 0)
    knots, weights = [round(knot, digits) for knot in values[40]], values.get(41, [1.0] * count)
    _insist(len(weights) == count and len(knots) == count + degree + 1 and knots[0] == 0.0)
    points = np.column_stack((values[10], values[20], values[30]))
    return Spline(layer, closed, points, np.array(weights), np.array(knots), int(degree))
