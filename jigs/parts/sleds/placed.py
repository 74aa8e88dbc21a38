"""Where the parts of sleds stand in an assembly: upright plates, hold-downs on them, runners; all of it mirrored.

A sled's frame is its layout's, z up from the top of its base.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from math import hypot

from geometry.hardware.hold_down import HoldDown
from geometry.hardware.sled_sizes import BATTEN
from geometry.records import Record
from jigs.parts.assembly import ACROSS, ALONG, UP, Place, Places, Vector
from jigs.parts.part import Part, Point

LEFT: Vector = (-1.0, 0.0, 0.0)


class Upright(Record):
    """A plate that stands on the base: its coordinates' origin on the face towards the wood, which way its x runs
    there, and the way from that face into the plate."""

    face: Vector
    along: Vector
    inward: Vector
    sheet: float

    @property
    def place(self) -> Place:
        return _standing(self.face, self.along, self.inward, self.sheet)

    def at(self, along: float, up: float, inward: float = 0.0) -> Vector:
        """A place on its face, or so far into it."""
        return _moved(_moved(self.face, self.along, along), self.inward, inward, up)


class HeldBy(Record):
    """The parts of one hold-down by name; no fingers where the slide's own edge bears."""

    slide: str
    cam: str
    lever: str
    finger: str = ""


def hold_down(on: Upright, hold: HoldDown, start: float, wood: float, names: HeldBy, *, back: bool = False,
              lever_back: bool | None = None) -> Places:  # fmt: skip
    """Slide, fingers, cam and lever, level. `start` is the slide's end nearest the blade along the plate; with `back`
    it runs on against the plate's x, and so does the lever unless `lever_back` is given. The wood is as thick as the
    thickest that it is made for, or thinner by less than a STEP."""
    way = _times(on.along, -1.0 if back else 1.0)
    sign = -1.0 if back else 1.0
    outward = _times(on.inward, -1.0)
    t = hold.sheet
    slide = _standing(on.at(start, wood + hold.gap), way, outward, t)
    pivot = start + sign * hold.middle
    lever = way if lever_back is None else _times(on.along, -1.0 if lever_back else 1.0)
    up = wood + hold.gap + hold.pivot
    fingers = tuple(
        _standing(on.at(start + sign * x, wood), outward, way, t) for x in (hold.feet if names.finger else ())
    )
    return {
        names.slide: (slide,),
        names.cam: (_standing(on.at(pivot, up), lever, on.inward, t),),
        names.lever: (_standing(on.at(pivot, up, t), lever, on.inward, t),),
        **({names.finger: fingers} if fingers else {}),
    }


def runner(slot: tuple[float, float], low: float, sheet: float, part: Part | None) -> tuple[Place, ...]:
    """In the middle of the mitre slot, from y = `low` on, under the base; nothing where there is none."""
    if part is None:
        return ()
    _, _, _, wide = part.outline.bounds
    return (Place(((sum(slot) + wide) / 2, low, -sheet - part.thickness), ACROSS, LEFT),)


def batten(edge: tuple[Point, Point], sheet: float) -> Place:
    """Under the base, its upper edge as drawn on the line that meets the table."""
    (x0, y0), (x1, y1) = edge
    long = hypot(x1 - x0, y1 - y0)
    c, s = (x1 - x0) / long, (y1 - y0) / long
    return Place((x0 + s * BATTEN, y0 - c * BATTEN, -2 * sheet), (c, s, 0.0), (-s, c, 0.0))


def layers(part: Part | None) -> tuple[Place, ...]:
    """A stack of all its plates on the base, drawn in its coordinates; nothing where there is none."""
    return tuple(Place((0.0, 0.0, k * part.thickness)) for k in range(part.quantity)) if part else ()


def handle(left: float, face: float) -> tuple[Place, ...]:
    """Along x, from its left end on; y of the face away from the operator."""
    return (Place((left, face, 0.0), ALONG, UP),)


def joined(several: Sequence[Places]) -> dict[str, tuple[Place, ...]]:
    """All of them; a part that several name has all of its places."""
    found: dict[str, tuple[Place, ...]] = {}
    for one in several:
        for name, places in one.items():
            found[name] = (*found.get(name, ()), *places)
    return found


def mirrored(places: Places, parts: Mapping[str, Part], handed: Collection[str]) -> Places:
    """Everything with x turned to -x. `handed` parts are drawn mirrored already; of others both faces are alike."""
    return {
        name: tuple(turned_over(place, parts[name].thickness, name in handed) for place in own)
        for name, own in places.items()
        if name in parts
    }


def turned_over(place: Place, thickness: float, handed: bool) -> Place:
    """A plate's place in the mirrored assembly."""
    origin, x, y = (_across(one) for one in (place.origin, place.x, place.y))
    if handed:
        return Place(origin, _times(x, -1.0), y)
    through = _across(cross(place.x, place.y))
    return Place(_moved(origin, through, thickness), x, y)


def cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _standing(corner: Vector, x: Vector, into: Vector, thickness: float) -> Place:
    """A plate with its y up, from this corner of one face on, its thickness going this way."""
    through = cross(x, UP)
    same = sum(a * b for a, b in zip(through, into, strict=True)) > 0
    return Place(corner if same else _moved(corner, into, thickness), x, UP)


def _moved(place: Vector, way: Vector, by: float, up: float = 0.0) -> Vector:
    return (place[0] + by * way[0], place[1] + by * way[1], place[2] + by * way[2] + up)


def _times(way: Vector, by: float) -> Vector:
    return (by * way[0], by * way[1], by * way[2])


def _across(one: Vector) -> Vector:
    return (-one[0], one[1], one[2])
