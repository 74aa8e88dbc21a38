"""Parts mirrored left to right: drawn for a saw whose blade tilts the other way. Lettering stays readable."""

from __future__ import annotations

from geometry.plane.contour import Contour
from geometry.records import replace
from jigs.parts.part import Dimension, Line, Mark, Part, Point, Words
from jigs.parts.probes import EdgeAngle, EdgeGap, EdgeLength, Extent, HoleDiameter, Probe, Thickness

ARROWS = str.maketrans("←→", "→←")


def mirrored(part: Part) -> Part:
    """The part with x turned to -x. Raises TypeError for a mark or probe that carriers do not have."""
    return replace(
        part,
        outline=_turned(part.outline).ccw(),
        holes=tuple(_turned(hole).cw() for hole in part.holes),
        marks=tuple(_mark(mark) for mark in part.marks),
        words=tuple(_words(words) for words in part.words),
        dimensions=tuple(Dimension(d.name, d.value, _probe(d.probe)) for d in part.dimensions),
    )


def _turned(contour: Contour) -> Contour:
    return contour.mirrored()


def _at(point: Point) -> Point:
    return (-point[0], point[1])


def _mark(mark: Mark) -> Mark:
    if isinstance(mark, Line):
        return replace(mark, points=tuple(_at(p) for p in mark.points))
    raise TypeError("lettering that has its place cannot be mirrored")


def _words(words: Words) -> Words:
    return replace(
        words,
        area=_turned(words.area).ccw(),
        holes=tuple(_turned(hole) for hole in words.holes),
        lines=tuple(replace(line, points=tuple(_at(p) for p in line.points)) for line in words.lines),
        choices=tuple(tuple(row.translate(ARROWS) for row in choice) for choice in words.choices),
        near=None if words.near is None else _at(words.near),
    )


def _probe(probe: Probe) -> Probe:
    if isinstance(probe, Extent | Thickness):
        return probe
    if isinstance(probe, HoleDiameter):
        return HoleDiameter(_at(probe.centre))
    if isinstance(probe, EdgeLength):
        return EdgeLength(_at(probe.point))
    if isinstance(probe, EdgeGap):
        return EdgeGap(_at(probe.first), _at(probe.second))
    if isinstance(probe, EdgeAngle):
        return EdgeAngle(_at(probe.first), _at(probe.second))
    raise TypeError(f"{type(probe).__name__} cannot be mirrored")
