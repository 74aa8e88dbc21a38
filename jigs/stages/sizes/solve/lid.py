"""The gauges of a lid's fit, worked out."""

from __future__ import annotations

from geometry.lathe.size_gauges import plate_sagitta
from geometry.measuring.turned import Station
from jigs.asked.vessel_job import VesselJob
from jigs.stages.lid.plan import LidPlan
from jigs.stages.sizes.plan.vessel import CalliperStick, GapGauge, LidSizes, MouthStick, StageSize
from jigs.stages.sizes.solve.vessel import leg_width

PLAY = 0.05  # mm, of each leg off the wood, so that GO slides
MADE = (
    0.3  # mm of diameter, by which the flange may be smaller and the mouth wider. Common practice, no source
)


def lid_sizes(job: VesselJob, lid: LidPlan | None, plate: float, faceplate: float) -> LidSizes | None:
    """Both gauges; None for what is no lid. `faceplate` is its height over the foot."""
    if lid is None:
        return None
    station = Station(lid.step + lid.seat / 2, lid.fit.flange, "flange")
    go, small = StageSize(1, "GO", lid.flange), StageSize(2, "TOO SMALL", lid.flange - MADE)
    gap = GapGauge(station, station.height - faceplate, go, small, PLAY, leg_width(lid.flange), 0.0)
    fits = 2 * gap.reach <= job.gauges.widest_gap
    stick = CalliperStick(station, gap.over_faceplate, (go, small))
    mouth = [StageSize(1, "GO", lid.pot_mouth), StageSize(2, "TOO WIDE", lid.pot_mouth + MADE)]
    short = [2 * plate_sagitta(size.diameter / 2, plate) for size in mouth]
    return LidSizes(gap if fits else stick, MouthStick(1, mouth[0], mouth[1], short[0], short[1]))
