"""The side of a torus that the first mounting turns, sanded grit by grit: the operation."""

from __future__ import annotations

from geometry.records import replace
from jigs.plans.torus import TorusPlan
from jigs.words.quantity import calliper
from jigs.work.model import Check, Operation, Rack, Reading, Stage
from jigs.work.steps import sanded

ID = "sanding"


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """The side of a torus that the first mounting turns; the rest is sanded in the mountings that turn it."""
    form = plan.asked.form
    size = calliper("tube", "Tube" if form.tube.round else "Tube, wide", 2 * form.tube_radius)
    sizes = (
        Reading("tube", "Tube as sanded, wide, at four places", size, 4),
        Reading("outer", "Rim as sanded, across", calliper("planned", "", form.outer_diameter), 2),
        Reading("hole", "Hole as sanded, across", calliper("planned", "", form.hole_diameter), 2),
        *_face(plan),
    )
    width = Check(
        "tube", "Calliper over the tube, lathe stopped", (size,), "over: one more pass with the first grit"
    )
    whole = sanded(
        plan,
        ID,
        "first-side",
        "Sand all that this mounting turned, grit by grit, for nothing reaches it later.",
        plan.torus_surface / 2,
        (width,),
    )
    return [replace(whole, readings=sizes)]


def _face(plan: TorusPlan) -> tuple[Reading, ...]:
    """By which an ellipse's height is known, with the middle's over the board as that was glued on."""
    tube = plan.asked.form.tube
    face = calliper("planned", "", plan.mountings.first.centre_height + tube.high)
    return () if tube.round else (Reading("face", "Face as sanded, over the board, at four places", face, 4),)


STAGE: Stage[TorusPlan] = Stage(ID, "Sand the first side", operations)
