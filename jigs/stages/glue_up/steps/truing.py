"""The ends of quarters and halves, checked and sanded to the planned line: the operations."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

from jigs.measured.glued import glued_wedges
from jigs.plans.torus import TorusPlan
from jigs.stages.glue_up.plan import GlueStage
from jigs.words.quantity import Quantity, calliper
from jigs.work.minutes import CHECKED, FLATTENED, SETTING, each
from jigs.work.model import Check, Operation, Rack, Reading, at_bench, right_if, uses

BARE = "All ends are bare here: the strips between quarters, and between halves, go in as those are glued."
KEPT = (
    "Then the half that was glued before, where the half check shows light: down to the same line, past it only until "
    "both ends are clean."
)
CARRIER = ("truing-carrier", "truing-base", "truing-board", "truing-cheek", "truing-bar")


def check_quarters(plan: TorusPlan, stage: GlueStage, rack: Rack, of: str) -> Iterator[Operation]:
    """Where the torus has four alike: each in the check corner, and its ends trued where they need it."""
    yield at_bench(
        f"{of}.check-quarters",
        "Lay each quarter in the check corner; true its ends only if light shows.",
        how=(
            "Light at the rim: it spans too little; light at the hole: too much.",
            "On the truing carrier: put the odd cheek in, the quarter at the right, one end to the abrasive.",
            "Flip it for its other end; pack the clamp's bar where there is no wood under it.",
            *((BARE,) if plan.blank.ring_spacer else ()),
            "Leave the ends marked END; they are trued with their half.",
        ),
        makes=(stage.count, "quarter"),
        rings=stage.rings,
        jigs=uses(rack.named("check-corner", *CARRIER)),
        checks=right_if(
            "corner",
            "No light along either arm of the check corner",
            (Quantity("angle", "Its angle", plan.check.angle, "angle"),),
            "sand the end that shows it; if all four err alike, shim the sled's wedge before the next torus",
        ),
        cautions=("sander",),
        minutes=each(stage.count, CHECKED + FLATTENED),
    )


def true_halves(plan: TorusPlan, rack: Rack, of: str) -> Iterator[Operation]:
    """The check plate first, which shows how much a half errs, then the carrier."""
    yield _check(plan, rack, of)
    yield _true(plan, rack, of)


def _check(plan: TorusPlan, rack: Rack, of: str) -> Operation:
    errors = plan.errors
    told = tuple(half for half in errors.halves if half.error > 0)
    return at_bench(
        f"{of}.check-halves",
        "Lay the half check on both ends of each half, and measure the light.",
        how=(
            "Hold it near the bottom, the middle and the top; its middle is the axis of the torus.",
            "Light at the rim: the half spans too little. Light at the hole: it spans too much.",
            "Call the halves 1 and 2, and pencil it on them.",
            "Measure the light with feeler gauges and write it down before you sand.",
            "Write the light at one end of a half. If its ends differ, add both and write half of that.",
        ),
        makes=(2, "half"),
        known=(
            *(
                calliper(
                    f"light-{number}",
                    f"Half out by {degrees(half.error):.2g}°: light at each end",
                    half.light,
                )
                for number, half in enumerate(told, 1)
            ),
            Quantity("ring-error", "If every ring is out by", errors.ring, "angle"),
            Quantity("half-error", "a half is out by", errors.half, "angle"),
            Quantity(
                "most-short",
                "A half still holds the torus if it is short by, at most",
                errors.most_short,
                "angle",
            ),
        ),
        jigs=uses(rack.named("half-check"), notes=True),
        checks=right_if(
            "short",
            "No half is shorter than it may be",
            if_not="saw it open and put a thicker ring in; sanding cannot make it longer",
        ),
        readings=(
            Reading("light-at-rim", "Light at the rim, at one end: half 1, half 2", count=2, by="feeler"),
            Reading("light-at-hole", "Light at the hole, at one end: half 1, half 2", count=2, by="feeler"),
        ),
        minutes=each(2, CHECKED),
    )


def _true(plan: TorusPlan, rack: Rack, of: str) -> Operation:
    spare, there = plan.job.form.half_sanding, _there(plan)
    halves = 1 if plan.half_glued and not there else 2
    return at_bench(
        f"{of}.true-halves",
        f"Sand both ends of {'the new' if plan.half_glued else 'each'} half on the truing carrier, "
        f"{'down to the planned line' if spare or there else 'only if the half check shows light'}.",
        how=(
            *(("Leave the odd cheek out: it is for quarters.",) if plan.truing.quarter else ()),
            "Lay the half on a flat, its outer side against all cheeks.",
            "Clamp it under the bar; the bolt goes through the hole.",
            "Rub the carrier along the board; both ends touch the abrasive at once.",
            "Stop when both feet meet the bare board: that is the planned line.",
            "The form loses wood only where the half does not reach that line.",
            "Do not sand past it after a gap: measure first what that costs.",
            *((KEPT,) if plan.half_glued else ()),
        ),
        makes=(halves, "half"),
        settings=(calliper("spare", "Comes off each end", spare),) if spare else (),
        known=(*there, *_costs(plan)),
        jigs=uses(rack.named(*CARRIER), notes=True),
        checks=(
            Check(
                "plane",
                "Half check on both ends: no light at the bottom, the middle or the top",
                if_not="prove the sanding board straight and square to its base, then a few more strokes",
            ),
            Check(
                "meet",
                "Both halves together, dry: no light at either joint, the pencil lines meet",
                if_not="turn one half over; if the light moves with it, true that half again",
            ),
        ),
        cautions=("sander",),
        readings=(
            Reading(
                "light-at-rim",
                "Halves together, dry: light at the rim, joint 1, joint 2",
                count=2,
                by="feeler",
            ),
            Reading("light-at-hole", "Light at the hole, joint 1, joint 2", count=2, by="feeler"),
        ),
        minutes=each(halves, 3 * FLATTENED, SETTING),
    )


def _there(plan: TorusPlan) -> tuple[Quantity, ...]:
    """What comes off a half whose rings were glued before and are out."""
    glued = glued_wedges(plan.asked, plan.blank)
    trued = glued.trued(plan.blank) if glued else None
    if trued is None or trued.most < 1e-6:
        return ()
    return (
        calliper("glued.rim", "Half with the glued rings: comes off each end at the rim", trued.outer),
        calliper("glued.hole", "at the hole", trued.inner),
    )


def _costs(plan: TorusPlan) -> tuple[Quantity, ...]:
    """What half a degree costs, short and over, in the turning allowance."""
    most = max(half.error for half in plan.errors.halves)
    return tuple(
        found
        for half in plan.errors.halves
        if abs(half.error) == most
        for name in ["short" if half.error < 0 else "over"]
        for found in (
            calliper(f"{name}.rim", f"Half {degrees(most):.2g}° {name}: comes off at the rim", half.at_rim),
            calliper(f"{name}.hole", "at the hole", half.at_hole),
            calliper(f"{name}.lost", "taken from the turning allowance", half.lost),
        )
    )
