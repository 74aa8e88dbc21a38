"""A vessel: the stages of its work, in order, its facts and its tables."""

from __future__ import annotations

from jigs.forms.form import Form
from jigs.forms.vessel.halves import INSIDE, OUTSIDE, STACK, TIERS
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.steps.whole import STAGE as BOARDS
from jigs.stages.building.steps.whole import STAGE as BUILDING
from jigs.stages.coupon.steps import STAGE as COUPON
from jigs.stages.cutting_out.steps import STAGE as CUTTING_OUT
from jigs.stages.finish.steps import STAGE as FINISH
from jigs.stages.flat_rings.steps import STAGE as FLAT_RINGS
from jigs.stages.flat_segments.steps import STAGE as FLAT_SEGMENTS
from jigs.stages.flattening.steps import STAGE as FLATTENING
from jigs.stages.floating_base.steps import BORE
from jigs.stages.floating_base.steps import STAGE as FLOATING_BASE
from jigs.stages.held import tables as held
from jigs.stages.holding_by_mouth.steps.whole import STAGE as HOLDING_BY_MOUTH
from jigs.stages.knob.steps import STAGE as KNOB
from jigs.stages.lathe import tables as lathe
from jigs.stages.layup.steps.whole import STAGE as LAYUP
from jigs.stages.lid.steps import FIT_STAGE as LID_FIT
from jigs.stages.lid.steps import ON_STAGE as LID_ON
from jigs.stages.lid.steps import POT_STAGE as LID_POT
from jigs.stages.outside.steps import STEM_STAGE
from jigs.stages.pieces.steps import STAGE as PIECES
from jigs.stages.plugs.steps import STAGE as PLUGS
from jigs.stages.printing.steps import STAGE as PRINTING
from jigs.stages.ring_labels.steps import STAGE as RING_LABELS
from jigs.stages.shop.steps import STAGE as SHOP
from jigs.stages.slips.steps import STAGE as SLIPS
from jigs.stages.solids.steps import STAGE as SOLIDS
from jigs.stages.stack import tables as stack
from jigs.stages.staves.steps import STAGE as STAVES
from jigs.stages.waste_block.steps import STAGE as WASTE_BLOCK

VESSEL: Form[VesselPlan] = Form(
    stages=(
        SHOP, COUPON, PRINTING, CUTTING_OUT, BUILDING, BOARDS, LAYUP, SLIPS, FLAT_SEGMENTS, PIECES, STAVES,
        SOLIDS, FLAT_RINGS, PLUGS, FLATTENING, RING_LABELS, BORE, WASTE_BLOCK, FLOATING_BASE, STACK, *TIERS,
        LID_POT, OUTSIDE, INSIDE, LID_FIT, STEM_STAGE, HOLDING_BY_MOUTH, KNOB, FINISH, LID_ON,
    ),
    facts=stack.facts,
    tables=(stack.tables, held.of_vessel, lathe.of_vessel),
)  # fmt: skip
