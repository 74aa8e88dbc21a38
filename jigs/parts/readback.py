"""What was read back from a written file, held against the part it was written from."""

from __future__ import annotations

from math import degrees

from geometry.plane.contour import Contour
from geometry.readback.measure import edge_angle, edge_gap, edge_length, extent, hole_diameter, radius_at
from geometry.records import Record
from jigs.parts import probes
from jigs.parts.part import Dimension, Part

ANGLE_TOLERANCE = 0.001  # degrees


class MeasureError(ValueError):
    """A written file does not measure what its part should."""


class ReadBack(Record):
    """A file's contours, outline first (counter-clockwise, holes clockwise), and what it should keep to.

    `thickness` is None where the format has none; `tolerance` is in mm.
    """

    contours: tuple[Contour, ...]
    thickness: float | None
    tolerance: float


class Measured(Record):
    """A dimension as asked for and as found in the file, in mm or degrees."""

    name: str
    nominal: float
    measured: float
    unit: str


def measure(part: Part, readback: ReadBack) -> tuple[Measured, ...]:
    """Measure every dimension of a part that its file has.

    Raises MeasureError, naming part and dimension, where the file is off by more than its tolerance (lengths,
    and every vertex and chord middle of a working arc) or ANGLE_TOLERANCE, or lacks the edge to be measured.
    """
    return tuple(
        _checked(part, dimension, readback)
        for dimension in part.dimensions
        if not (isinstance(dimension.probe, probes.Thickness) and readback.thickness is None)
    )


def _checked(part: Part, dimension: Dimension, readback: ReadBack) -> Measured:
    try:
        found, stray = _found(dimension, readback)
    except ValueError as error:
        raise MeasureError(f"{part.name}: {dimension.name}: {error}") from error
    off = abs(found - dimension.value)
    angular = dimension.unit == "deg"
    if not off <= (ANGLE_TOLERANCE if angular else readback.tolerance) or stray > readback.tolerance:
        raise MeasureError(
            f"{part.name}: {dimension.name} should be {dimension.value:.6g} {dimension.unit} "
            f"and measures {found:.6g}" + (f", its arc strays by {stray:.4g} mm" if stray else "")
        )
    return Measured(dimension.name, dimension.value, found, dimension.unit)


def _found(dimension: Dimension, readback: ReadBack) -> tuple[float, float]:
    """Return the dimension as measured, and how far a working arc strays from its circle."""
    contours = readback.contours
    match dimension.probe:
        case probes.ArcRadius(centre, start, end):
            fit = radius_at(contours, centre, start, end, dimension.value)
            return fit.radius, fit.worst
        case probes.EdgeAngle(first, second):
            return degrees(edge_angle(contours, first, second)), 0.0
        case probes.EdgeGap(first, second):
            return edge_gap(contours, first, second), 0.0
        case probes.EdgeLength(point):
            return edge_length(contours, point), 0.0
        case probes.HoleDiameter(centre):
            return hole_diameter(contours, centre), 0.0
        case probes.ProfileForm(rows):  # of gauges of a vessel only
            from geometry.plane.profile import profile
            from geometry.readback.edge_form import edge_form

            return edge_form(contours, profile(*rows)), 0.0
        case probes.Extent(axis):
            return extent(contours[:1], axis), 0.0
        case probes.Thickness():
            return readback.thickness or 0.0, 0.0
