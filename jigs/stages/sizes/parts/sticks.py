"""Sticks and gauges of a vessel's diameters: stepped ones to set callipers by, a lid's fit, the rebates of a joint."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from geometry.lathe.size_gauges import plate_sagitta
from geometry.plane.contour import Contour, rectangle
from jigs.parts.codes import code_of
from jigs.parts.part import Dimension, Lettering, Part, Point, Words
from jigs.parts.places import MARGIN, WHOLE, block_height, block_width, centred, hang_hole, lettered
from jigs.parts.plate import closed, cut_part
from jigs.parts.probes import EdgeGap
from jigs.plans.vessel import VesselPlan
from jigs.stages.halves.plan import TierJoint
from jigs.stages.sizes.parts.gap_gauges import (
    CAUTION,
    HANG_ROOM,
    ROOM,
    TEXT,
    end_rows,
    fitted,
    gap_plate,
    packed,
    size_words,
    slug,
    station_rows,
    text_border,
)
from jigs.stages.sizes.plan.vessel import CalliperStick, GapGauge, LidSizes, MouthStick, StageSize

BAND = 12.0  # width of one step
FROM_END = 8.0  # of a step's number
WIDEST_TEXT = 110.0  # so that a long stick has room for a joint beside it
TONGUE = 10.0  # length of a mouth stick's ends
RELIEF = 3.0  # of its middle behind or beyond its ends


def stepped_sticks(plan: VesselPlan) -> list[Part]:
    """A stick for callipers at each station too wide for a gap gauge, and the mouth's."""
    return [*(_calliper_stick(plan, stick) for stick in plan.sizes.sticks), *mouth_sticks(plan)]


def mouth_sticks(plan: VesselPlan, head: str = "mouth-stick") -> list[Part]:
    """Sticks that enter the mouth, stage by stage; of several, a number goes on behind `head`."""
    several = len(plan.sizes.mouth) > 1
    return [
        _mouth_stick(plan, stick, f"{head}-{stick.number}" if several else head) for stick in plan.sizes.mouth
    ]


def _calliper_stick(plan: VesselPlan, stick: CalliperStick) -> Part:
    name = f"calliper-stick-{slug(stick.station.name)}"
    what = f"{code_of(name)} CALLIPER STICK"
    purpose = f"outside callipers are set by it for {stick.station.place}"
    notes = ("Set the callipers from its straight end to a step, away from the work: a step for each stage.",)
    return calliper_plate(plan, name, what, purpose, stick, notes)


def calliper_plate(
    plan: VesselPlan, name: str, what: str, purpose: str, stick: CalliperStick, notes: Sequence[str]
) -> Part:
    """The stick, lettered as `what`."""
    sized = [f"{size.number}: {size_words(plan, size)}" for size in stick.sizes]
    rows = [*station_rows(plan, what, stick.station, stick.over_faceplate), *sized, CAUTION]
    longest, beside = stick.sizes[0].diameter, text_border() + HANG_ROOM
    text, height = fitted(packed(rows, "   ", min(longest - beside, WIDEST_TEXT), TEXT), longest - beside)
    wide = max(longest, block_width(text, height) + beside)
    base = rectangle(0.0, -(block_height(text, height) + 2 * MARGIN + ROOM), wide, 0.0)
    hole = hang_hole(base, (), (wide, base.bounds[1]))
    marks: tuple[Lettering | Words, ...] = (
        *_numbers(stick.sizes),
        *lettered(base, (hole,), (), text, (0.0, 0.0), height),
    )
    return cut_part(
        plan,
        name,
        purpose,
        _steps(stick.sizes, base),
        (hole,),
        marks,
        _step_dimensions(stick.sizes),
        notes,
        thickness=plan.sizes.plate,
    )


