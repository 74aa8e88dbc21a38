"""The wood of a job: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from dataclasses import dataclass

from jigs.plan.wood.finish import FinishPlan
from jigs.plan.wood.glue import GluePlan
from jigs.plan.wood.joints import GrainPlan
from jigs.plan.wood.lots import Lot
from jigs.plan.wood.steps import CutLine, KeptLong, Scrap, Step
from jigs.plan.wood.stock import Shortage, WoodClass


@dataclass(frozen=True)
class WoodPlan:
    """Steps and the cut list are in the order of the work."""

    lots: tuple[Lot, ...]
    lines: tuple[CutLine, ...]  # the cut list: one for each lot, in the order in which they are cut
    classes: tuple[WoodClass, ...]
    shortages: tuple[Shortage, ...]
    kept_long: tuple[KeptLong, ...]
    scraps: tuple[Scrap, ...]
    steps: tuple[Step, ...]
    grain: GrainPlan
    glue: GluePlan
    finish: FinishPlan

    def lot(self, number: int) -> Lot:
        """Raises StopIteration for a number that is none."""
        return next(lot for lot in self.lots if lot.number == number)
