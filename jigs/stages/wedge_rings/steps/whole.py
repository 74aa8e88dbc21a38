"""Both faces of the wedge rings, the trial quarter first, the ends of halves last: the operations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.plans.torus import TorusPlan
from jigs.stages.boards.runs import Run
from jigs.stages.wedge_rings.parts.bandsaw import bandsaw_sled
from jigs.stages.wedge_rings.parts.sled import sled
from jigs.stages.wedge_rings.parts.wedges import wedges
from jigs.stages.wedge_rings.steps.cuts import LIGHT, cautions, corner_readings, end_cut, ordinary_cut, trial
from jigs.words.quantity import Quantity, calliper, count_text, ring_list, ruled
from jigs.work.minutes import CLAMPED, MARKING, SETTING, each
from jigs.work.model import Check, Operation, Rack, Reading, Stage, at_bench, right_if, uses
from jigs.work.steps import nth

ID = "wedge_rings"
SEAT = (
    "Seat the ring on the base, then against {what}, then its outer side against the stop; no label touches either.",
    "Tighten the draw rod's knob behind the fence, then the jaw's screw, both by hand.",
    "Saw off, sled drawn back clear of the blade: pull at the ring with both hands. It must not come off the fence.",
)
LEAN = "Its right half turned upside down, against the left: light at the {where}"
ARROW_UP = "Stand the ring up as its label says, arrow up, face 1 to the fence."
SAW = (
    "Switch on, feed until the batten meets the table, switch off.",
    "Let the blade stop, draw the sled back, then lift the wedge-shaped offcut out with a stick.",
)


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """The sled set and its plug, a trial quarter in scrap, first cuts, second cuts, the four end rings."""
    ordinary, ends = ordinary_cut(plan), end_cut(plan)
    return [
        _set(plan, rack),
        _plug(plan, rack),
        *trial(ID, plan, ordinary, rack),
        *_cuts(plan, ordinary, ends, rack),
        *([_ends(plan, ends, rack)] if ends else []),
        *_spare(plan),
    ]


def _hold(what: str) -> tuple[str, ...]:
    """Against the fence, or the wedge on it."""
    plug = (
        f"Push the plug into the core from the side that goes to {what}; tighten its nut until nothing turns."
    )
    return (plug, *(move.format(what=what) for move in SEAT))


def _set(plan: TorusPlan, rack: Rack) -> Operation:
    saw = plan.cutting.rings_on
    main = rack.named("sled-base", "sled-jaw", "sled-stop-cheek", "sled-batten")
    more = [part for part in rack.of("sled") if part.notes and part not in main]
    return Operation(
        f"{ID}.set",
        "Put the sled for wedge rings on the saw and set the height of the cut.",
        saw,
        how=(
            "Wax the base; the sled slides freely and does not rock.",
            "Look at the trimmed edge: it is the blade line. If it is chewed, make a new base.",
            "Bolt the jaw on, its bolt heads below its face.",
        ),
        settings=(
            Quantity("fence", "Fence to blade", plan.ring_cut.half_wedge, "angle"),
            Quantity("stop", "Stop to the apex, along the fence", plan.ring_cut.stop),
            ruled("blade-height", plan.sled.called_height, plan.sled.saw_height),
        ),
        jigs=uses([*main, *more], notes=True),
        checks=right_if(
            "stop",
            "Measure along the stop line from the fence to the trimmed edge",
            (calliper("stop-to-blade", "Stop to blade, square to the fence", plan.sled.stop_check),),
            "out: pack the stop, or plane its cheeks; this sets the size of every ring",
        ),
        cautions=(*(("saw.guard-sled",) if saw == "table saw" else ()), *cautions(saw)[-1:]),
        readings=(
            Reading("lean.height", "Scrap as high as a ring, sawn upright through: height", by="rule"),
            Reading("lean.gap-at-top", LEAN.format(where="top"), by="feeler"),
            Reading("lean.gap-at-bottom", LEAN.format(where="bottom"), by="feeler"),
        ),
        minutes=SETTING,
    )


def _plug(plan: TorusPlan, rack: Rack) -> Operation:
    rod = plan.sled.rod
    return at_bench(
        f"{ID}.plug",
        "Set the draw rod's plug to its depth with the stick.",
        how=(
            "Push the plug into the core of a ring, its rod out at the side of the fence.",
            "Lay the stick's shoulders on the ring's other face: the rod's tip stands no higher than its foot.",
            "Tighten the plug's nut until you cannot turn the ring on it.",
        ),
        settings=(
            calliper("tip", "Rod's tip below the ring's uncut face, at least", rod.below_face, bound="least"),
        ),
        known=(
            calliper("metal", "Wood between metal and either cut, at least", rod.metal_clear, bound="most"),
        ),
        jigs=uses(rack.named("sled-rod-stick", "sled-plug-cheek", "sled-plug-hub"), notes=True),
        checks=right_if(
            "holds",
            "Draw the ring to the fence by the knob and pull hard: the plug does not slip",
            if_not="tighten the plug's nut and set the depth again",
        ),
        cautions=("sled.rod",),
        minutes=SETTING,
    )


def _cuts(plan: TorusPlan, run: Run, ends: Run | None, rack: Rack) -> Iterator[Operation]:
    opposite = _opposite(plan) if ends else ()
    yield Operation(
        f"{ID}.first",
        "First cut: face 1 against the fence, cut face 2."
        if not opposite
        else "First cut: one face of every ring.",
        run.place,
        how=(*(opposite or (ARROW_UP,)), *_hold("the fence"), *SAW),
        makes=(len(plan.left), "ring with one face cut"),
        rings=plan.left,
        checks=right_if(
            "whole",
            "The saw has cut the whole face: nothing of the flattened face is left",
            if_not="the ring lay off the fence: seat it again, and cut once more",
        ),
        cautions=cautions(run.place)[::2],
        minutes=each(len(plan.left), CLAMPED),
    )
    yield Operation(
        f"{ID}.second",
        "Second cut: sawn face on the wedge; saw the other.",
        run.place,
        how=(
            "Press the wedge's peg home in the fence, thin end at the stop, thick end to the apex; pull at it.",
            "Flip the ring face for face; its outer side stays at the stop.",
            *_hold("the wedge"),
            *SAW,
        ),
        makes=(run.pieces, "wedge ring"),
        rings=run.rings,
        settings=run.settings,
        jigs=uses(rack.named("sled-wedge"), notes=True),
        checks=(
            Check(
                "edges",
                "Calliper over the thick and the thin edge of the first ring, then of every third",
                run.checks,
                "thick edge off, thin edge right: the wedge; both off alike: the stop",
            ),
            Check(
                "corner",
                "Try every group of rings dry in the check corner: no light along either arm",
                if_not=LIGHT,
            ),
        ),
        cautions=cautions(run.place),
        readings=(*corner_readings(plan, plan.check.rings, run), *_thin_edges(run, plan.check.rings)),
        minutes=each(run.pieces, CLAMPED, SETTING),
    )


def _opposite(plan: TorusPlan) -> tuple[str, ...]:
    """The end rings whose end is face 2 lie the other way round: that face is cut second."""
    turned = [ring for ring, face in sorted(plan.half_ends.items()) if face == 2]
    if not turned:
        return ()
    return (
        f"All but {ring_list(turned)}: stand the ring arrow up, face 1 to the fence; cut face 2.",
        f"{ring_list(turned).capitalize()}: stand the ring arrow down, face 2 (END) to the fence; cut face 1.",
    )


def _thin_edges(run: Run, rings: int) -> tuple[Reading, ...]:
    """Of the rings whose thick edges are read with the corner's light."""
    return tuple(reading for reading in _edges(run, rings) if reading.id != "thick-edge")