def _steps(sizes: Sequence[StageSize], base: Contour) -> Contour:
    """The steps over the lettered part, which juts out where its text is wider than the longest."""
    _, foot, wide, _ = base.bounds
    longest, top = sizes[0].diameter, BAND * len(sizes)
    jut = [(wide, 0.0), (longest, 0.0)] if wide > longest else []
    steps = [(size.diameter, BAND * level) for k, size in enumerate(sizes) for level in (k, k + 1)][1:]
    return closed([(0.0, foot), (wide, foot), *jut, *steps, (0.0, top)])


def _middle(k: int) -> float:
    return BAND * (k + 0.5)


def _numbers(sizes: Sequence[StageSize]) -> list[Lettering]:
    return [
        centred(str(size.number), (size.diameter - FROM_END, _middle(k)), TEXT)
        for k, size in enumerate(sizes)
    ]


def _step_dimensions(sizes: Sequence[StageSize]) -> list[Dimension]:
    """From the straight end to each step, and from step to step, which a stick in pieces keeps."""
    ends: list[Point] = [(size.diameter, _middle(k)) for k, size in enumerate(sizes)]
    return [
        *(
            Dimension(f"step {size.number}, {size.label.lower()}", size.diameter, EdgeGap(end, (0.0, end[1])))
            for size, end in zip(sizes, ends, strict=True)
        ),
        *(
            Dimension(f"step {k} over step {k + 1}", first[0] - second[0], EdgeGap(first, second))
            for k, (first, second) in enumerate(pairwise(ends), 1)
        ),
    ]


def _mouth_stick(plan: VesselPlan, stick: MouthStick, name: str) -> Part:
    rows = end_rows(plan, stick.go, stick.before, (plan.job.title.upper(), f"{code_of(name)} MOUTH STICK"))
    mouth = plan.job.called.mouth
    purpose = f"diameter of the {mouth}, entered from the front"
    when = (
        f"Hold it along the axis, square across the {mouth}, both corners of an end touching alike. When the end "
        f"enters, the {mouth} has that size; where the inside narrows from the rim down, when its edge comes level "
        "with the rim."
    )
    return mouth_plate(plan, name, purpose, stick, rows, ("GO", "NOT YET"), when)


def mouth_plate(
    plan: VesselPlan, name: str, purpose: str, stick: MouthStick, rows: Sequence[str], ends: tuple[str, str],
    when: str, tongue: float = TONGUE,
) -> Part:  # fmt: skip
    """The plate; `ends` name its lower end and its upper one, `when` tells what they say; `tongue` is their length."""
    halves = _halves(stick)
    slim = min(halves) - RELIEF
    text, height = fitted(rows, 2 * slim - text_border())
    wide = (block_width(text, height) + text_border()) / 2
    half = slim if wide <= slim else max(wide, max(halves) + RELIEF)
    web = rectangle(-half, 0.0, half, block_height(text, height) + 2 * MARGIN + ROOM + HANG_ROOM)
    hole = hang_hole(web, (), (half, 0.0))
    return cut_part(
        plan,
        name,
        purpose,
        _ends(halves, web, tongue),
        (hole,),
        lettered(web, (hole,), (), text, (-half, web.bounds[3] / 2), height),
        _mouth_dimensions(stick, web.bounds[3], ends, tongue),
        (
            when,
            f"Each end is about {plan.job.show(stick.go_short)} shorter than the size lettered on it: a "
            "plate this thick touches with its corners.",
        ),
        thickness=plan.sizes.plate,
    )


def _halves(stick: MouthStick) -> list[float]:
    """Half widths of the lower end and of the upper, where there is one."""
    lower = (stick.go.diameter - stick.go_short) / 2
    return [lower, (stick.before.diameter - stick.before_short) / 2] if stick.before else [lower]


def _ends(halves: Sequence[float], web: Contour, tongue: float) -> Contour:
    _, _, half, top = web.bounds
    right = [(halves[0], -tongue), (halves[0], 0.0), (half, 0.0), (half, top)]
    right += [(x, y) for x in halves[1:] for y in (top, top + tongue)]
    return closed([*right, *((-x, y) for x, y in reversed(right))])


