"""A torus's rings sliced from tubes of staves: the operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.plan.torus import TorusPlan
from jigs.plan.wood.glue import GlueStage
from jigs.plan.wood.steps import Step
from jigs.quantity import Quantity, ruled
from jigs.work.glue import glue_up, stages_of
from jigs.work.minutes import CHECKED, CLAMPED, FLATTENED, ON_SLED, RIPPED, SANDED, SETTING, each
from jigs.work.model import Check, Operation, Reading, Stage
from jigs.work.rack import Rack, uses
from jigs.work.steps import nth, steps_of

ID = "staves"
OTHER = {"left": "right", "right": "left"}


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Lengths cut off, a trial tube, both edges bevelled, tubes glued in stages, rings sliced; none of segments."""
    if plan.job.mitred:
        return []
    bevel, tubes, slices = (steps_of(plan, work)[0] for work in ("bevel", "tubes", "slices"))
    return [
        *(_length(step, number) for number, step in enumerate(steps_of(plan, "square"), 1)),
        *_trial(plan, bevel, rack),
        _bevel(plan, bevel),
        _sand(bevel, tubes),
        *_tubes(plan, tubes),
        _slices(plan, slices),
    ]


def _length(step: Step, number: int) -> Operation:
    return Operation(
        f"{ID}.length{nth(number)}",
        ID,
        step.machine,
        "Cut the strips square to the length of the staves.",
        how=(
            "Clamp the strip to the mitre gauge's fence, on the side where the stop stands.",
            "Swing the stop clear before the cut.",
        ),
        pieces=step.pieces,
        comes="stave",
        rings=step.rings,
        settings=step.settings,
        trial="a piece of scrap",
        checks=(
            Check("length", "Tape along each; a square at both ends", if_not="move the stop by the error"),
        ),
        cautions=("table-saw.stop", "table-saw") if step.machine == "table saw" else ("hand-saw",),
        minutes=each(step.pieces, ON_SLED, SETTING),
    )


def _trial(plan: TorusPlan, step: Step, rack: Rack) -> Iterator[Operation]:
    for scrap in plan.wood.scraps:
        if scrap.of == "staves":
            yield Operation(
                f"{ID}.trial",
                ID,
                step.machine,
                "Bevel a full set of scrap staves and close them dry in bands.",
                how=(
                    "Tilt until no light shows between the blade and the tilt plate, then lock the tilt.",
                    "Bevel both edges of every scrap stave as told in the next step.",
                    "Close them dry in two bands, then glue them: the trial rings are sliced from this tube.",
                ),
                pieces=scrap.segments,
                comes="scrap stave",
                settings=step.settings,
                jigs=uses(rack.named("tilt-plate", *scrap.jigs), notes=True),
                checks=(
                    Check(
                        "plate",
                        "Joint plate between two staves, outer faces down: no light on either edge",
                        if_not="light at the outer face: tilt more; at the inner face: tilt less",
                    ),
                    _widths(step),
                    Check(
                        "tube",
                        "Dry tube in its bands: no light at any joint",
                        if_not="light at the outside: tilt more; light inside: tilt less",
                    ),
                ),
                cautions=("table-saw.rip", "table-saw"),
                minutes=each(scrap.segments, 2 * RIPPED, SETTING + CHECKED),
                hours=plan.wood.glue.clamp_time,
            )


def _widths(step: Step) -> Check:
    return Check(
        "widths",
        "Calliper over the outer and the inner face",
        step.checks,
        "both too wide: bring the fence nearer; both too narrow: farther",
    )


def _bevel(plan: TorusPlan, step: Step) -> Operation:
    away = OTHER[plan.job.workshop.saw.tilts]
    return Operation(
        f"{ID}.bevel",
        ID,
        step.machine,
        "Bevel both edges of every stave.",
        how=(
            f"Set the rip fence on the {away} of the blade, the side that it leans away from.",
            "Lay the stave flat, outer face up; bevel one edge of all of them.",
            "Turn each stave end for end, never over, and bevel the other edge.",
            "Hold it by feather boards on fence and table; push it with a block over its whole length.",
            "Let nobody stand behind the blade: what falls off is a long thin wedge.",
        ),
        pieces=step.pieces,
        comes="stave",
        rings=step.rings,
        checks=(_widths(step),),
        cautions=("table-saw.rip", "table-saw"),
        readings=(Reading("outer-width", "Outer face, wide", step.checks[0], 5),),
        minutes=each(step.pieces, 2 * RIPPED),
    )


