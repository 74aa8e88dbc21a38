"""What holds work at the lathe, by statics.

z is the spindle's axis, from the faceplate towards the tailstock; radii from it. Work that is turned round is held
lengthwise, across and against tipping by what touches it, friction not counted. Against turning on its seat nothing
round can hold it but friction, taken low, of what the pull is sure to press. All grows with the pull of the one bolt
(or tailstock), so what comes back is the least pull that holds against the tool. The weight of what spins hangs
across the axis, whichever way it has turned, while the tool pushes. Lengths mm, forces N.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, inf, pi, sin, tau

from geometry.records import Record, replace
from geometry.statics.contacts import Clamp, Contact, Load, Vector
from geometry.statics.holding import Holding, hold

# N along the tool's cut, light cuts on a bowl gouge or a scraper: common practice, no source.
TOOL_FORCE = 100.0
CATCH = 1 / 3  # of it, with which the tool may pull away from the wood
# N: a bolt by hand on a short spanner, 4 N m on M8 at a nut factor of 0.25; common practice.
MOST_PULL = 2000.0
_ROUND = 8  # places at which a ring of touch is looked at

Section = tuple[float, float]  # (radius, z)


class ToolPlace(Record):
    """Where the tool cuts: radius, z, and which way it presses on the wood (radial, along z)."""

    what: str
    place: Section
    presses: Section


class Weight(Record):
    """Of what spins: N, and how far along z its middle lies."""

    newtons: float
    z: float


class LatheHolding(Record):
    """One mounting. `seated` is against the tool's pushes; `turning` (N at the tool) against its pull round the axis.

    `pull` is what the bolt or the tailstock was taken to pull with; 0 where there is none (glue).
    """

    mounting: str
    seated: Holding
    turning: float
    pull: float
    most: float = MOST_PULL

    @property
    def strength(self) -> float:
        """The largest force of the tool (N) that moves nothing."""
        return min(self.seated.strength, self.turning)

    @property
    def least_pull(self) -> float:
        """With which the tool moves nothing; infinite where no pull does it."""
        weakest = self.strength
        if weakest <= 0:
            return inf
        return 0.0 if weakest == inf else self.pull * TOOL_FORCE / weakest

    @property
    def held(self) -> bool:
        if self.pull:
            return self.least_pull <= self.most
        return self.strength >= TOOL_FORCE


def seat(places: Sequence[Section], normal: Section, what: str) -> list[Contact]:
    """Touch all round at each place of a section; `normal` (radial, along z) points into the work."""
    return [
        Contact(_at(place, angle), _turned(normal, angle), what)
        for place in places
        for angle in _angles(_ROUND)
    ]


def pressed(place: Section, direction: Section, force: float, what: str, count: int = _ROUND) -> list[Clamp]:
    """A force shared out evenly round the axis."""
    return [
        Clamp(_at(place, angle), _turned(direction, angle), force / count, what) for angle in _angles(count)
    ]


def glued(radius: float, z: float, strength: float) -> tuple[list[Contact], list[Clamp]]:
    """A flat face glued all round: stands any press, and up to `strength` (N) of pull, and as much of shear."""
    contacts = seat([(radius, z)], (0.0, 1.0), "glue")
    clamps = pressed((radius, z), (0.0, -1.0), strength, "glue")
    for angle in _angles(_ROUND):
        place, along = _at((radius, z), angle), (-sin(angle), cos(angle), 0.0)
        contacts.append(Contact(place, along, "glue"))
        clamps.append(Clamp(place, (-along[0], -along[1], 0.0), strength / _ROUND, "glue"))
    return contacts, clamps


def at_lathe(
    mounting: str,
    contacts: Sequence[Contact],
    clamps: Sequence[Clamp],
    tools: Sequence[ToolPlace],
    grip: float,
    pull: float = 0.0,
    most: float = MOST_PULL,
    weight: Weight | None = None,
) -> LatheHolding:
    """The holding of one mounting; `grip` is the torque (N mm) that friction, or glue, stands."""
    seated = hold(contacts, clamps, [load for tool in tools for load in _pushes(tool, weight)], TOOL_FORCE)
    return LatheHolding(mounting, seated, grip / max(tool.place[0] for tool in tools), pull, most)


def _angles(count: int) -> list[float]:
    return [tau * k / count for k in range(count)]


def _at(place: Section, angle: float) -> tuple[float, float, float]:
    return (place[0] * cos(angle), place[0] * sin(angle), place[1])


def _turned(direction: Section, angle: float) -> tuple[float, float, float]:
    return (direction[0] * cos(angle), direction[0] * sin(angle), direction[1])


def _pushes(tool: ToolPlace, weight: Weight | None) -> Iterator[Load]:
    """The tool's press and a catch's pull, and its force across the axis without the turn that comes with it; where
    the touch is looked at, and half-way between. With each the weight that hangs the same way, and the other."""
    for angle in (0.0, pi / _ROUND):
        press, place = _turned(tool.presses, angle), _at(tool.place, angle)
        back = (-CATCH * press[0], -CATCH * press[1], -CATCH * press[2])
        across = (sin(angle), -cos(angle), 0.0)
        out = (cos(angle), sin(angle), 0.0)
        for load, hangs in (
            (Load(place, press, f"{tool.what}, pressed"), out),
            (Load(place, back, f"{tool.what}, pulled by a catch"), out),
            (Load((0.0, 0.0, tool.place[1]), across, f"{tool.what}, pushed across"), across),
        ):
            yield from _hung(load, hangs, weight)


def _hung(load: Load, way: Vector, weight: Weight | None) -> list[Load]:
    if weight is None:
        return [load]
    x, y, z = way
    shares = (weight.newtons / TOOL_FORCE, -weight.newtons / TOOL_FORCE)
    return [replace(load, also=((0.0, 0.0, weight.z), (share * x, share * y, share * z))) for share in shares]