def _mouth_dimensions(stick: MouthStick, top: float, ends: tuple[str, str], tongue: float) -> list[Dimension]:
    found: list[Dimension] = []
    sizes = ((ends[0], stick.go), (ends[1], stick.before))
    for (name, size), x, y in zip(sizes, _halves(stick), (-tongue / 2, top + tongue / 2), strict=False):
        if size is not None:
            found.append(Dimension(f"end {name}, {size.label.lower()}", 2 * x, EdgeGap((x, y), (-x, y))))
    return found


MADE = 0.2  # mm of diameter, by which a rebate may be wider. Common practice, no source


def joint_gauges(plan: VesselPlan) -> list[Part]:
    """One for each joint; none for a vessel that is built in one."""
    return [_joint_gauge(plan, joint) for joint in plan.halves.joints] if plan.halves else []


def _joint_gauge(plan: VesselPlan, joint: TierJoint) -> Part:
    ring, name = joint.centring, joint.gauge
    sizes = StageSize(1, "GO", 2 * ring.rebate), StageSize(2, WIDE, 2 * ring.rebate + MADE)
    short = [2 * plate_sagitta(size.diameter / 2, plan.sizes.plate) for size in sizes]
    rows = (
        f"↑{WHOLE}{size_words(plan, sizes[1])}",
        plan.job.title.upper(),
        f"{code_of(name)} REBATE OVER RING {joint.ring}",
        CAUTION,
        f"↓{WHOLE}{size_words(plan, sizes[0])}",
    )
    when = (
        "Hold it along the axis, square across the joint. The rebate is right where GO goes in until the arms lie on "
        "the joint's face, all round, and TOO WIDE does not."
    )
    stick = MouthStick(1, sizes[0], sizes[1], short[0], short[1])
    what = f"the rebates of the joint over ring {joint.ring}"
    return mouth_plate(plan, name, what, stick, rows, ("GO", WIDE), when, ring.depth)


FLANGE, MOUTH = "lid-flange-gauge", "lid-mouth-stick"
SMALL, WIDE = "TOO SMALL", "TOO WIDE"


def lid_gauges(plan: VesselPlan) -> list[Part]:
    """Both; none for what is no lid."""
    sizes = plan.sizes.lid
    return [_mouth(plan, sizes), _flange(plan, sizes)] if sizes else []


def _mouth(plan: VesselPlan, sizes: LidSizes) -> Part:
    what = (plan.job.title.upper(), f"{code_of(MOUTH)} MOUTH OF ITS POT")
    rows = _rows(plan, sizes.mouth, what)
    when = (
        "Hold it along the pot's axis, square across the mouth. Where GO enters and TOO WIDE does not, the flange "
        "gauge fits this pot."
    )
    return mouth_plate(plan, MOUTH, "the mouth of the lid's pot", sizes.mouth, rows, ("GO", WIDE), when)


def _flange(plan: VesselPlan, sizes: LidSizes) -> Part:
    flange, what = sizes.flange, f"{code_of(FLANGE)} FLANGE"
    purpose = "diameter of the lid's flange"
    if isinstance(flange, CalliperStick):
        told = "Set a calliper to each step, away from the work: the first passes over the flange, the second not."
        return calliper_plate(plan, FLANGE, f"{what} STICK", purpose, flange, (told,))
    rows = _rows(plan, flange, station_rows(plan, what, flange.station, flange.over_faceplate))
    told = "Where GO goes over and TOO SMALL does not, all along the flange, it fits. Hold it square to the axis."
    return gap_plate(plan, FLANGE, purpose, flange, rows, ("GO", SMALL), (told,))


def _rows(plan: VesselPlan, sizes: GapGauge | MouthStick, rows: Sequence[str]) -> list[str]:
    """The lettering of both ends, and the rows between them."""
    upper = [f"↑{WHOLE}{size_words(plan, sizes.before)}"] if sizes.before else []
    return [*upper, *rows, CAUTION, f"↓{WHOLE}{size_words(plan, sizes.go)}"]
