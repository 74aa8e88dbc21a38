"""Staves with both edges bevelled and tapered on their sled, glued to a band: the operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.plan import Lot, rings_of, wanted
from jigs.stages.flat_segments.plan import StaveCut
from jigs.stages.glue_up.operation import glue_up, stages_of
from jigs.stages.staves.parts import stave_sled
from jigs.words.file_names import LABELS, TAPES, of_job
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import CHECKED, FLATTENED, SANDED, SETTING, each
from jigs.work.model import Operation, Rack, Reading, Stage, at_bench, at_table_saw, right_if, uses
from jigs.work.steps import nth

ID = "staves"
CAUTIONS = ("saw.bin", "table-saw")
SEEN = 0.05  # mm of slant; less is rubbed off with the rest
SAWN = 2.0  # mm of slant, from which on a saw takes most of it off. Common practice, no source


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Blade and sled set up, a full set in scrap, first edges, second edges, the band; nothing without staves."""
    cut, staves = plan.saws.staves, _staves(plan)
    if cut is None or not staves:
        return []
    return [
        _set_up(cut, rack),
        *_trial(plan, cut),
        _edges(plan, cut, rack, 1),
        _edges(plan, cut, rack, 2),
        *_band(plan),
    ]


def _staves(plan: VesselPlan) -> list[Lot]:
    return [lot for lot in plan.wood.lots if lot.way == "bevelled"]


def _set_up(cut: StaveCut, rack: Rack) -> Operation:
    stops = rack.named("stave-stop")
    parts = [part for part in rack.named("stave") if part.notes and part not in stops]
    return at_table_saw(
        f"{ID}.sled",
        "Tilt the blade by its plate, then set the stave sled on the saw.",
        how=(
            "Take the sled off while you tilt the blade; lock the blade and look again.",
            "A piece lies on the side that the blade leans away from, for both edges, its outer face up.",
            "Look at the points under the finger: sharp, all there.",
        ),
        settings=(
            Quantity("tilt", "Blade tilt", cut.blade_tilt, "angle"),
            Quantity("taper", "Taper of each edge, in the stops", abs(cut.gauge_angle), "angle"),
            ruled("blade-height", "Blade above the table, along the tilt", cut.saw_height),
        ),
        jigs=uses(parts, notes=True),
        checks=right_if(
            "plate",
            "Tilt plate against the flat of the blade, between the teeth: no light along it",
            if_not="tilt again",
        ),
        cautions=("saw.guard-sled", *CAUTIONS),
        minutes=SETTING * 2,
    )


def _trial(plan: VesselPlan, cut: StaveCut) -> Iterator[Operation]:
    for scrap in plan.wood.scraps:
        if scrap.of == "staves":
            yield at_table_saw(
                f"{ID}.trial",
                "Cut a full set of staves in scrap, and close it dry in a band.",
                how=("Cut them as the next two steps tell, first edges all of them, then second edges.",),
                makes=(scrap.segments, "scrap stave"),
                checks=right_if(
                    "band",
                    "Dry set in a band, held to a window: no light at any joint, inside and outside",
                    if_not="light at the outside: tilt the blade more; at the inside: tilt it less",
                ),
                cautions=CAUTIONS,
                minutes=each(scrap.segments, cut.seconds / 60, CHECKED * 2),
            )


def _edges(plan: VesselPlan, cut: StaveCut, rack: Rack, number: int) -> Operation:
    """First edges in stop 1, all of them; second edges in stop 2."""
    first, staves = number == 1, _staves(plan)
    return at_table_saw(
        f"{ID}.edge-{number}",
        "Cut the first edge of every stave in stop 1."
        if first
        else "Turn every stave end for end, the same face up, and cut its second edge in stop 2.",
        how=(
            "Lay the piece into the stop's corner, its outer face up; lever down, points in the wood.",
            "Saw off, sled drawn back clear of the blade: tug at it. What moves is not cut.",
            "Switch on, cut, switch off, and lift it out when the blade stands still.",
        ),
        makes=(wanted(staves), "stave"),
        rings=rings_of(staves),
        settings=() if first else _widths(plan),
        jigs=uses(rack.named(f"stave-stop-{number}"), notes=True),
        checks=()
        if first
        else right_if(
            "width",
            "Calliper over the outer face at both ends of the first two",
            if_not="both ends out alike: move the stop; one end only: the taper, so look how the piece lies",
        ),
        cautions=CAUTIONS,
        readings=() if first else (Reading("width", "Outer face, both ends, every fifth stave", None, 8),),
        minutes=each(wanted(staves), cut.seconds / 120, SETTING / 2),
    )


