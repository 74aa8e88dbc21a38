"""What every sled has, told once: body, runner, hold-downs, first pass; and what any glued jig has."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from geometry.hardware.fittings import nut_place
from geometry.records import Record
from jigs.parts.part import Line, Part
from jigs.plans.plan import Plan
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.words.quantity import calliper, ruled
from jigs.work.hardware import Setting, bolts, dowels, piece, sunk, told, used
from jigs.work.minutes import CHECKED, FITTED, MARKING, each
from jigs.work.model import Check, Goods, Operation, Place, Rack, at_bench, builds, right_if, uses
from jigs.work.supplies import layers_glued

ID = "building"
# Of a brass pin with its point; common practice, no source.
BRASS_LONG: dict[Unit, float] = {"mm": 12.0, "in": MM_PER_INCH / 2}
PIN = "pin"  # how its mark is named
DRY = "Push every tab into its slot dry. Ease a tight one with a file; never drive it."


def square(what: str) -> Check:
    """Of something upright on a base."""
    return Check(
        "square",
        f"Square on the base against {what}, at both ends and in the middle: no light",
        if_not="push its top over before the glue grabs, and clamp it there; once dry, glue it anew",
    )


def flush_text(plan: Plan) -> str:
    """Of a countersink for a bolt's head."""
    return f"{plan.job.show(plan.job.fittings.flush[0])} across"


def screw_text(plan: Plan) -> str:
    """Of a countersink for a screw's head."""
    return f"{plan.job.show(plan.job.fittings.flush[1])} across"


def nut_text(plan: Plan) -> str:
    """Of a bore for a screw's nut."""
    across, deep = (plan.job.show(mm) for mm in nut_place(plan.job.fittings.screw))
    return f"{across} across and {deep} deep"


class Sled(Record):
    """How a sled's operations and parts are named: parts as `head`-...`end`."""

    id: str
    what: str  # "segment carrier"
    head: str
    end: str = ""
    saw: Place = "table saw"

    def parts(self, rack: Rack, *kinds: str) -> list[Part]:
        """Those of these kinds."""
        return named(rack, *(f"{self.head}-{kind}{self.end}" for kind in kinds))


def named(rack: Rack, *names: str) -> list[Part]:
    """The parts of these names that there are, and their pieces where they come in pieces."""
    return [part for name in names for part in rack.parts if name in (part.name, part.piece_of)]


def built(
    plan: Plan,
    id: str,
    does: str,
    how: Sequence[str],
    parts: Iterable[Part],
    settings: Sequence[Setting] = (),
    checks: Sequence[Check] = (),
    glued: bool = True,
    cautions: tuple[str, ...] = ("bench",),
    plates: Sequence[Part] = (),
    more: Sequence[Goods] = (),
) -> Operation:
    """At the bench, of its own parts and checked by plates; glued, as long in clamps as the glue takes.

    `more` is used up beside what is set.
    """
    own = tuple(parts)
    return at_bench(
        id=f"{ID}.{id}",
        does=does,
        how=tuple(how),
        settings=told(settings),
        jigs=(*builds(own), *uses(plates, "proves it")),
        checks=tuple(checks),
        cautions=cautions,
        minutes=fitting(own),
        hours=plan.wood.glue.clamp_time if glued else 0.0,
        uses_up=(*used(settings), *more, *layers_glued(plan, own)),
    )


