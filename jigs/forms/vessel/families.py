"""Every jig family of a vessel, in the order in which its jigs are wanted."""

from __future__ import annotations

from collections.abc import Callable

from jigs.forms.vessel.lots import lot_gauges
from jigs.forms.vessel.plan import VesselPlan
from jigs.parts.part import Part
from jigs.stages.coupon.parts import coupon
from jigs.stages.flat_rings.parts.glue_up_boards import glue_up_boards
from jigs.stages.flat_rings.parts.ring_truing import ring_truing
from jigs.stages.flat_segments.parts.angle_plates import angle_plates
from jigs.stages.flat_segments.parts.flat_sleds import flat_sleds
from jigs.stages.flat_segments.parts.stop_sticks import stop_sticks
from jigs.stages.floating_base.parts import floating
from jigs.stages.gauging.parts.inside import inside_gauges
from jigs.stages.gauging.parts.outside import outside_gauges
from jigs.stages.gauging.parts.rail import rail
from jigs.stages.gauging.parts.wall import wall_gauge
from jigs.stages.holding_by_mouth.parts import reversing
from jigs.stages.knob.parts import knob_gauge
from jigs.stages.layup.parts.whole import layup
from jigs.stages.sizes.parts.gap_gauges import gap_gauges
from jigs.stages.sizes.parts.joint_gauge import joint_gauge
from jigs.stages.sizes.parts.lid_gauges import lid_gauges
from jigs.stages.sizes.parts.stepped_sticks import stepped_sticks
from jigs.stages.slips.parts import slip_box
from jigs.stages.stack.parts import centring_plates
from jigs.stages.staves.parts import stave_sled

VESSEL_FAMILIES: tuple[Callable[[VesselPlan], list[Part]], ...] = (
    coupon,
    layup,
    angle_plates,
    stave_sled,
    flat_sleds,
    stop_sticks,
    slip_box,
    ring_truing,
    glue_up_boards,
    centring_plates,
    floating,
    outside_gauges,
    rail,
    inside_gauges,
    wall_gauge,
    lot_gauges,
    joint_gauge,
    gap_gauges,
    stepped_sticks,
    lid_gauges,
    knob_gauge,
    reversing,
)
