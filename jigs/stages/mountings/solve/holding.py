"""Support board, channel and retainer: their share of the plan."""

from __future__ import annotations

from math import ceil, floor, pi, radians

from geometry.hardware.fittings import bolt_diameter, clearance_hole, fittings_for, in_inches
from geometry.lathe.turning import SWING_CLEARANCE, Channel, Retainer, bearing_forces, sticks
from jigs.asked.job import TorusJob
from jigs.stages.mountings.plan import OVER_SIZE, HoldingPlan
from jigs.words.lengths import MM_PER_INCH, Unit

# By the job's unit, common practice, no source: a smaller centre bolt below so much across; finished rim that one
# brace holds.
SMALL_WORK: dict[Unit, float] = {"mm": 200.0, "in": 8 * MM_PER_INCH}
RIM_TO_A_BRACE: dict[Unit, float] = {"mm": 125.0, "in": 5 * MM_PER_INCH}
BRACES = range(4, 13)


def solve_holding(job: TorusJob, outer_diameter: float) -> HoldingPlan:
    """The turned fixtures with their bolts and layers.

    Boards and bolts go by the torus as it was planned: they are bored and glued before its first side is sanded.
    """
    form, shop = job.form, job.workshop
    wish, contact = shop.holding, radians(shop.holding.contact)
    tube = (form.major_radius, form.tube, form.lining, contact)
    channel = Channel(*tube, relief=(wish.relief_width, wish.relief_depth))
    retainer = Retainer(*tube, wish.neck_clearance, wish.board_clearance)
    small = outer_diameter < SMALL_WORK[job.unit]
    bolt = shop.bolts.centre or job.fittings.centre[0 if small else 1]
    layer, step = shop.boards.thickness, 2 * job.fittings.drill
    board_layers = max(2, ceil((channel.depth + channel.relief_depth + wish.solid_under) / layer))
    board = min(outer_diameter + wish.beyond_rim, shop.lathe.swing_over_bed - SWING_CLEARANCE)
    normal, spread = bearing_forces(radians(30), form.friction)
    brace_bolt = fittings_for(in_inches(bolt)).brace
    return HoldingPlan(
        channel=channel,
        retainer=retainer,
        bolt=bolt,
        bolt_hole=clearance_hole(bolt),
        washer=min(wish.washer, step * floor(2 * (retainer.top_radius - 3) / step)),
        board_diameter=board,
        board_disc=board + OVER_SIZE,
        board_thickness=board_layers * layer,
        board_layers=board_layers,
        layer_thickness=layer,
        retainer_layers=ceil((retainer.height + 2) / layer),
        retainer_blank=2 * retainer.top_radius + 10,
        retainer_faceplate=min(retainer.clears, 2 * (retainer.top_radius - wish.tool_room)),
        braces=shop.bolts.braces or usual_braces(outer_diameter, job.unit),
        brace_bolt=brace_bolt,
        brace_hole=clearance_hole(brace_bolt),
        brace_circle=board - 4 * bolt_diameter(brace_bolt),
        normal_force=normal,
        spread=spread,
        sticks=sticks(radians(30), form.friction),
    )


def usual_braces(outer_diameter: float, unit: Unit) -> int:
    """How many braces hold a rim so large, where the job does not say."""
    wanted = ceil(pi * outer_diameter / RIM_TO_A_BRACE[unit])
    return min(max(wanted, BRACES[0]), BRACES[-1])
