"""A layup, from plies to blocks on rails: the operations, for either form."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.plans.plan import Plan, by_form
from jigs.stages.glue_up.operation import DRY_FIT, glue_up
from jigs.stages.layup.layout.rail import WIDTH
from jigs.stages.layup.plan import LayupJigs, LayupPlan
from jigs.stages.layup.steps.own import SLED, TRIM, Own, plies, stages_for
from jigs.stages.layup.steps.pieces import blocks, slabs, trimmed
from jigs.stages.layup.steps.whole import ID
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import MARKING, RIPPED, SETTING, each
from jigs.work.model import Check, Operation, Rack, at_table_saw, right_if
from jigs.work.steps import nth
from jigs.work.woods import dusty, irritants

FACE = "Mark the same face of every sheet and strip, and with it the order of the plies."


def from_plies(plan: Plan, rack: Rack) -> list[Operation]:
    """For each size of pieces: sheets, strips, stacks, slabs, pieces, blocks, rails."""
    return [
        found
        for number, (layup, jigs) in enumerate(zip(plan.layups, plan.layup_jigs, strict=True), 1)
        for found in _layup(plan, layup, jigs, nth(number), rack)
    ]


def _layup(plan: Plan, layup: LayupPlan, jigs: LayupJigs, end: str, rack: Rack) -> Iterator[Operation]:
    yield from _sheets(plan, layup, end)
    yield _strips(layup, end)
    yield from _stacks(plan, layup, end)
    own = Own(rack, jigs.suffix)
    yield slabs(ID, layup, jigs, own.parts(*SLED), end)
    yield trimmed(ID, layup, jigs, own.parts(*TRIM), end)
    yield from blocks(ID, plan, layup, own, end)
    yield _rails(plan, layup, end)


def _sheets(plan: Plan, layup: LayupPlan, end: str) -> Iterator[Operation]:
    wish = plan.job.layup
    if wish is None or not layup.way.sheets:
        return
    yield Operation(
        f"{ID}.plies{end}",
        "Buy the plies or plane them, and cut them to the size of the sheet.",
        "shop",
        how=(
            "Let the grain of all of them run along the sheet.",
            "Stack them in their order and number them.",
        ),
        rings=layup.rings,
        settings=(
            ruled("width", "Every ply, wide", wish.sheet_width),
            ruled("length", "Every ply, long", wish.sheet_length),
            *(
                found
                for number, (name, thick, count) in enumerate(layup.plies_wanted, 1)
                for found in (
                    Quantity(f"ply-{number}", f"Plies of {name}", count, "count"),
                    calliper(f"ply-{number}.thickness", "Thickness", thick),
                )
            ),
            *irritants(plan),
        ),
        cautions=dusty(plan),
        checks=right_if(
            "thickness",
            "Calliper over each ply at its corners",
            if_not="state the plies as they are under [layup], for the pattern's repeat is their sum",
        ),
        minutes=each(sum(count for *_, count in layup.plies_wanted), MARKING),
        uses_up=plies(plan, layup),
    )
    for stage in stages_for(plan, layup, "sheets"):
        sheet = calliper("sheet", "Sheet, thick", layup.layup.sheet)
        yield glue_up(
            plan,
            stage,
            ID,
            f"sheets{end}",
            "Glue the plies to sheets.",
            "sheet",
            how=(
                "Press them between two flat boards, waxed, with battens across.",
                "Keep their edges flush, and the order of the plies the same in every sheet.",
                FACE,
            ),
            checks=(
                DRY_FIT,
                Check("sheet", "Calliper over the dry sheet", (sheet,), "sand it, or state what it is"),
            ),
        )


def _strips(layup: LayupPlan, end: str) -> Operation:
    return at_table_saw(
        f"{ID}.strips{end}",
        "Rip strips from the sheets, plane both edges, and cut them to length.",
        how=("Rip along the grain.", "Take half of the extra width off each edge.", FACE),
        makes=(layup.way.strips_in_all, "strip"),
        rings=layup.rings,
        settings=(
            Quantity("rip-fence", "Rip fence to blade", layup.strip_width),
            calliper("width", "Plane to width", layup.layup.depth),
            ruled("strip-length", "Length of each strip", layup.way.strip_length),
        ),
        trial="a strip of scrap",
        checks=(Check("width", "Calliper along the strip; a square on both edges", if_not="plane again"),),
        cautions=("table-saw.rip", "table-saw", "planer"),
        minutes=each(layup.way.strips_in_all, RIPPED, SETTING),
    )


def _stacks(plan: Plan, layup: LayupPlan, end: str) -> Iterator[Operation]:
    for stage in stages_for(plan, layup, "stacks"):
        way = layup.way
        yield glue_up(
            plan,
            stage,
            ID,
            f"stacks{end}",
            "Glue the strips face to face to stacks.",
            "stack",
            how=(
                "Lay the strips between straight battens, marked faces all down.",
                "Set each strip back on the one below it, all the same way."
                if layup.way.stagger
                else "Keep both ends flush.",
                *(
                    ("Glue this many strips at a time; a stack grows from batch to batch.",)
                    if layup.stack_goes > 1
                    else ()
                ),
            ),
            settings=(
                *(
                    [Quantity("strips-each", "Strips in each stack", way.strips, "count")]
                    if layup.stack_goes > 1
                    else []
                ),
                *([Quantity("stagger", "Set each strip back by", way.stagger)] if way.stagger else []),
            ),
        )
    for stage in stages_for(plan, layup, "scrap behind them"):
        yield glue_up(
            plan,
            stage,
            ID,
            f"tails{end}",
            "Glue scrap of the same section behind each stack.",
            "stack",
            how=(
                "Glue it to the end that is sawn last.",
                "The hold-down has nothing else to hold in the last cut.",
            ),
            settings=(
                ruled("tail", "Scrap behind each stack, long, at least", layup.way.tail, bound="least"),
            ),
        )


def _rails(plan: Plan, layup: LayupPlan, end: str) -> Operation:
    (stage,), rail = stages_for(plan, layup, "blocks on rails"), layup.rail
    side = by_form(plan, torus=lambda _: "one ring face", vessel=lambda _: "their inner sides")
    hands = layup.seams.other_hand
    return glue_up(
        plan,
        stage,
        ID,
        f"rails{end}",
        "Glue the blocks in a row to rails of scrap, paper in the joint, so that they can be held.",
        "block",
        how=(
            f"Glue them by {side}, brown paper between, the grain of the rail along it.",
            "Leave a gap before the first block and between all of them, for the saw.",
            "Glue the scrap behind the last block: the hold-down holds it in the last cut.",
            "Keep blocks and rail level on both faces, and the blocks' free sides in one line.",
            *(("Turn over the blocks of the other hand before they go on, and mark them.",) if hands else ()),
        ),
        settings=(
            Quantity("rails", "Rails", rail.rails, "count"),
            Quantity("blocks-each", "Blocks on each rail", rail.each, "count"),
            Quantity("gap", "Gap between blocks", rail.gap),
            ruled("rail.length", "Rail of scrap, length", rail.length),
            ruled("rail.width", "Rail width", WIDTH),
            calliper("rail.thickness", "Rail thickness, as the blocks", rail.thickness),
            ruled("rail.held", "Scrap behind the last block", rail.held),
            *((Quantity("other-hand", "Segments of the other hand", hands, "count"),) if hands else ()),
        ),
        checks=(
            Check(
                "line",
                "Straight edge along the blocks' free sides and over both faces: no light",
                if_not="plane the faces level; a block out of line is split off and glued again",
            ),
            Check("tap", "Tap every block: none sounds loose", if_not="split it off and glue it again"),
        ),
    )
