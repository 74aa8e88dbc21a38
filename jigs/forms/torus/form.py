"""A torus: the stages of its work, in order, its facts and its tables."""

from __future__ import annotations

from jigs.forms.form import Form
from jigs.plans.torus import TorusPlan
from jigs.stages.blank import tables as blank
from jigs.stages.boards.steps.whole import STAGE as BOARDS
from jigs.stages.building.steps.whole import STAGE as BUILDING
from jigs.stages.coupon.steps import STAGE as COUPON
from jigs.stages.cutting_out.steps import STAGE as CUTTING_OUT
from jigs.stages.finish.steps import STAGE as FINISH
from jigs.stages.gauging.steps import STAGE as GAUGING
from jigs.stages.glue_up.steps.whole import STAGE as GLUE_UP
from jigs.stages.held import tables as held
from jigs.stages.labels.steps import STAGE as LABELS
from jigs.stages.lathe import tables as lathe
from jigs.stages.layup.steps.whole import STAGE as LAYUP
from jigs.stages.mountings.steps.braced import STAGE as BRACED
from jigs.stages.mountings.steps.first import STAGE as FIRST
from jigs.stages.mountings.steps.last import STAGE as LAST
from jigs.stages.mountings.steps.reversed import STAGE as REVERSED
from jigs.stages.printing.steps import STAGE as PRINTING
from jigs.stages.rings.steps import STAGE as RINGS
from jigs.stages.roughing.steps import STAGE as ROUGHING
from jigs.stages.sanding.steps import STAGE as SANDING
from jigs.stages.segments.steps import STAGE as SEGMENTS
from jigs.stages.shop.steps import STAGE as SHOP
from jigs.stages.slips.steps import STAGE as SLIPS
from jigs.stages.wedge_rings.steps.whole import STAGE as WEDGE_RINGS

TORUS: Form[TorusPlan] = Form(
    stages=(
        SHOP, COUPON, PRINTING, CUTTING_OUT, BUILDING, BOARDS, LAYUP, SEGMENTS, SLIPS, RINGS, LABELS, WEDGE_RINGS,
        GLUE_UP, FIRST, ROUGHING, GAUGING, SANDING, REVERSED, BRACED, LAST, FINISH,
    ),
    facts=blank.facts,
    tables=(blank.tables, held.of_torus, lathe.of_torus),
)  # fmt: skip
