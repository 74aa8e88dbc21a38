"""The torus in each of its mountings, by the statics of `geometry.statics.lathe_holding`.

z is measured from the tube's centre, away from the faceplate's board. Lengths mm, forces N.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, sin

from geometry.bodies.tube import Tube
from geometry.lathe.turning import Channel, Retainer
from geometry.records import Record
from geometry.statics.contacts import Clamp, Contact
from geometry.statics.holding import LOW_FRICTION
from geometry.statics.lathe_holding import (
    LatheHolding,
    Section,
    ToolPlace,
    Weight,
    at_lathe,
    glued,
    pressed,
    seat,
)

OUT, IN, UP, DOWN = (1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)


class HeldTorus(Record):
    """What the mountings' statics follow from."""

    channel: Channel
    retainer: Retainer
    rough: Tube  # with its allowance
    flat_height: float  # of the waste flat over the tube's centre
    flat: float  # its width
    flat_centre: float  # radius of its middle
    rim: float  # radius to which the old board is turned away
    normal: float  # of the retainer's pull, pressing on the rim
    braces: int
    brace_at: float  # radius at which a brace's finger presses
    brace_share: float  # of its bolt's pull that its finger presses with
    glue: float  # N/mm² that is allowed
    pull: float  # N of one bolt
    blank: float  # N that the blank weighs
    board: Weight  # of the old board, z from the tube's centre towards it

    @property
    def alone(self) -> Weight:
        """Of the work without its old board, nothing turned off yet."""
        return Weight(self.blank, 0.0)

    @property
    def with_board(self) -> Weight:
        both = self.blank + self.board.newtons
        return Weight(both, self.board.newtons * self.board.z / both)


@lru_cache(maxsize=64)
def torus_holdings(torus: HeldTorus) -> tuple[LatheHolding, ...]:
    """Mountings A to D, in the order of the work."""
    return (_on_flat(torus), _reversed(torus), _braced(torus), _drawn(torus))


def _tube(torus: HeldTorus, angle: float) -> Section:
    """A place on the rough tube, its angle from the rim towards the tailstock."""
    x, y = torus.rough.at(angle)
    return (torus.channel.major + x, y)


def _on_flat(torus: HeldTorus) -> LatheHolding:
    strength = 2 * pi * torus.flat_centre * torus.flat * torus.glue
    contacts, clamps = glued(torus.flat_centre, -torus.flat_height, strength)
    tools = [
        ToolPlace("face", _tube(torus, pi / 2), DOWN),
        ToolPlace("rim", _tube(torus, 0.0), IN),
        ToolPlace("hole", _tube(torus, pi), OUT),
    ]
    return at_lathe("A", contacts, clamps, tools, strength * torus.flat_centre, weight=torus.alone)


def _reversed(torus: HeldTorus) -> LatheHolding:
    """On the retainer, which now stands on the faceplate; the bolt pulls the old board, glued to the waste flat."""
    contacts: list[Contact] = []
    for z in (torus.retainer.band_low, torus.retainer.band_high):
        slope = torus.retainer.hollow.angle_at_height(z)
        contacts += seat([(torus.retainer.radius_at(z), -z)], (cos(slope), sin(slope)), "retainer")
    bolt = Clamp((0.0, 0.0, torus.flat_height), (0.0, 0.0, -1.0), torus.pull, "bolt")
    tools = [ToolPlace("old board's rim", (torus.rim, torus.flat_height), IN)]
    return at_lathe("B", contacts, [bolt], tools, _rim_grip(torus), torus.pull, weight=torus.with_board)


def _rim_grip(torus: HeldTorus) -> float:
    """Torque that low friction stands where the retainer's band presses, at its least radius."""
    return LOW_FRICTION * torus.normal * torus.pull * torus.retainer.radius_at(torus.retainer.band_low)


def _in_channel(torus: HeldTorus) -> list[Contact]:
    """Both flanks, from the relief up to the board's face."""
    channel, found = torus.channel, []
    for angle in (channel.hollow.lean_at_width(channel.relief_width / 2), channel.half_angle):
        x, y = channel.hollow.over(angle)
        for side in (-1, 1):
            place = (channel.major + side * x, -y)
            found += seat([place], (-side * sin(angle), cos(angle)), "channel")
    return found


def _braced(torus: HeldTorus) -> LatheHolding:
    """The work lies the other way up: the waste flat is towards the tailstock."""
    force = torus.braces * torus.brace_share * torus.pull
    fingers = pressed((torus.brace_at, torus.flat_height), DOWN, force, "braces", torus.braces)
    tools = [ToolPlace("hole", _tube(torus, pi), OUT), ToolPlace("hole side", _tube(torus, 3 * pi / 4), DOWN)]
    grip = LOW_FRICTION * force * (torus.brace_at + torus.channel.major)
    return at_lathe("C", _in_channel(torus), fingers, tools, grip, torus.pull, weight=torus.alone)


def _drawn(torus: HeldTorus) -> LatheHolding:
    z = (torus.retainer.band_low + torus.retainer.band_high) / 2
    slope = torus.retainer.hollow.angle_at_height(z)
    band = (torus.retainer.radius_at(z), z)
    clamps = pressed(band, (cos(slope), -sin(slope)), torus.normal * torus.pull, "retainer")
    tools = [
        ToolPlace("rim", _tube(torus, 0.0), IN),
        ToolPlace("waste flat", (torus.flat_centre, torus.flat_height), DOWN),
    ]
    grip = _rim_grip(torus) + LOW_FRICTION * torus.pull * torus.channel.major
    return at_lathe("D", _in_channel(torus), clamps, tools, grip, torus.pull, weight=torus.alone)
