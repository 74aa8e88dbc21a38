"""Parts put together: what stands where, with the work among it."""

from __future__ import annotations

from collections.abc import Mapping

from geometry.plane.contour import Contour
from geometry.records import Record
from jigs.parts.part import Part

Vector = tuple[float, float, float]
ALONG, ACROSS, UP = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


class Place(Record):
    """Where a part's origin is in an assembly (mm), and which way its x and y run there; its z is x times y.

    A plate's z goes through its thickness; a turned part's is its axis. `x` and `y` are square to each other, of
    length 1.
    """

    origin: Vector = (0.0, 0.0, 0.0)
    x: Vector = ALONG
    y: Vector = ACROSS


class Assembly(Record):
    """Solids in their places. `name` is that of its file, `title` what people call it."""

    name: str
    title: str
    members: tuple[tuple[Part, Place], ...]


Places = Mapping[str, tuple[Place, ...]]


def put_together(
    name: str, title: str, parts: Mapping[str, Part], places: Places, work: tuple[tuple[Part, Place], ...]
) -> tuple[Assembly, ...]:
    """The assembly, if the set has all of these parts as they are planned; none where one is made otherwise.

    `places` are each part's by its name, one for each piece.
    """
    if not all(_as_planned(parts.get(part)) for part in places):
        return ()
    jigs = tuple((parts[part], place) for part, own in places.items() for place in own)
    return (Assembly(name, title, (*jigs, *work)),)


def _as_planned(part: Part | None) -> bool:
    """Cut or turned; a pad keeps its thickness however it is made, what else is printed has another than planned."""
    return part is not None and (part.process in ("cut", "turn") or (part.jig.made_up and part.thickness > 0))


def plate_of_work(name: str, outline: Contour, thickness: float, holes: tuple[Contour, ...] = ()) -> Part:
    """Wood of the work, flat on both faces; it is no jig and in no rack."""
    return Part(name, "the work", "cut", "the work's wood", outline, thickness, holes)


def wedge_of_work(
    name: str, outline: Contour, wedge: float, holes: tuple[Contour, ...] = (), turned: Contour | None = None
) -> Part:
    """Wood of the work between two planes that meet in the axis: x is the radius, y the height, straight edges.

    It ends where the section does to which it is turned already.
    """
    return Part(name, "the work", "cut", "the work's wood", outline, 1.0, holes, wedge=wedge, turned=turned)


def turned_work(name: str, section: Contour) -> Part:
    """Wood of the work, turned to a section: x is the radius, y the height."""
    return Part(name, "the work", "turn", "the work's wood", section, 0.0)
