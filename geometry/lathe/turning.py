"""Holding the torus on the lathe: the channel it seats in and the retainer that draws it there.

Heights z are measured from the tube's centre, away from the support board. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, inf, radians, sin, sqrt, tan, tau

from geometry.bodies.tube import Tube
from geometry.records import Record

# Sines of how far past the equator the retainer touches; of a round tube they are shares of its radius.
BAND_LOW = 0.5
BAND_HIGH = 0.85
RIM_LAND = 2.0  # mm, straight, over the band: its flare alone would spin as a knife edge
# mm of the diameter: 5 over the bed all round. Common practice, no source; never under 3
SWING_CLEARANCE = 10.0
ROUGHING = (1000, 1500)  # rpm. Common practice, no source
TAIL = radians(35)  # how far past the equator a flank is turned in the first mounting


class Channel(Record):
    """Concave groove on the major radius; the finished side seats on its two flanks."""

    major: float
    tube: Tube
    lining: float
    contact: float  # angle up each flank from the very bottom
    relief: tuple[float, float]  # width and depth of the groove along the bottom

    @property
    def hollow(self) -> Tube:
        """The groove, about the tube's centre."""
        return self.tube.beyond(self.lining)

    @property
    def centre_height(self) -> float:
        """Tube centre above the board's face; of a round tube r - h with h = r (1 - cos contact)."""
        return self.tube.over(self.contact)[1]

    @property
    def depth(self) -> float:
        """From the board's face to the bottom of the groove's arc."""
        return self.hollow.high - self.centre_height

    @property
    def width(self) -> float:
        """Across the groove at the board's face."""
        return 2 * self.hollow.width_at(self.centre_height)

    @property
    def relief_width(self) -> float:
        """Of the groove at the very bottom, so that the work seats on two flanks."""
        return min(self.relief[0], self.width / 3)

    @property
    def relief_depth(self) -> float:
        return self.relief[1]

    @property
    def half_angle(self) -> float:
        """By which the groove's side leans from its bottom to its rim."""
        return self.hollow.lean_at_height(self.centre_height)


class Retainer(Record):
    """Plug whose flared rim bears in the hole of the torus, of a round one from 0.5 r to 0.85 r above its middle."""

    major: float
    tube: Tube
    lining: float
    contact: float  # of the channel that the work lies in
    neck_clearance: float
    board_clearance: float

    @property
    def hollow(self) -> Tube:
        """In its section, about the tube's centre."""
        return self.tube.beyond(self.lining)

    @property
    def neck_radius(self) -> float:
        return self.major - self.tube.wide - self.neck_clearance

    @property
    def band_low(self) -> float:
        return self.tube.rise(BAND_LOW)

    @property
    def band_high(self) -> float:
        return self.tube.rise(BAND_HIGH)

    @property
    def top(self) -> float:
        """Over the rim's straight land."""
        return self.band_high + RIM_LAND

    @property
    def bottom(self) -> float:
        """Clear of the board in the channel mounting."""
        return -self.tube.over(self.contact)[1] + self.board_clearance

    @property
    def height(self) -> float:
        return self.top - self.bottom

    @property
    def top_radius(self) -> float:
        return self.radius_at(self.band_high)

    @property
    def land(self) -> float:
        """Of its rim, straight over the band."""
        return RIM_LAND

    @property
    def clears(self) -> float:
        """How wide a faceplate on its rim may be: the work reversed on it stands past that rim farther out."""
        if self.top >= self.tube.high:
            return inf
        return 2 * (self.major - self.tube.width_at(self.top) - self.board_clearance)

    def radius_at(self, z: float) -> float:
        """The bearing surface; of a round tube rho(z) = R - sqrt((r + g)^2 - z^2)."""
        return self.major - self.hollow.width_at(z)


def bearing_forces(slope: float, friction: float) -> tuple[float, float]:
    """Normal force and outward spread for each unit of pull on a surface whose normal rises by `slope`.

    Balance of a ring element: N (sin + f cos) = F, spread N (cos - f sin).
    """
    normal = 1 / (sin(slope) + friction * cos(slope))
    return normal, normal * (cos(slope) - friction * sin(slope))


def sticks(slope: float, friction: float) -> bool:
    """Whether the plug stays wedged when the bolt is slackened."""
    return tan(slope) < friction


def rim_speed_limits(diameter: float) -> tuple[int, int]:
    """Turning speeds (rpm) at a rim speed of 8 to 12 m/s: diameter in inches times rpm 6000 to 9000.

    Common practice, no standard behind it: a working range, not a safety limit.
    """
    inches = diameter / 25.4
    return int(6000 / inches), int(9000 / inches)


def rough_speed_limits(diameter: float) -> tuple[int, int]:
    """The same of wood that is not round yet: however small it is, no more than is usual for roughing."""
    slow, fast = rim_speed_limits(diameter)
    return min(slow, ROUGHING[0]), min(fast, ROUGHING[1])


def unbalance(grams: float, offset: float, rpm: float) -> float:
    """Force in N with which a mass whose centre is `offset` mm off the axis pulls at it: m e (2 pi n)^2."""
    return grams / 1000 * offset / 1000 * (tau * rpm / 60) ** 2


def rpm_of_pull(moment: float, most: float) -> float:
    """The speed at which a mass off the axis, grams times mm, pulls at it with `most` N."""
    return 60 / tau * sqrt(most / (moment * 1e-6)) if moment > 0.0 else inf


class Runout(Record):
    """Total reading of a dial at the work's face or rim, one turn by hand. mm. Common practice, no source."""

    accepted: float = 0.2  # it sands out
    most: float = 0.3  # over it the work is centred again
