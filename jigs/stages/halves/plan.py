"""The two halves: each a lot of rings on a waste block of its own, hollowed from the joint. Lengths mm."""

from __future__ import annotations

from typing import Literal

from geometry.bodies.section import Section
from geometry.records import dataclass
from jigs.stages.gauging.plan.vessel import VesselGauges
from jigs.stages.sizes.plan.vessel import VesselSizes
from jigs.stages.stack.plan import StackPlan
from jigs.stages.waste_block.plan import WasteBlock

Name = Literal["lower", "upper"]
# Common practice, no source, both; mm.
LEAST_SEAT = 2.0  # radial width of the ring that centres the joint
MOST_SEAT = 5.0


@dataclass(frozen=True, eq=False)
class Lot:
    """One half as it stands on the lathe: the upper one upside down, its foot in the waste over the rim."""

    name: Name
    section: Section
    stack: StackPlan
    gauges: VesselGauges
    sizes: VesselSizes
    waste: WasteBlock
    stress: float  # N/mm², the most that a push at its open end puts on it anywhere, hollowed
    weakest: float  # height in the lot at which that is


@dataclass(frozen=True)
class JointRing:
    """A loose ring of hardwood, which lies in a rebate of either half and centres one on the other."""

    outer: float  # radii
    inner: float
    thickness: float
    rebate: float  # radius of the rebates
    depth: float  # of each
    left: float  # of wall outside it, at the thinnest within its depth
    ledge: float  # under it, at the narrowest


@dataclass(frozen=True, eq=False)
class HalvesPlan:
    """`ring` is the last of the lower half."""

    ring: int
    joint: float  # height over the foot
    lower: Lot
    upper: Lot
    centring: JointRing

    @property
    def lots(self) -> tuple[Lot, Lot]:
        return self.lower, self.upper
