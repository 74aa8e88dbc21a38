"""Diameters at stations by stages, and which gauge each gets."""

from __future__ import annotations

from collections.abc import Sequence
from math import copysign, sqrt

from geometry.bodies.section import Section
from geometry.lathe.size_gauges import plate_sagitta
from geometry.measuring.turned import Station
from geometry.plane.edges import SAME_POINT
from geometry.plane.levels import monotone
from geometry.plane.profile import Profile
from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.parts.processes import plate_thickness
from jigs.stages.gauging.plan.vessel import VesselGauges, VesselStage
from jigs.stages.lid.plan import LidPlan
from jigs.stages.sizes.plan.vessel import (
    CalliperStick,
    GapGauge,
    LidSizes,
    MouthStick,
    StageSize,
    VesselSizes,
)
from jigs.stages.stack.plan import StackPlan
from jigs.words.findings import Finding

PLAY = 0.05  # mm, of each leg off the wood, so that GO slides
# mm of diameter, by which the flange may be smaller and the mouth wider. Common practice, no source.
MADE = 0.3

LEAST_LEG, LEG_SHARE = 12.0, 8  # width of a gap gauge's legs: this, or the gap's eighth
NEAR_HEIGHT, NEAR_RADIUS = 5.0, 1.0  # stations nearer to each other in both are one
MOST_STATIONS = 10
MOST_WIDER = 5.0  # mm of diameter: on a steeper wall a plate's thickness covers too much for a gap gauge
SWING = 0.5  # of radius; what turns back by less is no wide or narrow place
LEAST_TONGUE = 10.0  # width of a mouth stick's end
HAIR = 1e-6  # mm within the foot and the rim


def sizes_plan(
    job: VesselJob, section: Section, stack: StackPlan, gauges: VesselGauges, at: VesselSizes | None = None
) -> VesselSizes:
    """A gap gauge at each station that is narrow enough for one, a stick at the others, and the mouth's.

    Stations are those of `at`, where it is given: readings are known by their names.
    """
    own = mouth_sizes(job, section, stack, gauges)
    gaps: list[GapGauge] = []
    sticks: list[CalliperStick] = []
    for station in stations(section, gauges.stations, job.called.foot) if at is None else _again(section, at):
        over = station.height - gauges.faceplate
        gap = _gap(section, gauges, station, own.plate)
        if 2 * gap.reach <= job.gauges.widest_gap and gap.wider <= MOST_WIDER:
            gaps.append(gap)
        else:
            sizes = _sizes(section, gauges.stages, station.height, station.height)
            sticks.append(CalliperStick(station, over, sizes))
    return replace(own, gaps=tuple(gaps), sticks=tuple(sticks))


def mouth_sizes(job: VesselJob, section: Section, stack: StackPlan, gauges: VesselGauges) -> VesselSizes:
    """The mouth's alone: a part of a vessel is measured at no station of its own."""
    plate = _plate(job, stack)
    return VesselSizes(
        plate=plate,
        gaps=(),
        sticks=(),
        mouth=_mouth(section, gauges.stages, plate),
        mouth_diameter=2 * section.mouth_radius,
        least_mouth=_least_diameter(plate) + 2 * gauges.stages[-1].offset,
    )


def sizes_findings(job: VesselJob, sizes: VesselSizes) -> list[Finding]:
    """A note where no stick enters the mouth."""
    if sizes.mouth:
        return []
    have, plate = (job.show(size) for size in (sizes.mouth_diameter, sizes.plate))
    return [
        job.note(
            "no-mouth-stick",
            f"a mouth of {have} lets in no stick {plate} thick: there is none",
            key="made.sizes",
            remedy="measure it with inside callipers, or use a mouth of at least "
            f"{job.at_least(sizes.least_mouth)}",
        )
    ]


def _again(section: Section, sizes: VesselSizes) -> list[Station]:
    """The same stations, with the radii of this section."""
    known = sorted((station for station, _ in sizes.finished), key=lambda station: station.height)
    return [replace(station, radius=section.outer.radius_at(station.height)) for station in known]