def _sand(bevel: Step, step: Step) -> Operation:
    return Operation(
        f"{ID}.sand",
        ID,
        "bench",
        "Sand both edges of each stave flat for the glue.",
        how=(
            "Rub the edge along abrasive glued to a long flat board, with a fence at the bevel.",
            "Count the strokes, the same for every edge.",
        ),
        pieces=bevel.pieces,
        comes="stave",
        rings=step.rings,
        settings=step.settings,
        checks=(Check("edge", "Two staves edge to edge: no light", if_not="rub on, pressing evenly"),),
        cautions=("sander",),
        minutes=each(2 * bevel.pieces, 2 * SANDED, SETTING),
    )


def _tubes(plan: TorusPlan, step: Step) -> Iterator[Operation]:
    before, arcs = "staves", 0
    for stage in stages_of(plan, "tubes"):
        last, half = stage.what == "rings", stage.what == "halves"
        arcs += not (last or half)
        id = "close" if last else "halves" if half else f"arcs{nth(arcs)}"
        yield _stage(plan, stage, before, id, step)
        if half:
            yield _true(stage)
        before = "half tubes" if half else "arcs"


def _stage(plan: TorusPlan, stage: GlueStage, before: str, id: str, step: Step) -> Operation:
    band = plan.wood.glue.band(1)
    into = {"close": "tubes", "halves": "half tubes"}.get(id, "short arcs")
    return glue_up(
        plan,
        stage,
        ID,
        id,
        f"Glue the {before} to {into}.",
        {"close": "tube", "halves": "half tube"}.get(id, "arc"),
        how=(
            "Lay the staves out on tape, outer faces down, in the order of their woods.",
            *(() if id == "close" else ("Put waxed paper in the joints that stay dry.",)),
            "Roll the tube up and close it in a band every hand's breadth.",
            "Look through the tube: it must not twist.",
        ),
        settings=(ruled("band", "Each band, with its overlap", band.length),),
        checks=(
            Check(
                "dry",
                "Dry in its bands, held to a window: no light at any joint",
                if_not="all open alike: the tilt; one joint: sand or change that stave",
            ),
            *(
                (
                    Check(
                        "across",
                        "Calliper across two opposite flats",
                        step.checks,
                        "under: less to turn off",
                    ),
                )
                if id == "close" and step.checks
                else ()
            ),
        ),
    )


def _true(stage: GlueStage) -> Operation:
    return Operation(
        f"{ID}.true",
        ID,
        "bench",
        "Sand both edges of each half tube into one plane.",
        how=("Rub both edges at once on a long flat sanding board until the pencil is gone.",),
        pieces=stage.count,
        comes="half tube",
        rings=stage.rings,
        checks=(
            Check(
                "meet",
                "Two halves pressed together by hand: no light along either joint",
                if_not="light at the outside: sand the inner edges more; inside: the outer edges",
            ),
        ),
        cautions=("sander",),
        minutes=each(stage.count, 2 * FLATTENED),
    )


def _slices(plan: TorusPlan, step: Step) -> Operation:
    thick: tuple[Quantity, ...] = tuple(setting for setting in step.settings if setting.id == "stop")
    return Operation(
        f"{ID}.slices",
        ID,
        step.machine,
        "Slice the rings from the tubes on your own sled for them.",
        how=(
            "Lay the tube on one of its flats, against a fence square to it.",
            "Hold both sides of the cut down, by points in the wood.",
            "Push the tube to the stop, tighten the hold-downs, swing the stop clear.",
            "Tug at both pieces; what moves is not cut.",
            "Number the rings as they come off, and mark the same flat on all of them.",
        ),
        pieces=step.pieces,
        comes="ring",
        rings=step.rings,
        settings=step.settings,
        trial="one slice of the scrap tube",
        checks=(
            Check(
                "thickness",
                "Calliper over the thickness at four places",
                thick,
                "uneven: the tube lay crooked; too thick: flatten it",
            ),
        ),
        cautions=("table-saw.stop", "table-saw") if step.machine == "table saw" else ("bandsaw",),
        readings=tuple(Reading("thickness", "Thickness, at four places", size, 4) for size in thick),
        minutes=each(step.pieces, CLAMPED, SETTING),
    )


STAGE: Stage[TorusPlan] = Stage(ID, "Make the rings from staves", operations)
