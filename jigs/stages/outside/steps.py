"""The outside of a vessel turned by stages, diameters before the profile; a stem last of all. The operations."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from geometry.measuring.turned import Station
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.parts.outside import outside_gauges, rail
from jigs.stages.gauging.plan.vessel import VesselStage
from jigs.stages.sizes.parts.gap_gauges import gap_gauges
from jigs.stages.sizes.plan.vessel import CalliperStick, GapGauge, StageSize
from jigs.words.quantity import calliper, ruled
from jigs.work.lathe import SHAPE
from jigs.work.minutes import GAUGED, MARKING, MOUNTED, TURNED, each, over
from jigs.work.model import Once, Operation, Rack, Reading, Stage, at_lathe, right_if
from jigs.work.steps import sanded
from jigs.work.supplies import lining

Gauged = GapGauge | CalliperStick
ID, STEM = "outside", "stem"
LINES = "A line that is turned off: pencil it again at its height over the faceplate."
ON_WOOD = "Put both legs of the callipers on wood, not over a gap."
PART_DOWN = (
    "Lathe running slowly, part down to this stage's diameter on each line; for a gap gauge, half of its plate's "
    "thickness to either side of it."
)
BY = {
    "gap": "Of a gap gauge, stop when NOT YET goes on; at the last stage cut on with care until GO goes on.",
    "stick": "Set outside callipers to the stick's step for this stage, and stop when they pass. Keep the tool on the "
    "side of the line that gets thinner, its edge on the line; between two slopes cut with its corner alone.",
}
CUP = (
    "Bolt only the pieces listed to the rail, at their own holes: the stem is still too thick for the others. Stand "
    "the rail on a flat board held against the faceplate."
)
GAPS = ("lathe.open", "lathe.gauge", "lathe.stand")
CLOSED = ("lathe", "lathe.gauge", "lathe.stand")


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """All of it; where there is a stem only the cup, while the stem is still thick."""
    once, low = Once(), plan.stem_top
    return [
        _round(plan),
        *_marked(plan),
        *(found for stage in _stages(plan) for found in _brought(plan, rack, stage, once, ID, low, inf)),
        _rim(plan),
    ]


def stem(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """From the cup down, the cup done and sanded; nothing where there is no stem."""
    if not plan.stack.stemmed:
        return []
    once = Once()
    for stage in plan.gauges.stages:
        once.uses(_profile(plan, rack, stage, ID))  # told with the cup
    return [
        _supported(),
        *(
            found
            for stage in _stages(plan)
            for found in _brought(plan, rack, stage, once, STEM, -inf, plan.stem_top)
        ),
        sanded(
            plan,
            STEM,
            "sand",
            f"Sand the stem and the {plan.job.called.foot}'s side, the tailstock up.",
            plan.wood.finish.area_of("outside") / 2,
        ),
    ]


def _stages(plan: VesselPlan) -> list[tuple[int, VesselStage]]:
    return list(enumerate(plan.gauges.stages, 1))


def _cautions(plan: VesselPlan) -> tuple[str, ...]:
    return CLOSED if plan.stack.open_from is None else GAPS


def _round(plan: VesselPlan) -> Operation:
    first = plan.gauges.stages[0].work_outside
    stemmed = plan.stack.stemmed
    return at_lathe(
        f"{ID}.round",
        "Turn the cup's outside round; leave the stem as thick as it was glued."
        if stemmed
        else "Turn the outside round, from the widest ring towards both ends.",
        how=(
            "Take light cuts with a sharp gouge until no flat and no corner is left.",
            "Stop at once if something ticks: tap all round for a loose segment.",
            "Leave wood for the first stage everywhere.",
        ),
        settings=(
            ruled(
                "widest",
                "Leave at its widest, across, at least",
                2 * first.radii(first.bottom, first.top)[1],
                "least",
            ),
            calliper("allowance", "Allowance over the finished wall", plan.stack.allowance),
        ),
        checks=right_if(
            "round",
            "Lathe stopped: no flat to feel; every joint closed",
            if_not="an open joint: run thin glue in, band it, let it cure, then go on",
        ),
        cautions=_cautions(plan),
        minutes=over(plan.wood.finish.area_of("outside"), 2 * TURNED, MOUNTED),
    )


def _marked(plan: VesselPlan) -> Iterator[Operation]:
    found = sorted(_gauged(plan), key=lambda one: one.over_faceplate)
    if found:
        yield at_lathe(
            f"{ID}.mark",
            "Pencil a line round the work at each station.",
            how=(
                "Measure from the faceplate's face, on which the waste block's back lies, with a rule along the bed.",
                "Hold the pencil on the rest and turn the work by hand; write the station's name beside it.",
            ),
            settings=tuple(
                ruled(
                    f"over.{one.station.slug}",
                    f"{_name(one.station)}: over the faceplate",
                    one.over_faceplate,
                )
                for one in found
            ),
            checks=right_if(
                "lines",
                "Measure every line again, from the faceplate",
                if_not="rub it out; a station in the wrong place makes the wrong shape",
            ),
            cautions=("lathe.gauge",),
            minutes=each(len(found), MARKING, 5),
        )


def _gauged(plan: VesselPlan) -> list[Gauged]:
    return [*plan.sizes.gaps, *plan.sizes.sticks]


def _name(station: Station) -> str:
    return station.name[0].upper() + station.name[1:]


def _brought(
    plan: VesselPlan, rack: Rack, numbered: tuple[int, VesselStage], once: Once, of: str, low: float, high: float
) -> Iterator[Operation]:  # fmt: skip
    """One stage between two heights: its stations, then its profile."""
    number, stage = numbered
    own = [
        (one, size)
        for one in _gauged(plan)
        if low <= one.station.height < high
        for size in one.sizes
        if size.number == number
    ]
    if own:
        yield _stations(plan, rack, own, stage, once, of, number)
    yield _profiled(plan, rack, stage, once, of, number, bool(own))


def _which(plan: VesselPlan, number: int) -> str:
    return "their finished size" if number == len(plan.gauges.stages) else f"stage {number}"


def _stations(
    plan: VesselPlan,
    rack: Rack,
    own: list[tuple[Gauged, StageSize]],
    stage: VesselStage,
    once: Once,
    of: str,
    number: int,
) -> Operation:
    heads = [
        f"{'gap-gauge' if isinstance(one, GapGauge) else 'calliper-stick'}-{one.station.slug}"
        for one, _ in own
    ]
    parts = rack.named(*heads)  # a long one comes in pieces
    kinds = {"gap" if isinstance(one, GapGauge) else "stick" for one, _ in own}
    return at_lathe(
        f"{of}.{stage.name}-stations",
        f"Part down at the stations to {_which(plan, number)}.",
        how=(
            LINES,
            PART_DOWN,
            *(BY[kind] for kind in sorted(kinds)),
            "Stop the lathe and take the rest away for every look.",
            *((ON_WOOD,) if plan.stack.open_from is not None else ()),
        ),
        settings=tuple(
            calliper(f"across.{one.station.slug}", f"{_name(one.station)}: across", size.diameter)
            for one, size in own
        ),
        jigs=once.uses(parts, "measures the diameter there"),
        checks=right_if(
            "stations",
            "Calliper across at each station, twice, a quarter of a turn apart",
            if_not="out of round: the work has moved; true it all over before you go on",
        ),
        cautions=_cautions(plan),
        readings=tuple(
            Reading(
                f"across.{one.station.slug}",
                f"{_name(one.station)}, before the profile is turned",
                calliper("planned", "planned", size.diameter),
            )
            for one, size in own
        )
        if number == len(plan.gauges.stages)
        else (),
        minutes=each(len(own), GAUGED / 2),
    )


def _profile(plan: VesselPlan, rack: Rack, stage: VesselStage, of: str) -> list[Part]:
    """A stage's pieces and their rail. Over a stem that is still thick only the cup's come near the work."""
    head, low = f"outside-gauge-{stage.name}", plan.stem_top if of == ID else -inf
    own = [f"{head}-{piece.number}" for piece in plan.gauges.pieces if piece.low >= low]
    return rack.named(*(own if plan.gauges.railed else [head]), "gauge-rail")


def _profiled(
    plan: VesselPlan, rack: Rack, stage: VesselStage, once: Once, of: str, number: int, sized: bool
) -> Operation:
    last = number == len(plan.gauges.stages)
    cup = plan.stack.stemmed and of == ID
    whole = "outside" if not plan.stack.stemmed else "cup" if cup else "stem, from the cup down"
    return at_lathe(
        f"{of}.{stage.name}",
        f"Turn the {whole} to the finished profile gauge." if last
        else f"Turn the {whole} to the profile gauge of stage {number}.",
        how=(
            *(
                (
                    "Take the wood between the stations away downhill, from wide to narrow.",
                    "Leave the stations' size: a gauge shows shape, they show size.",
                )
                if sized
                else ("Cut downhill, from wide to narrow; calliper the widest place, for a gauge shows shape only.",)
            ),
            *(("Light cuts, the stem's free end never pressed; keep your fingers off it.",) if of == STEM else ()),
            *((CUP,) if cup else ()),
        ),
        settings=(calliper("left", "Left over the finished size by this gauge", stage.offset),),
        jigs=once.uses(_profile(plan, rack, stage, of)),
        checks=(SHAPE,),
        cautions=("lathe.slim", *_cautions(plan)[:2]) if of == STEM else _cautions(plan),
        minutes=over(plan.wood.finish.area_of("outside"), TURNED, 2 * GAUGED),
    )  # fmt: skip


def _rim(plan: VesselPlan) -> Operation:
    height = plan.section.height - plan.gauges.faceplate
    return at_lathe(
        f"{ID}.rim",
        "Face the rim to its height.",
        how=(
            "The tailstock is away and the work stands far out: light cuts, the rest close to the rim."
            if plan.halves
            else "Draw the tailstock back no further than you need: it holds the work.",
            "Face it from outside inwards, light cuts, with the rest across the rim.",
        ),
        settings=(
            ruled("rim", "Rim, over the faceplate", height),
            ruled("rim.across", "Rim, across", 2 * plan.section.rim_radius),
        ),
        checks=right_if(
            "flat",
            "Lathe stopped: straight edge across the rim, three ways: no light",
            if_not="face it again",
        ),
        cautions=_cautions(plan),
        readings=(Reading("rim", "Rim, over the faceplate", ruled("planned", "planned", height)),),
        minutes=GAUGED,
    )


def _supported() -> Operation:
    return at_lathe(
        f"{STEM}.support",
        "Bring the tailstock up to a soft block in the cup.",
        how=(
            "Turn or cut a block that fits the cup's floor loosely, and glue felt or cork on it.",
            "Press only as much as turns the live centre; more bends the stem once it is slim.",
            "No more cuts on the cup from here on.",
        ),
        checks=right_if(
            "runs",
            "Turn it by hand past the rest: the cup's rim runs as it did",
            if_not="shift the block until it does",
        ),
        cautions=("lathe.slim", "lathe.stand"),
        minutes=MOUNTED,
        uses_up=lining("stem", "the block in the cup"),
    )


STAGE: Stage[VesselPlan] = Stage(
    ID, "Turn the outside to its gauges", operations, jigs=(outside_gauges, rail, gap_gauges)
)
STEM_STAGE: Stage[VesselPlan] = Stage(STEM, "Turn the stem", stem)
