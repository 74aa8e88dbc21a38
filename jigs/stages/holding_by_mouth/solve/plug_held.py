"""What the statics of a plug follow from, out of a vessel's plan."""

from __future__ import annotations

from math import inf

from geometry.bodies.section import Section
from geometry.statics.lathe_holding import MOST_PULL, LatheHolding
from geometry.statics.plug_held import HeldVessel, vessel_held
from jigs.stages.held.strength import PUSH
from jigs.stages.holding_by_mouth.plan import MouthPlug


def plug_held(section: Section, plug: MouthPlug, most: float = inf) -> LatheHolding:
    """The vessel on its plug, its foot turned; `most` is the push (N) that its wood stands.

    A taper is taken to bear by its jam alone: whether the rim then stands is left out.
    """
    rim = plug.stands and plug.way == "bolt"
    return vessel_held(
        HeldVessel(
            band=(
                (plug.bearing.radius_at(plug.low), plug.low),
                (plug.bearing.radius_at(plug.high), plug.high),
            ),
            slope=plug.slope,
            rim=((section.mouth_radius + section.rim_radius) / 2, section.height) if rim else None,
            normal=1.0 if rim else plug.normal_force,
            foot=section.foot_radius,
            point=plug.bolt is None and plug.centre_recess > 0,
            pull=PUSH,
            most=min(most, MOST_PULL),
        )
    )
