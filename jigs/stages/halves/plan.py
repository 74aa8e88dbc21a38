"""The parts of a vessel, its tiers: each some rings on its own waste block, hollowed from its joint. Lengths mm."""

from __future__ import annotations

from geometry.bodies.section import Section
from geometry.lathe.inside_reach import neck
from geometry.records import Record
from jigs.stages.gauging.plan.vessel import VesselGauges
from jigs.stages.sizes.plan.vessel import VesselSizes
from jigs.stages.stack.plan import StackPlan
from jigs.stages.waste_block.plan import WasteBlock

LOWER, UPPER = "lower", "upper"
# Common practice, no source, both; mm.
LEAST_SEAT = 2.0  # radial width of the ring that centres the joint
MOST_SEAT = 5.0


class Load(Record):
    """The most that a push at an open end puts on what stands below it, hollowed; and how far below."""

    share: float  # of what the wood there may bear
    under: float


class JointRing(Record):
    """A loose ring of hardwood, which lies in a rebate of either part and centres one on the other."""

    outer: float  # radii
    inner: float
    thickness: float
    rebate: float  # radius of the rebates
    depth: float  # of each
    left: float  # of wall outside it, at the thinnest within its depth
    ledge: float  # under it, at the narrowest


class TierJoint(Record, eq=False):
    """Where two parts meet."""

    of: str  # id of the stage in which it is glued
    mark: str  # behind the names of its gauges; "" where it is the only one
    ring: int  # the last below it
    height: float  # over the foot
    below: Section  # all that stands under it
    centring: JointRing
    opened: Load  # a push at its face, all below glued
    closed: float  # share of what it may bear, by a push at the rim, as glued or turned: the worse
    speed: tuple[int, int]  # rpm, of what it puts together, up to the next joint

    @property
    def gauge(self) -> str:
        return f"joint-gauge{self.mark}"

    @property
    def stick(self) -> str:
        return f"joint-stick{self.mark}"


class Judged(Record):
    """What a part is judged by."""

    name: str
    height: float  # of its joint over its foot
    load: Load
    unguided: tuple[float, float] | None  # heights inside that no gauge reaches
    neck: tuple[float, float] | None  # radius and height of the narrowest place over a wider one, among these


class Tier(Record, eq=False):
    """A part as it stands on the lathe: all but the lower one upside down, their foot in the waste over their top."""

    name: str  # "lower", "second" and so on, "upper"
    gauge: str  # how the names of its inside gauges begin
    joint: TierJoint  # from which it is hollowed
    section: Section
    stack: StackPlan
    gauges: VesselGauges
    sizes: VesselSizes
    waste: WasteBlock
    load: Load
    # Under its joint, where gauges through the mouth go on; to leave so wide.
    bore: tuple[float, float] | None = None

    @property
    def judged(self) -> Judged:
        left = self.gauges.unguided
        return Judged(
            self.name, self.section.height, self.load, left, neck(self.section.inner) if left else None
        )


class HalvesPlan(Record, eq=False):
    """From the foot up: the parts, one more than the joints."""

    tiers: tuple[Tier, ...]
    joints: tuple[TierJoint, ...]

    def tier(self, name: str) -> Tier | None:
        return next((tier for tier in self.tiers if tier.name == name), None)

    def over(self, tier: Tier) -> TierJoint | None:
        """The joint that closes a part's other end later; None of the lower and the upper part."""
        k = self.tiers.index(tier)
        return self.joints[k] if 0 < k < len(self.joints) else None
