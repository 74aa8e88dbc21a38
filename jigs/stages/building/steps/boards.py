"""What is glued from layers: boards and plugs for the lathe, blocks for clamps and braces; boards that are waxed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from geometry.hardware.fittings import called
from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.building.steps.common import ID, built, fitting, flush_text, named
from jigs.words.quantity import Quantity, ruled
from jigs.work.hardware import bolts, piece, washed_bolts
from jigs.work.minutes import FITTED, MARKING, each
from jigs.work.model import Check, Goods, Operation, Rack, at_bench, builds, right_if
from jigs.work.supplies import layers_glued

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan
    from jigs.stages.holding_by_mouth.plan import PlugBolt

SPREAD = "Spread glue thin and even on the whole face."
LAYERS = (
    SPREAD,
    "Line the layers up by a rod through the middle hole, waxed so that it comes out again.",
    "Cross the grain of each layer with that of the next where they are solid wood.",
    "Clamp all round, the middle first; pull the rod out before the glue sets.",
)
BORED = (
    SPREAD,
    "Line the layers up by a rod through the middle hole and bolts through two of the braces' holes.",
    "Wax rod and bolts: they come out again. Solid wood: cross the grain as well as those holes let you.",
    "Clamp all round, the middle first; pull rod and bolts out before the glue sets.",
)
TIGHT = Check(
    "tight",
    "Tap it all over once dry: one sound everywhere; no gap at the rim",
    if_not="make it anew; never spin a board that sounds dull",
)


def lathe_boards(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Support boards, retainer, braces, all glued before they are turned or bolted on."""
    held = plan.holding
    return [
        _layers(
            plan,
            "support-boards",
            "Glue up the two support boards.",
            rack.named("support-board-layer"),
            (
                Quantity("boards", "Boards", 2, "count"),
                Quantity("layers", "Layers in each", held.board_layers, "count"),
            ),
            how=BORED,
        ),
        _layers(
            plan,
            "retainer",
            "Glue up the retainer.",
            rack.named("retainer-layer"),
            (Quantity("layers", "Layers", held.retainer_layers, "count"),),
        ),
        _braces(plan, rack),
    ]


def _layers(
    plan: Plan,
    id: str,
    does: str,
    parts: list[Part],
    settings: tuple[Quantity, ...],
    more: tuple[Goods, ...] = (),
    how: tuple[str, ...] = LAYERS,
) -> Operation:
    """Cured before they spin."""
    return at_bench(
        id=f"{ID}.{id}",
        does=does,
        how=how,
        settings=settings,
        jigs=builds(parts),
        checks=(TIGHT,),
        cautions=("bench",),
        minutes=fitting(parts),
        hours=plan.wood.glue.clamp_time + plan.wood.glue.cure,
        uses_up=(*layers_glued(plan, parts), *more),
    )


def _braces(plan: TorusPlan, rack: Rack) -> Operation:
    """Each set numbered; they are brought to their height when the waste flat is measured."""
    brace = plan.mountings.brace
    parts = rack.named("brace-block-layer", "brace-pad", "brace-strap")
    return built(
        plan,
        "braces",
        "Glue up the blocks under the braces, and sort a pad and a strap to each.",
        (
            "Glue the layers of each block together, ends flush.",
            "Bolt strap, pad and block together loosely; number each set.",
        ),
        parts,
        washed_bolts("brace", "Bolts for the braces", plan.holding.braces, brace.bolt, brace.through),
        right_if(
            "holes", "Push the bolt through each set by hand", if_not="open the block's hole with a file"
        ),
        glued=brace.layers > 1,
    )


def clamp_blocks(plan: TorusPlan, rack: Rack) -> Iterator[Operation]:
    """Blocks that give clamps parallel faces; none where the flats are too small for them."""
    parts = rack.named("clamp-block-flat", "clamp-block-rim")
    if not parts:
        return
    yield built(
        plan,
        "clamp-blocks",
        "Glue up the clamp blocks.",
        (
            "Glue the layers of each block together, all edges flush.",
            "Make half of them mirror images: turn the stack over before you letter it.",
            "Draw the lines across all layers.",
        ),
        parts,
        [
            Quantity(f"layers.{part.name}", f"Layers in each {part.code}", part.stack, "count")
            for part in parts
        ],
        right_if(
            "upright",
            "Square on the bench against the faces that clamps press: no light",
            if_not="sand the stack on a flat board",
        ),
    )


def vessel_boards(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Glue-up boards waxed, the slip box, the plug that holds the vessel by its mouth."""
    return [*_glue_up_boards(rack), *slip_box(plan, rack), *_mouth_plug(plan, rack)]


def _glue_up_boards(rack: Rack) -> Iterator[Operation]:
    parts = rack.of("glue_up")
    if not parts:
        return
    yield at_bench(
        id=f"{ID}.glue-up-boards",
        does="Make the glue-up boards ready: flat, and nothing sticks to them.",
        how=(
            "Lay each flat on the bench; screw a batten behind one that is bent.",
            "Wax it, or cut paper to lay under each ring: glue must not hold here.",
        ),
        jigs=builds(parts),
        checks=right_if(
            "flat", "Straight edge across it both ways: no light", if_not="screw it to a flat board"
        ),
        minutes=each(len(parts), MARKING, FITTED),
    )


def slip_box(plan: Plan, rack: Rack) -> list[Operation]:
    """The box for slips; none where there are none."""
    box = plan.slip_box
    if box is None:
        return []
    parts = named(rack, "slip-box-base", "slip-box-fence", "slip-box-hold")
    return [
        built(
            plan,
            "slip-box",
            "Build the box in which slips are sawn to length by hand.",
            (
                "Glue the fence into the base.",
                f"Countersink the base below, {flush_text(plan)}; put the two bolts through it from there.",
                "Lay the hold-down on them, washers and wing nuts on top.",
                "Saw the guide cut through the fence at its line, a square beside the saw.",
            ),
            parts,
            (
                bolts(
                    "hold",
                    "Bolts with wing nuts",
                    len(box.bolts),
                    plan.job.fittings.bolt,
                    3 * box.sheet,
                    "wing nut",
                    True,
                ),
                ruled("longest", "Longest slip", box.longest),
            ),
            right_if(
                "cut",
                "Saw one slip of scrap: a square shows no light at its end",
                if_not="turn the fence's other face to the work and saw a new guide cut",
            ),
            cautions=("slip", "hand-saw", "bench"),
        )
    ]


def _mouth_plug(plan: VesselPlan, rack: Rack) -> Iterator[Operation]:
    plug = plan.reversing.plug
    if plug is None:
        return
    parts = rack.named("mouth-plug-layer", "mouth-plug-flange-layer")
    told = (
        Quantity("plug", "Layers of the plug", plug.front_layers, "count"),
        ruled("plug-across", "Plug's layers, across", plug.front_blank),
        Quantity("flange", "Layers of the flange", plug.back_layers, "count"),
        ruled("flange-across", "Flange's layers, across", plug.back_blank),
    )
    yield _layers(
        plan,
        "mouth-plug",
        f"Glue up the plug that will hold the {plan.job.called.whole} by its {plan.job.called.mouth}.",
        parts,
        told,
        _plug_bolt(plug.bolt),
    )


def _plug_bolt(bolt: PlugBolt | None) -> tuple[Goods, ...]:
    """Where it goes through the floor."""
    if bolt is None:
        return ()
    length = ruled("length", "Length at least", bolt.length, bound="least")
    washer = ruled("washer", "Washer across", bolt.washer)
    return (piece("bolt.plug", f"{called(bolt.thread)} bolt with nut and large washer", 1, length, washer),)
