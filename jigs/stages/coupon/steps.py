"""The coupon: made first, measured, and what its readings change."""

from __future__ import annotations

from jigs.parts.part import Dimension, Part
from jigs.plans.plan import Plan
from jigs.stages.coupon.parts import NAME, coupon, sheet_coupon
from jigs.words.file_names import of_job
from jigs.words.quantity import calliper
from jigs.work.minutes import CHECKED, MARKING, SETTING, each
from jigs.work.model import Check, Operation, Place, Rack, Reading, Stage, at_bench, builds, uses
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
    """The printer's made, then read; then the sheet's, which is read as it is cut."""
    parts = rack.named("coupon")
    process = parts[0].process
    return [
        _make(plan, parts, process),
        _read(plan, parts, process),
        *(_sheet(plan, part) for part in rack.named(NAME)),
    ]


def _make(plan: Plan, parts: list[Part], process: str) -> Operation:
    printed = process == "print"
    return Operation(
        id=f"{ID}.make",
        place=PLACES[process],
        does="Make the two coupons before any other jig."
        if printed
        else "Cut the coupon before any other jig.",
        how=(
            "Use the material, nozzle and settings that the jigs will have."
            if printed
            else "Use the sheet and the settings that the jigs will have.",
            *(
                ("Lay them flat on the bed, without supports.", "Let them cool before you measure.")
                if printed
                else ()
            ),
        ),
        makes=(sum(part.quantity for part in parts), "coupon"),
        jigs=builds(parts),
        checks=(CLEAN,),
        cautions=("printer",) if printed else ("laser", "router") if process == "cut" else (),
        minutes=SETTING,
        uses_up=filament(plan, parts) if printed else (),
    )


def _read(plan: Plan, parts: list[Part], process: str) -> Operation:
    read = [d for d in parts[0].dimensions if d.name.startswith(MEASURED)]
    play = calliper("planned", "planned", plan.job.workshop.printer.play)
    printed = process == "print"
    return at_bench(
        id=f"{ID}.read",
        does="Measure one coupon all over; try the tab of the other in its notches."
        if printed
        else "Measure the coupon all over.",
        how=(
            "Calliper the four outsides, the four insides, the four holes and the thickness.",
            "Write each beside its planned size.",
            *(
                (
                    "Try the tab in the notches: the tightest that it enters by hand is your play.",
                    "Write the play under its key, then run make again: sockets follow it.",
                )
                if printed
                else ()
            ),
        ),
        jigs=uses(parts, notes=True),
        checks=(EVEN,),
        readings=(
            *(Reading(_slug(d), _label(d), calliper("planned", "planned", d.value)) for d in read),
            *(
                (Reading("printer.play", "Tightest notch, its play: play in [printer]", play),)
                if printed
                else ()
            ),
        ),
        minutes=each(len(read), MARKING / 2, CHECKED),
    )


def _sheet(plan: Plan, part: Part) -> Operation:
    """Its edge is tried in notches of its own thickness, which no tab that the machine cuts has."""
    x0, _, x1, _ = part.outline.bounds
    boards = plan.job.workshop.boards
    return Operation(
        id=f"{ID}.sheet",
        place="cutter",
        does="Cut the sheet's coupon, and try the sheet's edge in its notches.",
        how=(
            f"Cut {of_job(plan.job.name, f'cut/{NAME}.dxf')} from the sheet of the sleds, at their settings.",
            "Push the edge of an offcut of that sheet into the notches, the widest first.",
            "The tightest that it enters by hand is your play. Write it under its key, then run make again: all slots "
            "follow it.",
        ),
        makes=(1, "coupon"),
        settings=(calliper("long", "Long", x1 - x0), calliper("sheet", "Sheet, as planned", boards.sheet)),
        jigs=builds([part]),
        checks=(
            CLEAN,
            Check(
                "long",
                "Calliper over its length before you try the notches: as listed",
                if_not="short: add that much to kerf in [cutter], run make, and cut it again",
            ),
        ),
        cautions=("laser", "router"),
        readings=(
            Reading(
                "boards.play",
                "Tightest notch, its play: play in [boards]",
                calliper("planned", "planned", boards.play),
            ),
        ),
        minutes=SETTING + 2 * CHECKED,
    )


def _slug(dimension: Dimension) -> str:
    return dimension.name.replace(" ", "-")


def _label(dimension: Dimension) -> str:
    """Its sort; how long it is stands beside it."""
    return dimension.name.partition(" ")[0].capitalize()


STAGE: Stage[Plan] = Stage(
    ID, "Make and read the coupon", operations, jigs=(coupon, sheet_coupon), sort="making", in_a_run=True
)