def fitting(parts: Iterable[Part]) -> float:
    """Minutes: for each piece that is fitted, and for each layer that is spread with glue."""
    fitted = sum(part.quantity // part.stack for part in parts)
    layers = sum(part.quantity for part in parts if part.stack > 1)
    return each(fitted, FITTED, each(layers, MARKING, CHECKED))


def body(
    plan: Plan, rack: Rack, sled: Sled, kinds: Sequence[str], how: Sequence[str] = (), checks: Sequence[Check] = (),
    plates: Sequence[Part] = (), more: Sequence[Goods] = (),
) -> Operation:  # fmt: skip
    """The upright parts glued into the base; `how` comes after the fence; `plates` set it; `more` is used up."""
    block = sled.parts(rack, "exit-block")
    parts = sled.parts(rack, "base", "fence", "gusset", *kinds, "exit-block", "handle")
    two = sum(part.quantity // part.stack for part in sled.parts(rack, "fence")) > 1
    stacked = ("Glue the layers of the exit block into one, edges flush.",)
    onto = ("Glue the exit block to base and fence over the blade's line; no screws.",)
    return built(
        plan,
        sled.id,
        f"Glue up the {sled.what}.",
        (
            DRY,
            *(stacked if block else ()),
            f"Glue the {'fences' if two else 'fence'} into the base.",
            *(
                ("Glue the gussets in behind it, a square on the base.",)
                if sled.parts(rack, "gusset")
                else ()
            ),
            *how,
            *(onto if block else ()),
            "Round the edges of the handle's grip and glue it in, out of the blade's line.",
        ),
        parts,
        checks=(square("each fence" if two else "the fence"), *checks),
        cautions=("saw.metal", "bench"),
        plates=plates,
        more=more,
    )


def runner(plan: Plan, rack: Rack, sled: Sled) -> list[Operation]:
    """Of a sled in a mitre slot; none on a bandsaw."""
    parts = sled.parts(rack, "runner")
    if not parts:
        return []
    thick = parts[0].thickness
    _, low, _, high = parts[0].outline.bounds
    return [
        built(
            plan,
            f"{sled.id}-runner",
            f"Fit the runner of the {sled.what} to the mitre slot and screw it on.",
            (
                "Try the runner in the whole length of the slot; plane a shaving off an edge that binds.",
                f"Countersink its holes below, {screw_text(plan)}. Bore the base's top for the nuts, {nut_text(plan)}.",
                "Screw it under the base, then wax it.",
            ),
            [*parts, *sled.parts(rack, "batten")],
            (
                calliper("runner.thick", "Runner, thick", thick),
                calliper("runner.wide", "Runner, wide", high - low),
                sunk(
                    "runner",
                    plan.job.fittings.screw,
                    len(parts[0].holes),
                    thick + plan.job.workshop.boards.sheet,
                ),
            ),
            right_if(
                "slides",
                "Push the sled along the slot with one finger: it does not bind, rock or move sideways",
                if_not="it binds: sand the side that shines; it has play: plane a new runner",
            ),
            glued=False,
        )
    ]


def guide(plan: Plan, rack: Rack, sled: Sled) -> list[Operation]:
    """Of a sled on a bandsaw: rail, strip and batten; none in a mitre slot."""
    parts = sled.parts(rack, "rail", "strip", "batten")
    if not sled.parts(rack, "rail"):
        return []
    sheet = plan.job.workshop.boards.sheet
    count = sum(len(part.holes) for part in sled.parts(rack, "strip", "batten"))
    return [
        built(
            plan,
            f"{sled.id}-guide",
            f"Screw strip and batten under the {sled.what}, and put its rail on the bandsaw.",
            (
                f"Countersink strip and batten below, {screw_text(plan)}. Bore the base's top for the nuts, "
                f"{nut_text(plan)}.",
                "Screw them under the base on their lines.",
                "Clamp the rail to the table and lay the sled on it, the strip against the rail.",
                "Slide the sled along the whole rail.",
            ),
            parts,
            (sunk("guide", plan.job.fittings.screw, count, 2 * sheet),),
            right_if(
                "drift",
                "The guide line on the base is parallel to the table's edge",
                if_not="measure the drift again, state it, and make a new rail",
            ),
            glued=False,
            cautions=("bandsaw.power",),
        )
    ]


def holds(plan: Plan, rack: Rack, sled: Sled, slides: Sequence[str], more: Sequence[str] = ()) -> Operation:
    """Hold-downs: slides, what presses under them, cams and levers. `more` are parts beside fingers."""
    sheet = plan.job.workshop.boards.sheet
    hung = sum(part.quantity for part in sled.parts(rack, *slides))
    fingers = [kind.replace("hold", "finger") for kind in slides if "hold" in kind]
    pressing = sled.parts(rack, *dict.fromkeys((*fingers, "finger")), *more)
    return built(
        plan,
        f"{sled.id}-holds",
        f"Build the hold-downs of the {sled.what} and hang them.",
        (
            *(("Glue each finger's tenon into its slide, square to it.",) if pressing else ()),
            "Glue each cam to its lever, pivot bolt and dowel through both. Smooth its rim; no wax.",
            f"Countersink the slides' fronts for all bolt heads, {flush_text(plan)}: fingers pass over them.",
            "Hang each slide in its slots on two bolts, washers and lock nuts behind: it just slides.",
            "Put the cam into the window, its lever behind, pointing away from the blade. Bolt it to the slide.",
        ),
        [*sled.parts(rack, *slides), *pressing, *sled.parts(rack, "cam", "lever")],
        (
            bolts("guide", "Guide bolts", 2 * hung, plan.job.fittings.bolt, 2 * sheet, flush=True),
            bolts("pivot", "Pivot bolts of the cams", hung, plan.job.fittings.bolt, 3 * sheet, flush=True),
            dowels("dowel", "Dowels, across", plan.job.fittings.dowel, hung, 2 * sheet),
        ),
        right_if(
            "holds",
            "Press scrap with the lever level: the lever stays, and no hand pulls the scrap out",
            if_not="the lever springs up: wipe wax off the cam; the scrap slides: sharpen the pins",
        ),
        cautions=("saw.metal", "bench"),
        more=_brass(plan, pressing),
    )


def _brass(plan: Plan, parts: Sequence[Part]) -> tuple[Goods, ...]:
    """Pins at the marks of fingers, feet and presses."""
    count = sum(
        part.quantity * sum(isinstance(m, Line) and m.name == PIN for m in part.marks) for part in parts
    )
    size = (
        calliper("across", "Across", plan.job.fittings.brass),
        ruled("length", "Long", BRASS_LONG[plan.job.unit]),
    )
    return (piece("pin.brass", "brass pin, filed to a point", count, *size),) if count else ()


def first_pass(
    sled: Sled,
    settings: Sequence[Setting],
    checks: Sequence[Check],
    upright: str,
    plates: Sequence[Part] = (),
) -> Operation:
    """The sled without wood through the blade, which cuts its own slot, or trims the base to the blade line.

    `upright` is how the blade's tilt, or that it has none, is set; by `plates`, if at all.
    """
    table = sled.saw == "table saw"
    return Operation(
        id=f"{ID}.{sled.id}-first-pass",
        place=sled.saw,
        does=f"Run the empty {sled.what} through the blade once, then prove it.",
        how=(
            f"Unplug the saw. {upright}",
            "Set the height. Move stops and hold-downs out of the blade's way.",
            "Switch on and push the sled slowly to the end of its feed.",
            "Switch off, let the blade stop, and only then draw the sled back.",
        ),
        settings=told(settings),
        jigs=uses(plates, "sets the tilt"),
        checks=tuple(checks),
        cautions=("saw.guard-sled", "saw.back", "saw.slot") if table else ("bandsaw.clear", "bandsaw.guides"),
        minutes=each(1, CHECKED, 10.0),
        uses_up=used(settings),
    )
