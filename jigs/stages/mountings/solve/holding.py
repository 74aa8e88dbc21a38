"""Support board, channel and retainer: their share of the plan."""

from __future__ import annotations

from math import ceil, floor, pi, radians

from geometry.hardware.fasteners import bolt_diameter, clearance_hole, in_inches
from geometry.hardware.fittings import fittings_for
from geometry.lathe.turning import Channel, Retainer, bearing_forces, sticks
from jigs.asked.job import TorusJob
from jigs.stages.lathe.limits import SWING_CLEARANCE
from jigs.stages.mountings.plan.holding import OVER_SIZE, HoldingPlan

SMALL_WORK = 200.0  # mm across: a smaller centre bolt below
RIM_TO_A_BRACE = 125.0  # mm of the finished rim that one brace holds; common practice, no source
BRACES = range(4, 13)


def solve_holding(job: TorusJob) -> HoldingPlan:
    """The turned fixtures with their bolts and layers."""
    form, shop = job.form, job.workshop
    wish, contact = shop.holding, radians(shop.holding.contact)
    tube = (form.major_radius, form.tube, form.lining, contact)
    channel = Channel(*tube, relief=(wish.relief_width, wish.relief_depth))
    retainer = Retainer(*tube, wish.neck_clearance, wish.board_clearance)
    small = form.outer_diameter < SMALL_WORK
    bolt = shop.bolts.centre or job.fittings.centre[0 if small else 1]
    layer = shop.boards.thickness
    board_layers = max(2, ceil((channel.depth + channel.relief_depth + wish.solid_under) / layer))
    board = min(form.outer_diameter + wish.beyond_rim, shop.lathe.swing_over_bed - SWING_CLEARANCE)
    normal, spread = bearing_forces(radians(30), form.friction)
    brace_bolt = fittings_for(in_inches(bolt)).brace
    return HoldingPlan(
        channel=channel,
        retainer=retainer,
        bolt=bolt,
        bolt_hole=clearance_hole(bolt),
        washer=min(wish.washer, 2 * floor(retainer.top_radius - 3)),
        board_diameter=board,
        board_disc=board + OVER_SIZE,
        board_thickness=board_layers * layer,
        board_layers=board_layers,
        layer_thickness=layer,
        retainer_layers=ceil((retainer.height + 2) / layer),
        retainer_blank=2 * retainer.top_radius + 10,
        retainer_faceplate=min(retainer.clears, 2 * (retainer.top_radius - wish.tool_room)),
        braces=shop.bolts.braces or usual_braces(form.outer_diameter),
        brace_bolt=brace_bolt,
        brace_hole=clearance_hole(brace_bolt),
        brace_circle=board - 4 * bolt_diameter(brace_bolt),
        normal_force=normal,
        spread=spread,
        sticks=sticks(radians(30), form.friction),
    )


def usual_braces(outer_diameter: float) -> int:
    """How many braces hold a rim so large, where the job does not say."""
    wanted = ceil(pi * outer_diameter / RIM_TO_A_BRACE)
    return min(max(wanted, BRACES[0]), BRACES[-1])