def _widths(plan: VesselPlan) -> tuple[Quantity, ...]:
    band = plan.stack.staves_cut
    if band is None:
        return ()
    low, high = band.board_widths
    return (
        ruled("width-low", "Outer face at the foot's end, wide", low),
        ruled("width-high", "Outer face at the other end, wide", high),
    )


PARTS = "Glue all joints but those where two parts meet: put waxed paper in these, and close the whole band."


def _taped(plan: VesselPlan) -> tuple[str, ...]:
    return (
        f"Stick its label ({of_job(plan.job.name, LABELS)}) on the outer face of each stave, arrow up.",
        f"Lay them on their tape sheet ({of_job(plan.job.name, TAPES)}), outer faces up, in its order.",
        "Press masking tape over the row, near both ends of the staves.",
        "Turn the row over, tape down; roll it up dry, tape outside, and open the roll for the glue.",
    )


def _slanted(proud: float) -> tuple[str, ...]:
    """What takes the slants off, each down to a line."""
    sawn = "saw that end off by hand just outside the line, then " if proud >= SAWN else ""
    return (
        "The ends slant, for the staves lean. Stand the band on its narrow end, a pencil on a block beside it as high "
        "as the slant, and draw a level line round the outside.",
        f"Clamp the band, {sawn}rasp that end down to the line.",
        "Draw a line round the inside of the wide end, as far from it as listed. Rasp the inside down to that "
        "line, and just to the outer edge.",
    )


def _slants(plan: VesselPlan) -> tuple[Quantity, ...]:
    band = plan.stack.staves
    if band is None or band.proud < SEEN:
        return ()
    return (
        calliper("proud", "Take off the outside at the narrow end, the inside at the wide end", band.proud),
        calliper("line", "Line on the inside, from the wide end", band.proud_along),
    )


def _band(plan: VesselPlan) -> Iterator[Operation]:
    band, proud = plan.stack.staves, plan.stack.staves.proud if plan.stack.staves else 0.0
    level = calliper("height", "Height, both ends level", band.height if band else 0.0)
    leans = proud >= SEEN
    for number, stage in enumerate(stages_of(plan, "bands"), 1):
        first, last = number == 1, stage is stages_of(plan, "bands")[-1]
        before = "staves" if first else "parts"
        yield glue_up(
            plan,
            stage,
            ID,
            "band" if last else f"glue{nth(number)}",
            f"Glue the {before} into the whole band." if last else f"Glue the {before} into {stage.what}.",
            "band" if last else "piece",
            how=(
                *(_taped(plan) if first else ()),
                *(() if last else (PARTS,)),
                "Close the band with clamp bands near both ends, by hand, then tighten them by turns.",
                *(("Peel the tape off once it is dry.",) if first else ()),
            ),
        )
    yield at_bench(
        f"{ID}.level",
        "Flatten both ends of the band level, one parallel to the other.",
        how=(
            *(_slanted(proud) if leans else ()),
            "Rub each end on abrasive on a flat board; scribbled pencil shows when it is clean.",
        ),
        makes=(1, "band"),
        rings=rings_of(_staves(plan)),
        settings=(
            *_slants(plan),
            calliper("flattening", "Take off both ends together", plan.job.rings.flattening + 2 * proud),
        ),
        checks=right_if(
            "level",
            "Straight edge across both ends, three ways; calliper over the height at four places",
            (level,),
            "high on one side: rub that side; low all round: the rings above come down by as much",
        ),
        cautions=("bench", *(("hand-saw",) if proud >= SAWN else ())),
        readings=(Reading("height", "Height, at four places", level, 4),),
        minutes=each(4 if leans else 2, FLATTENED, 10 * SANDED),
    )


STAGE: Stage[VesselPlan] = Stage(ID, "Cut the staves and glue their band", operations, jigs=(stave_sled,))
