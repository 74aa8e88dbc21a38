"""From stacks to pieces: slabs sawn at the layup's angle, trimmed, sanded, glued to blocks: the operations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.glue_up.operation import glue_up
from jigs.stages.layup.plan import LayupJigs, LayupPlan, columns_and_rows
from jigs.stages.layup.steps.own import SANDING, TRAY, Own, stages_for
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import MARKING, ON_SLED, SANDED, SETTING, each
from jigs.work.model import Check, Operation, at_bench, at_table_saw, right_if, uses

CAUTIONS = ("table-saw.stop", "saw.bin", "table-saw")
PINNED = ("layup.pin", "saw.bin", "table-saw")


def slabs(of: str, layup: LayupPlan, jigs: LayupJigs, sled: Sequence[Part], end: str) -> Operation:
    """The stack moves on by the pitch between cuts."""
    way = layup.way
    return at_table_saw(
        f"{of}.slabs{end}",
        "Saw the stacks to slabs on the slanted sled.",
        how=(
            "Lay the stack flat, ply edges up, its first ply against the fence, its tail towards you.",
            "First cut: just clean the steps off the leaning end."
            if way.stagger
            else "First cut: meet the stack's foot at this distance from its end.",
            "Move the stack on until its sawn end meets the pin; both hold-downs tight.",
            "Pull the pin before the blade turns, then cut.",
            "When the blade stands still, lift the slab off with a stick.",
            "Mark the corner of each slab that stood on the stack's foot.",
        ),
        makes=(way.stacks * way.pieces, "slab"),
        rings=layup.rings,
        settings=(
            Quantity("ply-angle", "Cut to the plies", way.cut_angle, "angle"),
            calliper("slab", "Thickness of each slab", way.slab),
            Quantity("pitch", "Along the plies from slab to slab", way.pitch),
            *(
                ()
                if way.stagger
                else (ruled("foot", "First cut from the end of the stack's foot", way.foot),)
            ),
            Quantity("slabs-each", "Slabs from each stack", way.pieces, "count"),
            ruled("blade-height", "Blade above the table", jigs.sled.saw_height),
        ),
        jigs=uses(sled, notes=True),
        trial="a stack of scrap: two slabs",
        checks=(
            Check(
                "slab",
                "Calliper over the slab at both ends: the same, as set",
                if_not="ends differ: the fence is not straight; both off: move the pin",
            ),
            Check(
                "mirror",
                "Two slabs, one turned over about its length: plies meet all along",
                if_not="the angle is off: prove the fence against the base's right edge",
            ),
        ),
        cautions=PINNED,
        minutes=each(way.stacks * way.pieces, ON_SLED, SETTING),
    )


def trimmed(of: str, layup: LayupPlan, jigs: LayupJigs, sled: Sequence[Part], end: str) -> Operation:
    """Both ends of every slab, the one that begins with the first ply first."""
    way, pieces = layup.way, layup.pieces + layup.spares
    sides = (calliper("side-a", "Side a", layup.layup.a), calliper("side-b", "Side b", layup.layup.b))
    return at_table_saw(
        f"{of}.trim{end}",
        "Trim the slabs to pieces, square, on the trim sled.",
        how=(
            f"First the end that begins with {layup.names[0]}, against the "
            f"{'slanted' if jigs.trim.slanted else 'square'} stop, a sawn side on the fence.",
            *(
                (
                    f"Change to the square stop {way.cut} and turn the slab end for end, the same side on the fence.",
                    "Push its square end to the stop; the corner is just sawn off.",
                )
                if jigs.trim.slanted
                else ("Turn the slab end for end, the same side on the fence, and cut the other end.",)
            ),
            "Hold-down tight on the piece before every cut; nothing stands on the waste side.",
            "Brush the dust from stop and fence before every piece.",
        ),
        makes=(pieces, "piece"),
        rings=layup.rings,
        settings=(
            Quantity("slab-length", "Cut slabs off square to", way.slab_length),
            ruled("blade-height", "Blade above the table", jigs.trim.saw_height),
        ),
        jigs=uses(sled, notes=True),
        trial="two slabs of scrap, which mirror each other edge to edge",
        checks=(
            Check("sides", "Calliper over both sides", sides, "move the stop by the error"),
            Check(
                "mirror",
                "Two pieces laid mirrored: every ply goes on in the other",
                if_not="the wrong end was cut first: sort these out",
            ),
        ),
        cautions=CAUTIONS,
        minutes=each(2 * pieces, ON_SLED, SETTING),
    )


def blocks(of: str, plan: Plan, layup: LayupPlan, own: Own, end: str) -> Iterator[Operation]:
    """Of a segment of one piece the tray only shows how its plies run."""
    tray = uses(own.parts(*TRAY), notes=True)
    if layup.per_segment == 1:
        yield _looked_at(of, layup, own, end)
        return
    if layup.sanding:  # else there is no holder either
        yield _sanded(of, layup, own, end)
    for number, stage in enumerate(stages_for(plan, layup, "pairs", "blocks")):
        pairs = stage.what == "pairs"
        yield glue_up(
            plan,
            stage,
            of,
            f"{stage.what}{end}",
            "Glue the pieces in pairs, side by side, one of each turned over."
            if pairs
            else "Glue the pairs to blocks, one on the other."
            if layup.per_segment == 4
            else "Glue the pieces in pairs to blocks, one of each turned over.",
            "pair" if pairs else "block",
            how=(
                "Put waxed paper under the work and tape on the fences.",
                "Lay the pieces dry: every ply meets its line on the base and its tick on both fences.",
                "Spread the glue, press the pieces to both fences, then down under a waxed board.",
                "Look at the lines again before the glue grabs.",
                *(
                    ()
                    if pairs or layup.plane == "face"
                    else ("Pencil the arrow on each block as the base shows it, before it leaves the tray.",)
                ),
            ),
            jigs=tray if number == 0 else (),
            checks=(
                Check(
                    "lines",
                    "Plies meet across every joint",
                    if_not="take it apart while the glue is wet; a slip of a ply shows for ever",
                ),
                *(() if pairs else (_block_size(layup),)),
            ),
        )


def _block_size(layup: LayupPlan) -> Check:
    columns, rows = columns_and_rows(layup)
    sizes = (
        calliper("along-a", "Block along a", columns * layup.across),
        calliper("along-b", "Block along b", rows * layup.up),
    )
    return Check("size", "Calliper over the block", sizes, "too large: the faces were not sanded to the line")


def _looked_at(of: str, layup: LayupPlan, own: Own, end: str) -> Operation:
    return at_bench(
        f"{of}.look{end}",
        "Lay every piece on the tray and see that its plies run as drawn.",
        how=("Pencil the arrow on each as the base shows it.",) if layup.plane != "face" else (),
        makes=(layup.blocks, "piece"),
        rings=layup.rings,
        jigs=uses(own.parts(*TRAY), notes=True),
        checks=(Check("lines", "Every ply meets its line", if_not="turn the piece over, or end for end"),),
        minutes=each(layup.blocks, MARKING),
    )


def _sanded(of: str, layup: LayupPlan, own: Own, end: str) -> Operation:
    sides = (("a", layup.layup.a, layup.across), ("b", layup.layup.b, layup.up))
    return at_bench(
        f"{of}.sand{end}",
        "Sand the faces that are glued, each piece in its holder, down to the witness edge.",
        how=(
            "Glue the abrasive to glass or to a flat board.",
            "Clamp the piece in the pocket, its face past the edge, and brush the floor clean before each.",
            "Rub until the holder's edge just touches; no further.",
        ),
        makes=(layup.pieces + layup.spares, "piece"),
        rings=layup.rings,
        settings=(calliper("sanding", "Sand off each glued face", layup.sanding),),
        jigs=uses(own.parts(*SANDING), notes=True),
        checks=right_if(
            "sides",
            "Calliper over the sanded side, or try the notches of the gauge",
            tuple(
                calliper(f"side-{name}", f"Side {name}", after) for name, cut, after in sides if after < cut
            ),
            "over: rub on; under: use it as a spare",
        ),
        cautions=("sanding.small", "sander"),
        figure=f"building.sanding-holder-{'a' if layup.across < layup.layup.a else 'b'}{own.suffix}",
        minutes=each(
            (layup.pieces + layup.spares) * len([1 for _, cut, after in sides if after < cut]), SANDED
        ),
    )
