"""What is cut for the rod that draws a wedge ring to the sled's fence, and how rod and plug are put together."""

from __future__ import annotations

from geometry.hardware.draw_rod import DrawRod
from geometry.hardware.fasteners import clearance_hole
from geometry.plane.contour import circle, polygon
from jigs.parts.part import Part
from jigs.parts.plate import Plate
from jigs.plans.torus import TorusPlan

STICK_SIDE = 4.0  # less than the core, across the stick's foot
STICK_HEAD = (80.0, 30.0)


def draw_rod(plan: TorusPlan) -> list[Part]:
    """The stick that sets the plug's depth; for a large core the plug's cheeks and hub."""
    rod = plan.sled.rod
    return [_stick(plan, rod), *([_disc(plan, rod, "cheek"), _disc(plan, rod, "hub")] if rod.hubbed else [])]


def _stick(plan: TorusPlan, rod: DrawRod) -> Part:
    """Its shoulders lie on the ring's uncut face, its foot reaches down to the rod's tip. y runs up."""
    half, deep, (wide, tall) = (rod.core - STICK_SIDE) / 2, rod.below_face, STICK_HEAD
    head = max(wide, rod.core + 40) / 2
    right = [(half, -deep), (half, 0.0), (head, 0.0), (head, tall)]
    plate = Plate(plan, polygon([*right, *((-x, y) for x, y in reversed(right))]))
    plate.letter("DRAW ROD'S DEPTH", "TIP ↓ NO HIGHER", near=(0.0, tall / 2))
    plate.gap("depth", deep, (head / 2 + half / 2, 0.0), (0.0, -deep))
    return plate.part("sled-rod-stick", "sets the draw rod's tip below the cut")


def _disc(plan: TorusPlan, rod: DrawRod, which: str) -> Part:
    cheek = which == "cheek"
    plate = Plate(plan, circle((0.0, 0.0), (rod.cheek if cheek else rod.hub) / 2))
    plate.hole((0.0, 0.0), clearance_hole(rod.bolt), "hole")
    plate.letter(f"PLUG {which.upper()}", titled=False)
    purpose = "squeezes the plug's rubber" if cheek else "the plug's rubber goes round it"
    return plate.part(f"sled-plug-{which}", purpose, quantity=2 if cheek else 1)