def stations(section: Section, stated: Sequence[Station], foot: str) -> tuple[Station, ...]:
    """Foot, rim, wide and narrow places, then those stated, as many as are handy; by height.

    One that is near to an earlier one in height and in radius is left out.
    """
    ends = [(0.0, foot), (section.height, "rim")]
    shaped = [Station(z, section.outer.radius_at(z), name) for z, name in [*ends, *extremes(section.outer)]]
    kept = _apart([], shaped)[:MOST_STATIONS]
    more = _apart(kept, sorted(stated, key=lambda station: station.height))
    room = min(MOST_STATIONS - len(kept), len(more))
    spread = [more[k * len(more) // room] for k in range(room)]
    return tuple(sorted([*kept, *spread], key=lambda station: station.height))


def extremes(outer: Profile) -> list[tuple[float, str]]:
    """Heights at which a profile is wider or narrower than above and below, named; a straight one's middle."""
    found: list[tuple[float, float]] = []
    way, low, high = (
        0.0,
        outer.start,
        outer.start,
    )  # outward is +; the farthest place so far, from low to high
    for x, y in (piece.end for edge in outer.edges() for piece in monotone(edge)):
        run = x - high[0]
        if abs(run) <= SAME_POINT:
            high = (x, y)
        elif way * run > 0 or abs(run) >= SWING:
            if way * run < 0:
                found.append(((low[1] + high[1]) / 2, way))
            way, low, high = copysign(1.0, run), (x, y), (x, y)
    return _named(found)


def _named(found: Sequence[tuple[float, float]]) -> list[tuple[float, str]]:
    """Wide and narrow places as they are lettered, numbered from the foot up from the second on."""
    names: list[tuple[float, str]] = []
    for k, (z, way) in enumerate(found):
        number = k // 2 + 1  # they alternate
        names.append((z, f"{'wide' if way > 0 else 'narrow'} place" + (f" {number}" if number > 1 else "")))
    return names


def _apart(kept: Sequence[Station], more: Sequence[Station]) -> list[Station]:
    """Those of `more` that are not near one kept, or an earlier one."""
    found: list[Station] = []
    for station in more:
        if not any(_near(station, other) for other in (*kept, *found)):
            found.append(station)
    return found


def _near(a: Station, b: Station) -> bool:
    return abs(a.height - b.height) < NEAR_HEIGHT and abs(a.radius - b.radius) < NEAR_RADIUS


def _plate(job: VesselJob, stack: StackPlan) -> float:
    return plate_thickness(job.workshop.made.sizes, job.workshop, 2 * stack.largest_radius, job.unit)


def _gap(section: Section, gauges: VesselGauges, station: Station, plate: float) -> GapGauge:
    """Its sizes are the largest that the plate covers: it slides over wood that is lower on both sides."""
    low, high = (_within(section, station.height + side * plate / 2) for side in (-1, 1))
    *_, go = sizes = _sizes(section, gauges.stages, low, high)
    before = sizes[-2] if len(sizes) > 1 else None
    return GapGauge(
        station=station,
        over_faceplate=station.height - gauges.faceplate,
        go=go,
        before=before,
        fit=gauges.fit,
        leg=leg_width((before or go).diameter),
        wider=2 * (section.outer.radii(low, high)[1] - station.radius),
    )


def leg_width(gap: float) -> float:
    """Of a gap gauge's legs, by its wider gap."""
    return max(LEAST_LEG, gap / LEG_SHARE)


def _sizes(section: Section, stages: Sequence[VesselStage], low: float, high: float) -> tuple[StageSize, ...]:
    return tuple(
        StageSize(k, stage.label, 2 * _radii(section, stage.offset, low, high)[1])
        for k, stage in enumerate(stages, 1)
    )


def _radii(section: Section, offset: float, low: float, high: float) -> tuple[float, float]:
    """Inside and outside radius of the vessel between two heights, with `offset` square to it to go."""
    return section.needs(_within(section, low), _within(section, high), offset) or (0.0, 0.0)


def _within(section: Section, height: float) -> float:
    """The nearest height at which there is wood."""
    return min(max(height, HAIR), section.height - HAIR)


def _mouth(section: Section, stages: Sequence[VesselStage], plate: float) -> tuple[MouthStick, ...]:
    """Stages in pairs, the last two together; none that is too narrow to enter."""
    found = [
        StageSize(k, stage.label, 2 * radius)
        for k, stage in enumerate(stages, 1)
        if 2 * (radius := _radii(section, stage.offset, section.height, section.height)[0])
        >= _least_diameter(plate)
    ]
    pairs = [found[max(0, end - 2) : end] for end in range(len(found), 0, -2)]
    return tuple(_mouth_stick(k, pair, plate) for k, pair in enumerate(reversed(pairs), 1))


def _mouth_stick(number: int, pair: Sequence[StageSize], plate: float) -> MouthStick:
    """A flat plate across a round mouth touches with its arrises: it is as much shorter."""
    short = [2 * plate_sagitta(size.diameter / 2, plate) for size in pair]
    first = pair[0] if len(pair) > 1 else None
    return MouthStick(number, pair[-1], first, short[-1], short[0])


def _least_diameter(plate: float) -> float:
    return sqrt(LEAST_TONGUE**2 + plate**2)


def lid_sizes(job: VesselJob, lid: LidPlan | None, plate: float, faceplate: float) -> LidSizes | None:
    """Both gauges; None for what is no lid. `faceplate` is its height over the foot."""
    if lid is None:
        return None
    station = Station(lid.step + lid.seat / 2, lid.fit.flange, "flange")
    go, small = StageSize(1, "GO", lid.flange), StageSize(2, "TOO SMALL", lid.flange - MADE)
    # No play to slide: it would come off the gap that the lid is to keep in the dampest air.
    gap = GapGauge(station, station.height - faceplate, go, small, 0.0, leg_width(lid.flange), 0.0)
    fits = 2 * gap.reach <= job.gauges.widest_gap
    stick = CalliperStick(station, gap.over_faceplate, (go, small))
    mouth = [StageSize(1, "GO", lid.pot_mouth), StageSize(2, "TOO WIDE", lid.pot_mouth + MADE)]
    short = [2 * plate_sagitta(size.diameter / 2, plate) for size in mouth]
    return LidSizes(gap if fits else stick, MouthStick(1, mouth[0], mouth[1], short[0], short[1]))
