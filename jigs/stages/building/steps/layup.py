"""What a layup is sawn, trimmed, sanded and glued on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from jigs.plans.plan import Plan
from jigs.stages.building.steps.common import Sled, body, built, first_pass, holds, named, runner
from jigs.stages.building.steps.sleds import SQUARE_TO_CUT, UPRIGHT, pinned_stops
from jigs.words.quantity import Quantity, ruled
from jigs.work.hardware import bolts, pins
from jigs.work.model import Operation, Rack, right_if

if TYPE_CHECKING:  # a job without a layup loads none of them
    from jigs.stages.layup.layout.tray import SandingHolder
    from jigs.stages.layup.plan import LayupJigs


def layup_jigs(plan: Plan, rack: Rack) -> list[Operation]:
    """For each layup its two sleds, its trays and its sanding holders."""
    return [
        operation
        for jigs in plan.layup_jigs
        for operation in (
            *_angled(plan, rack, jigs),
            *_trim(plan, rack, jigs),
            _tray(plan, rack, jigs),
            *(_holder(plan, rack, jigs, holder) for holder in jigs.holders),
        )
    ]


def _angled(plan: Plan, rack: Rack, jigs: LayupJigs) -> Iterator[Operation]:
    layout, end = jigs.sled, jigs.suffix
    sled = Sled(f"layup-sled{end}", f"layup sled{_which(end)}", "layup", end)
    pin = (pins("Pin for the stack's pitch, across", plan.job.fittings.pin, layout.sheet),)
    yield body(plan, rack, sled, ())
    yield from runner(plan, rack, sled)
    yield holds(plan, rack, sled, ("hold", "slab-hold"), ("slab-foot",))
    yield first_pass(
        sled,
        (ruled("height", "Blade above the table", layout.saw_height), *pin),
        right_if(
            "angle",
            "Cut two slabs of scrap: both sides of a slab are parallel, its ends lean as the fence does",
            (Quantity("angle", "Fence to the blade", layout.angle, "angle"),),
            "shim one end of the fence",
        ),
        UPRIGHT,
    )


def _which(end: str) -> str:
    """Behind a sled's name: the first layup's has no number."""
    return f" {end.removeprefix('-')}" if end else ""


def _trim(plan: Plan, rack: Rack, jigs: LayupJigs) -> Iterator[Operation]:
    layout, end = jigs.trim, jigs.suffix
    sled = Sled(f"trim-sled{end}", f"trim sled{_which(end)}", "layup-trim", end)
    stops = Sled(sled.id, sled.what, "layup", end)
    yield body(plan, rack, sled, ())
    yield from runner(plan, rack, sled)
    yield holds(plan, rack, sled, ("hold",))
    yield pinned_stops(plan, rack, stops, ("slanted-stop", "square-stop-a", "square-stop-b"))
    yield first_pass(
        sled, (ruled("height", "Blade above the table", layout.saw_height),), (SQUARE_TO_CUT,), UPRIGHT
    )


def _tray(plan: Plan, rack: Rack, jigs: LayupJigs) -> Operation:
    end = jigs.suffix
    names = (f"layup-tray{end}", f"layup-tray-fence-a{end}", f"layup-tray-fence-b{end}")
    return built(
        plan,
        f"layup-tray{end}",
        f"Glue up the tray{_which(end)} in which segments are glued.",
        (
            "Glue both fences into the base, ticks towards the work.",
            "Set each square to the base, and both square to one another.",
        ),
        named(rack, *names),
        checks=right_if(
            "square",
            "Square in the corner of the two fences, and on the base against each: no light",
            if_not="turn the fence that shows light before the glue grabs",
        ),
    )


def _holder(plan: Plan, rack: Rack, jigs: LayupJigs, holder: SandingHolder) -> Operation:
    side = f"{holder.side}{jigs.suffix}"
    names = (f"layup-sanding-pocket-{side}", f"layup-sanding-back-{side}", f"layup-sanding-bar-{side}")
    return built(
        plan,
        f"sanding-holder-{side}",
        f"Build the sanding holder for the sides {holder.side}{_which(jigs.suffix)}.",
        (
            "Glue the pocket's plates on the back on a flat board, reference edges down on it.",
            "Bolt the bar on with wing nuts, heads behind.",
        ),
        named(rack, *names),
        (
            bolts(
                "bar",
                "Bolts with wing nuts",
                len(holder.bolts),
                plan.job.fittings.bolt,
                (holder.layers + 2) * holder.sheet,
                "wing nut",
            ),
        ),
        right_if(
            "edge",
            "Straight edge along the reference edge of all plates: no light",
            if_not="sand that edge straight on a flat board; more is then left on each piece",
        ),
    )
