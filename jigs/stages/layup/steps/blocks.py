"""Pieces sanded and glued to the blocks of segments: the operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.plans.plan import Plan
from jigs.stages.glue_up.operation import glue_up
from jigs.stages.layup.plan import LayupPlan, columns_and_rows
from jigs.stages.layup.steps.own import SANDING, TRAY, Own, stages_for
from jigs.words.quantity import calliper
from jigs.work.minutes import MARKING, SANDED, each
from jigs.work.model import Check, Operation, uses


def blocks(of: str, plan: Plan, layup: LayupPlan, own: Own, end: str) -> Iterator[Operation]:
    """Of a segment of one piece the tray only shows how its plies run."""
    tray = uses(own.parts(*TRAY), notes=True)
    if layup.per_segment == 1:
        yield _looked_at(of, layup, own, end)
        return
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
    return Operation(
        f"{of}.look{end}",
        "bench",
        "Lay every piece on the tray and see that its plies run as drawn.",
        how=("Pencil the arrow on each as the base shows it.",) if layup.plane != "face" else (),
        pieces=layup.blocks,
        comes="piece",
        rings=layup.rings,
        jigs=uses(own.parts(*TRAY), notes=True),
        checks=(Check("lines", "Every ply meets its line", if_not="turn the piece over, or end for end"),),
        minutes=each(layup.blocks, MARKING),
    )


def _sanded(of: str, layup: LayupPlan, own: Own, end: str) -> Operation:
    sides = (("a", layup.layup.a, layup.across), ("b", layup.layup.b, layup.up))
    return Operation(
        f"{of}.sand{end}",
        "bench",
        "Sand the faces that are glued, each piece in its holder, down to the witness edge.",
        how=(
            "Glue the abrasive to glass or to a flat board.",
            "Clamp the piece in the pocket, its face past the edge, and brush the floor clean before each.",
            "Rub until the holder's edge just touches; no further.",
        ),
        pieces=layup.pieces + layup.spares,
        comes="piece",
        rings=layup.rings,
        settings=(calliper("sanding", "Sand off each glued face", layup.sanding),),
        jigs=uses(own.parts(*SANDING), notes=True),
        checks=(
            Check(
                "sides",
                "Calliper over the sanded side, or try the notches of the gauge",
                tuple(
                    calliper(f"side-{name}", f"Side {name}", after)
                    for name, cut, after in sides
                    if after < cut
                ),
                "over: rub on; under: use it as a spare",
            ),
        ),
        cautions=("sanding.small", "sander"),
        figure=f"building.sanding-holder-{'a' if layup.across < layup.layup.a else 'b'}{own.suffix}",
        minutes=each(
            (layup.pieces + layup.spares) * len([1 for _, cut, after in sides if after < cut]), SANDED
        ),
    )
