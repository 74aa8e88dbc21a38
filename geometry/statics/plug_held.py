"""A vessel held by its mouth on a plug, its foot towards the tailstock, by the statics of `lathe_holding`.

z is the height above the foot, so the faceplate lies beyond the mouth. Lengths mm, forces N.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, sin

from geometry.records import Record
from geometry.statics.contacts import Clamp, Contact
from geometry.statics.holding import LOW_FRICTION
from geometry.statics.lathe_holding import LatheHolding, Section, ToolPlace, Weight, at_lathe, seat

AWAY, TOWARDS = (0.0, 1.0), (0.0, -1.0)  # along z: to the faceplate, and to the foot


class HeldVessel(Record):
    """What the plug's statics follow from."""

    band: tuple[Section, Section]  # both ends of what bears in the mouth
    slope: float  # of it, radians off the axis; a right angle where only the rim bears
    rim: Section | None  # where the rim stands on the flange
    normal: float  # of the pull, pressing on the band or the rim
    foot: float  # radius at which the foot is turned
    point: bool  # the tailstock's point stands in the foot
    pull: float  # N of the bolt or the tailstock
    most: float
    weight: Weight | None = None


@lru_cache(maxsize=64)
def vessel_held(vessel: HeldVessel) -> LatheHolding:
    """On its plug, the foot being turned."""
    contacts: list[Contact] = []
    jams = vessel.slope < pi / 2 - 1e-6  # else the cone only centres
    contacts += seat(
        list(vessel.band), (cos(vessel.slope), -sin(vessel.slope)) if jams else (1.0, 0.0), "plug"
    )
    if vessel.rim is not None:
        contacts += seat([vessel.rim], TOWARDS, "flange")
    if vessel.point:
        contacts += [
            Contact((0.0, 0.0, 0.0), way, "tailstock")
            for way in ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0))
        ]
    push = Clamp((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), vessel.pull, "tailstock" if vessel.point else "bolt")
    tools = [
        ToolPlace("foot", (vessel.foot, 0.0), AWAY),
        ToolPlace("foot's side", (vessel.foot, 0.0), (-1.0, 0.0)),
    ]
    bears = vessel.rim[0] if vessel.rim else min(radius for radius, _ in vessel.band)
    grip = LOW_FRICTION * vessel.normal * vessel.pull * bears
    return at_lathe("plug", contacts, [push], tools, grip, vessel.pull, vessel.most, vessel.weight)
