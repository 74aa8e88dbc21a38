"""A ring that is glued on the stack, cut through the axis: its plate in its opening, the tailstock's point in that."""

from __future__ import annotations

from jigs.figures.figure import Figure
from jigs.figures.items import Arrow, Callout, Item, area, box, line, polygon
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import named
from jigs.figures.turning.vessel import BLOCK, PLATE, both
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_rings.plan import CentringPlate
from jigs.stages.stack.steps import PICTURE, pictured

LIFT = 12.0  # mm that the ring is drawn over the stack
POINT, QUILL, SHANK = 6.0, 11.0, 34.0  # mm of the live centre: its point, half its width, its length
SCRAP = 40.0  # mm: half of a scrap board


def ring_on(plan: VesselPlan) -> Figure | None:
    """Of the ring that is shown; None where all are open."""
    plates = {ring: plate for plate in plan.ring_boards.centring if not plate.gap for ring in plate.rings}
    layer = pictured(plan)
    if layer is None:
        return None
    below = [one for one in plan.stack.layers if one.number < layer.number]
    top, side = layer.ring.top + LIFT, layer.ring.outer
    thin = layer.ring.height < plan.job.workshop.boards.sheet
    told = (
        f"the plate lies in its opening, flush with its {'lower' if thin else 'upper'} face"
        if layer.number in plates
        else "a board lies on it"
    )
    return Figure(
        PICTURE,
        "A ring is glued on, cut through the axis",
        f"Ring {layer.number} goes onto the stack: {told}, and the tailstock's point presses it home.",
        (
            *(area(half, fill="wood") for one in below for half in both(plan.stack.cut_through(one))),
            *(area(half.moved(0.0, LIFT), fill="other wood") for half in both(plan.stack.cut_through(layer))),
            *_pressed(plan, plates.get(layer.number), top, layer.ring.height),
            *_standing(plan, top),
            Arrow((side + 16, top), (side + 16, top - LIFT - 10), paint="blade"),
            Callout(f"ring {layer.number}", (side - 4, top - 0.5 * layer.ring.height), "right"),
            *(
                Callout(
                    f"ring {one.number}", (2 - one.ring.outer, one.ring.bottom + one.ring.height / 2), "left"
                )
                for one in below
            ),
        ),
        height=115.0,
    )


def _pressed(plan: VesselPlan, plate: CentringPlate | None, top: float, ring: float) -> tuple[Item, ...]:
    """The plate in the opening, or a board over the ring; the tailstock's point in or on it."""
    t = plan.job.workshop.boards.sheet
    wide, low = (plate.apothem, top - min(t, ring)) if plate else (SCRAP, top)
    high = low + t
    what = (
        named("plate", f"centring-plate-ring-{'-'.join(map(str, plate.rings))}") if plate else "scrap board"
    )
    tip = [(-POINT, high), (0.0, high - POINT), (POINT, high), (QUILL, high + POINT), (QUILL, high + SHANK),
           (-QUILL, high + SHANK), (-QUILL, high + POINT)]  # fmt: skip
    return (
        box(-wide, low, wide, high, fill="jig"),
        polygon(tip, fill="metal"),
        Callout(what, (0.7 * wide, high - t / 2), "right"),
        Callout("tailstock's point", (QUILL - 2, high + 0.7 * SHANK), "right"),
    )


def _standing(plan: VesselPlan, top: float) -> tuple[Item, ...]:
    """What the stack stands on, and the axis."""
    base, across = plan.stack.bottom - BLOCK, plan.stack.waste_across[1] / 2
    return (
        box(-across, base, across, plan.stack.bottom, fill="waste"),
        box(-across, base - PLATE, across, base, fill="metal"),
        line((0.0, base - PLATE - 8), (0.0, top + 1.4 * SHANK), dashes=CENTRE_LINE),
        Callout("waste block", (across - 4, base + BLOCK / 2), "right"),
        Callout("faceplate", (across - 4, base - PLATE / 2), "right"),
    )
