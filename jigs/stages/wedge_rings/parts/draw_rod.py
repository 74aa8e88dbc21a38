"""What is cut for the rod that draws a wedge ring to the sled's fence, and how rod and plug are put together."""

from __future__ import annotations

from geometry.hardware.draw_rod import DrawRod
from geometry.hardware.fasteners import clearance_hole
from geometry.plane.contour import Contour, circle, polygon
from jigs.forms.torus.plan import TorusPlan
from jigs.parts.part import Dimension, EdgeGap, HoleDiameter, Part
from jigs.parts.places import lettered
from jigs.parts.sheet import cut_part

STICK_SIDE = 4.0  # less than the core, across the stick's foot
STICK_HEAD = (80.0, 30.0)


def draw_rod(plan: TorusPlan) -> list[Part]:
    """The stick that sets the plug's depth; for a large core the plug's cheeks and hub."""
    rod = plan.sled.rod
    return [_stick(plan, rod), *([_disc(plan, rod, "cheek"), _disc(plan, rod, "hub")] if rod.hubbed else [])]


def _stick(plan: TorusPlan, rod: DrawRod) -> Part:
    """Its shoulders lie on the ring's uncut face, its foot reaches down to the rod's tip. y runs up."""
    half, deep, (wide, tall) = (rod.core - STICK_SIDE) / 2, rod.below_face, STICK_HEAD
    wide = max(wide, rod.core + 40)
    head = wide / 2
    outline = polygon(
        [
            (half, -deep),
            (half, 0.0),
            (head, 0.0),
            (head, tall),
            (-head, tall),
            (-head, 0.0),
            (-half, 0.0),
            (-half, -deep),
        ]
    )
    text = (plan.job.title.upper(), "DRAW ROD'S DEPTH", "TIP ↓ NO HIGHER")
    return cut_part(
        plan,
        "sled",
        "sled-rod-stick",
        "sets the draw rod's tip below the cut",
        outline,
        (),
        lettered(outline, (), (), text, near=(0.0, tall / 2)),
        (Dimension("depth", deep, EdgeGap((head / 2 + half / 2, 0.0), (0.0, -deep))),),
    )


def _disc(plan: TorusPlan, rod: DrawRod, which: str) -> Part:
    across, hole = (rod.cheek if which == "cheek" else rod.hub), clearance_hole(rod.bolt)
    outline: Contour = circle((0.0, 0.0), across / 2)
    bore = circle((0.0, 0.0), hole / 2)
    return cut_part(
        plan,
        "sled",
        f"sled-plug-{which}",
        "squeezes the plug's rubber" if which == "cheek" else "the plug's rubber goes round it",
        outline,
        (bore,),
        lettered(outline, (bore,), (), (f"PLUG {which.upper()}",)),
        (Dimension("hole", hole, HoleDiameter((0.0, 0.0))),),
        quantity=2 if which == "cheek" else 1,
    )
