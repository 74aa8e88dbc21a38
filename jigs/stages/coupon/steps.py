"""The coupon: made first, measured, and what its readings change."""

from __future__ import annotations

from jigs.parts.part import Dimension, Part
from jigs.plans.plan import Plan
from jigs.stages.coupon.parts import coupon
from jigs.words.quantity import calliper
from jigs.work.minutes import CHECKED, MARKING, SETTING, each
from jigs.work.model import Check, Operation, Place, Reading, Stage
from jigs.work.rack import Rack, builds, uses
from jigs.work.supplies import filament

ID = "coupon"
PLACES: dict[str, Place] = {"print": "printer", "cut": "cutter", "paper": "bench"}
MEASURED = ("outside ", "inside ", "hole ", "thickness", "tab")  # its dimensions that are read
CLEAN = Check(
    "clean",
    "Look along its edges: clean, square, the lettering legible",
    if_not="set the machine as its maker says and make it again",
)
EVEN = Check(
    "even",
    "Outsides short and insides long by the same amount everywhere: the machine takes away that width",
    if_not="short in proportion to their length: the material shrinks, or the machine's scale is off; correct it there",
)


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """Two coupons made, then read; on paper there is nothing to read."""
    parts = rack.of("coupon")
    process = parts[0].process
    return [_make(plan, parts, process), *([_read(plan, parts, process)] if process != "paper" else [])]


def _make(plan: Plan, parts: list[Part], process: str) -> Operation:
    printed = process == "print"
    return Operation(
        id=f"{ID}.make",
        stage=ID,
        place=PLACES[process],
        does="Make the two coupons before any other jig.",
        how=(
            "Use the material, nozzle and settings that the jigs will have."
            if printed
            else "Use the sheet and the settings that the jigs will have.",
            *(("Lay them flat on the bed, without supports.",) if printed else ()),
            "Let them cool before you measure.",
        ),
        pieces=sum(part.quantity for part in parts),
        comes="coupon",
        jigs=builds(parts),
        checks=(CLEAN,),
        cautions=("printer",) if printed else ("laser", "router") if process == "cut" else (),
        minutes=SETTING,
        uses_up=filament(plan, parts) if printed else (),
    )


def _read(plan: Plan, parts: list[Part], process: str) -> Operation:
    read = [d for d in parts[0].dimensions if d.name.startswith(MEASURED)]
    table = "printer" if process == "print" else "boards"
    play = plan.job.workshop.printer.play if process == "print" else plan.job.workshop.boards.play
    kerf = calliper("cutter.kerf", "planned", plan.job.workshop.cutter.kerf)
    return Operation(
        id=f"{ID}.read",
        stage=ID,
        place="bench",
        does="Measure one coupon all over; try the tab of the other in its notches.",
        how=(
            "Calliper the four outsides, the four insides, the four holes and the thickness.",
            "Write each beside its planned size.",
            "Try the tab in the notches: the tightest that it enters by hand is your play.",
            "Write the play under its key, then run make again: slots and sockets follow it."
            if process == "print"
            else "Write play and kerf under their keys, then run make again: slots and lines follow them.",
        ),
        jigs=uses(parts, notes=True),
        checks=(EVEN,),
        readings=(
            *(Reading(_slug(d), _label(d), calliper("planned", "planned", d.value)) for d in read),
            Reading(
                f"{table}.play",
                f"Tightest notch, its play: play in [{table}]",
                calliper("planned", "planned", play),
            ),
            *(
                (Reading("cutter.kerf", "What an outside is short by: kerf in [cutter]", kerf),)
                if process == "cut"
                else ()
            ),
        ),
        minutes=each(len(read), MARKING / 2, CHECKED),
    )


def _slug(dimension: Dimension) -> str:
    return dimension.name.replace(" ", "-")


def _label(dimension: Dimension) -> str:
    """Its sort; how long it is stands beside it."""
    return dimension.name.partition(" ")[0].capitalize()


STAGE: Stage[Plan] = Stage(
    ID, "Make and read the coupon", operations, jigs=(coupon,), sort="making", in_a_run=True
)
