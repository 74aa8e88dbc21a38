"""Every jig family of a torus, in the order in which its jigs are wanted. Adding one is a file and a line here."""

from __future__ import annotations

from collections.abc import Callable

from jigs.forms.torus.plan import TorusPlan
from jigs.parts.part import Part
from jigs.stages.coupon.parts import coupon
from jigs.stages.flat_segments.parts.sled import plan_angle_sled
from jigs.stages.gauging.parts.profile import gauges
from jigs.stages.gauging.parts.standing import standing
from jigs.stages.glue_up.parts.clamping import clamping
from jigs.stages.glue_up.parts.truing import truing
from jigs.stages.layup.parts.whole import layup
from jigs.stages.mountings.parts.braces import mountings
from jigs.stages.mountings.parts.holding import holding
from jigs.stages.roughing.parts import flats_gauge
from jigs.stages.segments.parts import segment_carrier
from jigs.stages.sizes.parts.forks import sizes
from jigs.stages.slips.parts import slip_box
from jigs.stages.wedge_rings.parts.bandsaw import bandsaw_sled
from jigs.stages.wedge_rings.parts.sled import sled
from jigs.stages.wedge_rings.parts.wedges import wedges

FAMILIES: tuple[Callable[[TorusPlan], list[Part]], ...] = (
    coupon,
    wedges,
    layup,
    segment_carrier,
    plan_angle_sled,
    slip_box,
    sled,
    bandsaw_sled,
    truing,
    clamping,
    gauges,
    flats_gauge,
    standing,
    sizes,
    holding,
    mountings,
)