def _edges(run: Run, rings: int = 3) -> tuple[Reading, ...]:
    return tuple(Reading(size.id, size.label, size, rings) for size in run.checks)


def _ends(plan: TorusPlan, run: Run, rack: Rack) -> Operation:
    kept = calliper("kept", "Left on the end face, to be sanded off", plan.job.form.half_sanding)
    return Operation(
        f"{ID}.ends",
        f"Second cut of the {count_text(run.pieces, 'end ring')}: the same, but on the end wedge.",
        run.place,
        how=(
            "Take the sled's wedge out; press the end wedge's peg home in its place, and pull at it.",
            "Put the cut face on the end wedge; the saw cuts the face marked END.",
            *_hold("the wedge")[1:],
            *SAW,
            "Mark the END face again at once.",
        ),
        makes=(run.pieces, "end ring"),
        rings=run.rings,
        settings=run.settings,
        known=(kept,),
        jigs=uses(rack.named("end-wedge"), notes=True),
        trial="the scrap ring marked LAST, both its cuts",
        checks=right_if(
            "edges",
            "Calliper over the thick and the thin edge",
            run.checks,
            "as the other rings: it was cut on the wrong wedge; sand that half to the line all the same",
        ),
        cautions=cautions(run.place),
        readings=_edges(run),
        minutes=each(run.pieces, CLAMPED, SETTING),
    )


def _spare(plan: TorusPlan) -> Iterator[Operation]:
    """One operation for each order of woods; the rings that have none to spare are named in the last."""
    sorts = list(dict.fromkeys(plan.spare_rings))
    without = [ring for ring in plan.left if not any(ring in rings for rings in sorts)]
    none = (Quantity("none-for", "None for rings", ", ".join(map(str, without)), "text"),) if without else ()
    for number, rings in enumerate(sorts, 1):
        count = plan.spare_rings.count(rings)
        yield at_bench(
            f"{ID}.spare{nth(number)}",
            f"Keep the spare rings{_woods(plan, rings) if len(sorts) > 1 else ''} uncut until all the others have "
            "passed the check corner.",
            how=(
                "If a ring is spoiled, cut a spare in its place: its label, its faces, its wedge.",
                "Leave the sled set until the torus is closed.",
            ),
            makes=(count, "spare ring"),
            rings=rings,
            settings=none if number == len(sorts) else (),
            checks=right_if(
                "thickness",
                "Calliper over the thickness",
                (calliper("thickness", "Thickness", plan.ring_cut.ring_thickness),),
                "flatten it like the others first",
            ),
            minutes=each(count, MARKING),
        )


def _woods(plan: TorusPlan, rings: Sequence[int]) -> str:
    return f" of {' and '.join(dict.fromkeys(plan.species[rings[0] - 1]))}"


STAGE: Stage[TorusPlan] = Stage(ID, "Cut the wedge rings", operations, jigs=(wedges, sled, bandsaw_sled))
