"""What the saws do: which one cuts what, and the carriers that take the work past the blade."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from geometry.hardware.sled_sizes import EdgeGuide
from geometry.records import Record
from jigs.stages.held.plan import HeldCut
from jigs.stages.segments.layout import CarrierLayout

if TYPE_CHECKING:  # a job without that sled need not load it
    from jigs.stages.flat_segments.layout.sled import PlanAngleLayout

SawName = Literal["table saw", "bandsaw"]


class CuttingPlan(Record):
    """Saws and segment carriers; the wedge rings' own sled is the plan's."""

    rings_on: SawName
    segments_on: SawName
    guide: EdgeGuide  # of whatever the bandsaw cuts
    carrier: CarrierLayout
    plan_angle: PlanAngleLayout | None
    held: tuple[HeldCut, ...]  # pieces in each cut on the carrier
    flat_held: tuple[HeldCut, ...]  # and on the plan-angle sled
    seconds: float  # for each segment, by `segment_seconds`

    @property
    def bandsaw_used(self) -> bool:
        return "bandsaw" in (self.rings_on, self.segments_on)
