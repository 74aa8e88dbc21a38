"""Holding the vessel by its mouth while the foot is turned."""

from __future__ import annotations

from math import tan
from typing import Literal

from geometry.hardware.fittings import Screws, bolt_diameter
from geometry.lathe.turning import rough_speed_limits
from geometry.plane.profile import Profile
from geometry.records import Record
from jigs.stages.held.strength import most_torque, nut_torque

# Common practice, no source, all of them; mm.
LEAST_REACH = 5.0  # into the mouth, and least length of a band


Way = Literal["taper", "inside", "bolt"]
Fault = Literal[
    "flared",  # found: lean next to the mouth, works: the taper; radians
    "slips",  # the taper, and the most that jams; radians
    "shallow",  # depth of the inside
    "slim",  # diameter of the plug
    "swing",  # of the lathe
    "flat-inside",  # length of the longest stretch that leans as it must
    "narrow-mouth",  # diameter of the mouth
    "no-hole",  # diameter of the hole in the floor
    "stem",  # diameter of the stem that a bolt would go through, and of its hole
    "floats",  # the base, which a bolt would go through
    "no-washer",  # diameter of the washer
    "loose",  # N of the tool that the plug holds, pressed as hard as it may be, and what is needed
    "splits",  # N of push that the joints round a closed mouth stand, and what is needed
    "thin-floor",  # N that the floor stands under a bolt's washer or the tailstock's point, and what is needed
    "open",  # N of push that the glue faces of open segments stand, and what is needed
]


class Barred(Record):
    """Why the vessel is not held in one way: the number found, and the nearest that works."""

    way: Way
    fault: Fault
    found: float
    works: float


class PlugBolt(Record):
    """The one bolt through the floor."""

    thread: str
    length: float  # least, under the head
    washer: float  # diameter of the washer under the foot


class MouthPlug(Record, eq=False):
    """The plug as it sits in the mouth: heights are the vessel's, radii from the axis, the faceplate above."""

    way: Way
    bearing: Profile  # the plug's side where it bears, from the tip up
    gauge_edge: Profile  # of the gauge for that side
    low: float  # heights at which it bears on the wood
    high: float
    tip: float  # height of its front face, the deepest
    face: float  # height of the flange's front
    back: float  # height of the flange's back, on the faceplate
    flange: float  # radius
    stands: bool  # the rim stands on the flange
    press: float  # from where the taper jams to where the rim stands
    slope: float  # of the bearing, radians off the axis
    normal_force: float  # for each unit of push along the axis
    spread: float
    sticks: bool  # stays wedged when it is let go
    layer_thickness: float
    back_layers: int  # discs of the flange
    back_blank: float  # their diameter
    front_layers: int
    front_blank: float
    hole: float  # diameter, in the middle of every disc: the bolt's, or a pin's that lines them up
    bolt: PlugBolt | None
    screws: Screws  # of its faceplate, into the flange
    centre_recess: float  # diameter of the tailstock point's recess in the foot; 0 where it is padded
    centre_depth: float
    least_push: float = 0.0  # N, of the bolt or the tailstock, with which it holds against the tool
    most_push: float = 0.0  # N, that its joints stand, or that a hand draws at most
    hoop: float = 0.0  # N/mm² round the mouth under that push; 0 where it spreads nothing
    hoop_allowed: float = 0.0

    @property
    def speed(self) -> tuple[int, int]:
        """rpm, of the disc that its flange is turned from."""
        return rough_speed_limits(self.back_blank)

    @property
    def jam_diameter(self) -> float:
        """Of the plug where its bearing ends towards the mouth, at `high`."""
        return 2 * self.bearing.radius_at(self.high)

    @property
    def stretch(self) -> float:
        """By how much the mouth's diameter grows as it is pressed from where it jams to the flange."""
        return 2 * self.press * tan(self.slope)

    @property
    def used(self) -> float:
        """Share of what is allowed round the mouth that the least push takes."""
        return self.hoop / self.hoop_allowed if self.hoop_allowed else 0.0

    @property
    def most_torque(self) -> float:
        """N m at the nut that spare the vessel; 0 where there is no bolt."""
        return most_torque(self.most_push, bolt_diameter(self.bolt.thread)) if self.bolt else 0.0

    @property
    def torque(self) -> float:
        """N m with which the bolt's nut is turned for the least pull; 0 where there is no bolt."""
        return nut_torque(self.least_push, bolt_diameter(self.bolt.thread)) if self.bolt else 0.0


class ReversingPlan(Record):
    """How it is held, or why it cannot be; neither where the foot is finished by hand."""

    plug: MouthPlug | None
    barred: tuple[Barred, ...]  # ways that were tried first, or asked for, and cannot be taken
    others: tuple[Way, ...]  # where the way asked for cannot be taken: those that can
    hole: float | None = None  # in the floor, of a bolt that would hold what no other way does

    @property
    def by_hand(self) -> bool:
        """Whether the job says that nothing holds it, so that its foot is finished by hand."""
        return self.plug is None and not self.barred
