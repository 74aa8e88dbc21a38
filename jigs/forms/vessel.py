"""A vessel: the stages of its work, in order, its facts and its tables."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jigs.plan.vessel import VesselPlan
from jigs.stages.boards import tables as boards
from jigs.stages.boards.steps import STAGE as BOARDS
from jigs.stages.building.steps import STAGE as BUILDING
from jigs.stages.coupon.steps import STAGE as COUPON
from jigs.stages.cutting_out.steps import STAGE as CUTTING_OUT
from jigs.stages.finish import tables as finish
from jigs.stages.flat_segments.steps import STAGE as FLAT_SEGMENTS
from jigs.stages.glue_up import tables as glue_up
from jigs.stages.grain import tables as grain
from jigs.stages.lathe import tables as lathe
from jigs.stages.layup import tables as layup
from jigs.stages.pieces.steps import STAGE as PIECES
from jigs.stages.printing.steps import STAGE as PRINTING
from jigs.stages.shop.steps import STAGE as SHOP
from jigs.stages.slips.steps import STAGE as SLIPS
from jigs.stages.stack import tables as stack
from jigs.stages.staves.steps import STAGE as STAVES
from jigs.work.model import Stage, Table

TABLES: tuple[Callable[[VesselPlan], Sequence[Table]], ...] = (
    stack.tables,
    lathe.tables,
    boards.tables,
    layup.tables,
    grain.tables,
    glue_up.tables,
    finish.tables,
)
STAGES: tuple[Stage[VesselPlan], ...] = (
    SHOP,
    COUPON,
    PRINTING,
    CUTTING_OUT,
    BUILDING,
    BOARDS,
    SLIPS,
    FLAT_SEGMENTS,
    PIECES,
    STAVES,
)
FACTS = stack.facts
