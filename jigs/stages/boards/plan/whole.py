"""The wood of a job: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from typing import Literal

from geometry.records import dataclass
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.stock import Shortage, WoodClass
from jigs.stages.finish.plan import FinishPlan
from jigs.stages.glue_up.plan import GluePlan
from jigs.stages.grain.plan import GrainPlan
from jigs.words.lengths import MM_PER_INCH, Unit


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


@dataclass(frozen=True)
class CutLine:
    """One lot in the cut list: how it comes off the saw, and what it is when it is glued."""

    lot: int
    tilt: float  # of the blade from upright, radians
    gauge: float  # of mitre gauge or fence off square, radians
    sanded: float  # off each mitred end before gluing
    width: float  # when it is glued
    longer: float  # its edges then
    shorter: float
    rough: tuple[
        tuple[float, float], ...
    ]  # thickness of each sort of board it is sawn from, width of its strips
    each: float  # of the strip, for one piece and its cut
    strip: float  # least length for all of them in one


@dataclass(frozen=True)
class KeptLong:
    """Strips that end too short to be held again; cutting so many pieces fewer from each keeps it long.

    Where a strip is too short once its first piece is cut, no number of pieces does.
    """

    lot: int
    strips: int
    left: float  # of each, as planned
    fewer: int | None  # pieces from each
    length: float  # that is then left; of a strip that no number keeps long, once its first piece is cut


# Least length of a strip that is planed and ripped, over what no hand may hold; common practice.
SCRAP: dict[Unit, float] = {"mm": 350.0, "in": 14 * MM_PER_INCH}


@dataclass(frozen=True)
class Scrap:
    """A trial in scrap, before good wood; pieces are as those of the first of its rings."""

    of: Literal["ring", "quarter", "staves"]
    rings: tuple[int, ...]  # that it proves
    count: int  # of rings that are made
    segments: int  # in each
    thickness: float
    width: float
    strips: int  # of scrap
    strip: float  # length of each
    jigs: tuple[str, ...]  # what it has to fit
