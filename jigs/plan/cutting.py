"""What the saws do: which one cuts what, and the carriers that take the work past the blade."""

from __future__ import annotations

from dataclasses import dataclass
from math import tan
from typing import Literal

from geometry.bandsaw_sled import EdgeGuide
from geometry.plan_angle import PlanAngleLayout
from geometry.segment_carrier import CarrierLayout
from jigs.plan.held import HeldCut

SawName = Literal["table saw", "bandsaw"]


@dataclass(frozen=True)
class StaveRip:
    """A stave with both edges bevelled, before its edges are sanded for glue."""

    tilt: float  # of the blade from upright
    outer_width: float
    inner_width: float
    thickness: float

    @property
    def fence(self) -> float:
        """From the rip fence to the blade at the table: it leans out to the outer width at the stave's top."""
        return self.outer_width - self.thickness * tan(self.tilt)


@dataclass(frozen=True)
class CuttingPlan:
    """Saws and segment carriers; the wedge rings' own sled is the plan's.

    The carrier is that of the mitred segments, which are compared with staves even where staves are cut.
    """

    rings_on: SawName
    segments_on: SawName  # or staves
    segments_need: float  # that it has to give for them, along the tilted blade
    guide: EdgeGuide  # of whatever the bandsaw cuts
    carrier: CarrierLayout
    plan_angle: PlanAngleLayout | None
    staves: StaveRip | None  # where rings are sliced from tubes of them
    held: tuple[
        HeldCut, ...
    ]  # pieces in each cut of the segments, or slices of tubes on a plain crosscut sled
    seconds: float  # for each segment, by `segment_seconds`

    @property
    def bandsaw_used(self) -> bool:
        return "bandsaw" in (self.rings_on, self.segments_on)
