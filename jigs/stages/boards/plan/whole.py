"""The wood of a job: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from geometry.records import dataclass
from jigs.stages.boards.plan.cut_list import CutLine, KeptLong, Scrap
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.stock import Shortage, WoodClass
from jigs.stages.finish.plan import FinishPlan
from jigs.stages.glue_up.plan import GluePlan
from jigs.stages.grain.plan import GrainPlan


@dataclass(frozen=True)
class WoodPlan:
    """The cut list is in the order of the work."""

    lots: tuple[Lot, ...]
    lines: tuple[CutLine, ...]  # the cut list: one for each lot, in the order in which they are cut
    classes: tuple[WoodClass, ...]
    shortages: tuple[Shortage, ...]
    kept_long: tuple[KeptLong, ...]
    scraps: tuple[Scrap, ...]
    grain: GrainPlan
    glue: GluePlan
    finish: FinishPlan

    def lot(self, number: int) -> Lot:
        """Raises StopIteration for a number that is none."""
        return next(lot for lot in self.lots if lot.number == number)
