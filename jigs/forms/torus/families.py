"""Every jig family of a torus, in the order in which its jigs are wanted. Adding one is a file and a line here."""

from __future__ import annotations

from collections.abc import Callable

from jigs.families.bandsaw_sled import bandsaw_sled
from jigs.families.clamping import clamping
from jigs.families.coupon import coupon
from jigs.families.flats_gauge import flats_gauge
from jigs.families.gauges import gauges
from jigs.families.holding import holding
from jigs.families.mountings import mountings
from jigs.families.plan_angle_sled import plan_angle_sled
from jigs.families.segment_carrier import segment_carrier
from jigs.families.sizes import sizes
from jigs.families.sled import sled
from jigs.families.standing import standing
from jigs.families.truing import truing
from jigs.families.wedges import wedges
from jigs.forms.torus.plan import TorusPlan
from jigs.parts.part import Part
from jigs.stages.layup.parts.whole import layup

FAMILIES: tuple[Callable[[TorusPlan], list[Part]], ...] = (
    coupon,
    wedges,
    layup,
    segment_carrier,
    plan_angle_sled,
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
