"""The gauges of a lid's fit: GO and no-go over its flange, GO and no-go in its pot's mouth."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.parts.codes import code_of
from jigs.parts.part import Part
from jigs.parts.places import WHOLE
from jigs.plans.vessel import VesselPlan
from jigs.stages.sizes.parts.gap_gauges import CAUTION, gap_plate, size_words, station_rows
from jigs.stages.sizes.parts.stepped_sticks import calliper_plate, mouth_plate
from jigs.stages.sizes.plan.vessel import CalliperStick, GapGauge, LidSizes, MouthStick
from jigs.words.lengths import show_length

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
    notes = (
        "Where GO goes over and TOO SMALL does not, all along the flange, it fits. Hold it square to the axis.",
        f"Each gap is {show_length(2 * flange.fit, plan.job.unit)} wider than the size lettered on it, to slide.",
    )
    return gap_plate(plan, FLANGE, purpose, flange, rows, ("GO", SMALL), notes)


def _rows(plan: VesselPlan, sizes: GapGauge | MouthStick, rows: Sequence[str]) -> list[str]:
    """The lettering of both ends, and the rows between them."""
    upper = [f"↑{WHOLE}{size_words(plan, sizes.before)}"] if sizes.before else []
    return [*upper, *rows, CAUTION, f"↓{WHOLE}{size_words(plan, sizes.go)}"]
