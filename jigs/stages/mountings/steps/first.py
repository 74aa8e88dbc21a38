"""Mounting A, on the first board: the operations before anything of the torus is turned."""

from __future__ import annotations

from math import cos

from jigs.plans.torus import TorusPlan
from jigs.stages.mountings.parts.holding import holding
from jigs.stages.mountings.steps.common import balanced, runout, started
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import faceplate_screws
from jigs.work.lathe import by_two, lifted, screwed, speeds
from jigs.work.minutes import CLAMPED, DRY_RUN, FLATTENED, GAUGED, MOUNTED, SETTING, each
from jigs.work.model import Check, Operation, Rack, Reading, Stage, at_bench, at_lathe, uses

ID = "first_mounting"
SEEN = 0.01  # mm; less comes off with the pencil


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """The flats sanded, then the board turned to fit them, the blank glued to it, balanced, started."""
    return [
        _flat(plan),
        _faceplate(plan, rack),
        _board(plan, rack),
        _glue(plan),
        balanced(
            ID,
            "the board's back on the other side",
            plan.mountings.board_screws.depth,
            (ruled("within", "Block inside of Ø", 2 * plan.mountings.first.left, bound="most"),),
            ("It stays on while mounting B turns the board down to that.",),
        ),
        started(plan, ID),
    ]


def _faceplate(plan: TorusPlan, rack: Rack) -> Operation:
    return at_bench(
        f"{ID}.faceplate",
        "Screw the faceplate to the middle of the first board.",
        how=(
            "Centre the faceplate on the board's hole.",
            "Bore for the screws and drive them into the board's back, none into its edge.",
            "Look at the other face: no point comes through.",
        ),
        settings=screwed(plan.mountings.board_screws),
        known=(
            Quantity("layers", "Layers in the board", plan.holding.board_layers, "count"),
            ruled("thickness", "Board, thick", plan.holding.board_thickness),
        ),
        jigs=uses(rack.named("support-board-layer"), notes=True),
        checks=(Check("tight", "Every screw bites", if_not="a longer one, but no deeper than listed"),),
        cautions=("lathe.screws",),
        minutes=each(plan.mountings.board_screws.count, CLAMPED),
        uses_up=(faceplate_screws(plan.mountings.board_screws),),
    )


def _board(plan: TorusPlan, rack: Rack) -> Operation:
    first, held = plan.mountings.first, plan.holding
    return at_lathe(
        f"{ID}.board",
        "Turn the first board: rim, face and spigot, and scribe the circle.",
        how=(
            "Turn the rim to its diameter.",
            "Turn the face flat from the rim to the spigot, and leave the spigot standing.",
            "Scribe the circle on the face; the blank's outer corners meet it.",
        ),
        settings=(
            *speeds(plan.rim_speed),
            ruled("board", "Board, across", held.board_diameter),
            calliper("spigot", "Spigot, across", 2 * first.spigot_radius),
            calliper("spigot.height", "Spigot, high", first.spigot_height),
            ruled("scribed", "Scribed circle, across", 2 * first.scribed),
        ),
        jigs=uses(rack.named("first-board-section"), notes=True),
        checks=(
            Check(
                "flat",
                "Straight edge over the face, beside the spigot: no light",
                if_not="turn the face again",
            ),
            Check(
                "spigot",
                "Try the dry blank on it: its inner flats slip over the spigot without play",
                if_not="tight: turn the spigot down; loose: centre by the scribed circle",
            ),
            runout(plan, "the board's face and rim", "turn it again"),
        ),
        cautions=("lathe", "lathe.speed", "lathe.stand"),
        minutes=MOUNTED + GAUGED,
    )


def _flat(plan: TorusPlan) -> Operation:
    mounts = plan.mountings
    wider = mounts.sanded > SEEN
    return at_bench(
        f"{ID}.flat",
        "Sand the blank's flats on one side into one plane, for the glue.",
        how=(
            "Measure the blank for the boxes below before you sand: they are planned as it was glued.",
            "Take the side whose flats lie best in one plane, and scribble pencil over them.",
            "Rub the whole blank on abrasive on a large flat board, or over a long sanding board.",
            "Sand on past the pencil until every flat is as wide as listed, and stop there."
            if wider
            else "Stop when the pencil is gone from every flat.",
        ),
        known=(calliper("sanded", "Comes off in all", mounts.sanded),) if wider else (),
        checks=(
            Check(
                "width",
                "Calliper over the width of a flat",
                (calliper("flat", "Flat, wide, at least", mounts.waste_flat, bound="least"),),
                "narrower: sand on" if wider else "narrower: sand on; wider does no harm",
            ),
            Check("plane", "The blank lies on the board and does not rock", if_not="rub on"),
        ),
        cautions=("sander",),
        readings=_blank_readings(plan),
        minutes=each(2, FLATTENED, SETTING),
    )


def _blank_readings(plan: TorusPlan) -> tuple[Reading, ...]:
    """What the blank still holds, and how level it lies."""
    blank = plan.blank
    hole = 2 * blank.inner_radius / cos(blank.half_wedge)
    outside = "arrises" if blank.arris_out else "flats"
    middle = calliper("planned", "", blank.apothem)
    return (
        Reading(
            "across", f"Least across the outer {outside}", calliper("planned", "", 2 * blank.outer_radius)
        ),
        Reading("hole", "Greatest across the hole, joint to joint", calliper("planned", "", hole)),
        Reading("height", "Least height, flat to flat", calliper("planned", "", 2 * blank.apothem)),
        Reading("offset", "Middle of the hole off the middle of the rim", by="rule"),
        Reading("heights", "Pencil lines round the middle, over a flat table, at 8 equal angles", middle, 8),
    )


def _glue(plan: TorusPlan) -> Operation:
    first, glue = plan.mountings.first, plan.wood.glue
    height = calliper("centre", "Middle of the tube over the board's face", first.centre_height)
    return at_bench(
        f"{ID}.glue",
        "Glue the blank to the first board by its sanded flats, and let it cure.",
        how=(
            "Spread glue on the flats, wood on wood, no paper.",
            "Set the blank over the spigot, its outer corners on the scribed circle all round.",
            "Clamp it at every second flat, and look at the circle again before the glue sets.",
            *by_two(
                plan.mountings.lifted, "Once the glue is cured, two lift board and blank onto the spindle."
            ),
        ),
        known=lifted(plan.mountings.lifted, "board"),
        settings=(Quantity("cure", "Cure, before it turns", glue.cure, "hours"),),
        checks=(
            Check(
                "centred",
                "Every outer corner stands on the scribed circle",
                if_not="push it over while the glue is wet",
            ),
            Check(
                "height",
                "Measure from the board's face to the middle of the blank's rim",
                (height,),
                "write down what you measure: the standing gauges are shimmed by the difference",
            ),
        ),
        cautions=("bench",),
        readings=(Reading("centre", "Middle of the tube over the board", height),),
        minutes=DRY_RUN + plan.job.workshop.glue.open_time,
        hours=glue.cure,
    )


STAGE: Stage[TorusPlan] = Stage(ID, "Mounting A: on the first board", operations, jigs=(holding,))
