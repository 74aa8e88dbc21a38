"""The profile gauges and the check corner."""

from __future__ import annotations

from geometry.bodies.tube import Tube
from geometry.records import Record


class Stage(Record):
    """One size of gauge: `offset` is what is left to take off the sanded tube's radius."""

    name: str  # for file names, such as "near"
    label: str  # for people, such as "+1 mm"
    offset: float
    edge: Tube  # of the gauge: tube + offset + fit


class GaugePlan(Record):
    """Profile gauges. Sizes in mm."""

    stages: tuple[Stage, ...]
    plate: float
    standing_plate: float  # of the standing gauges and the flats gauge
    fit: float
    web: float  # width of the outer gauge beside the tube
    hole_web: float  # width of the hole gauge beside the tube, narrow enough to pass
    rim_height: float  # above the tube's centre, at which the hole gauge may widen
    hole_land: float | None  # edge width of the hole gauge where its plate would ride high
    standing_land: float | None  # of the inner standing gauges
    channel_land: float | None  # of the channel gauge's
    channel: Tube  # edge of the channel gauge
    retainer: Tube  # edge of the retainer gauge

    def plate_of(self, family: str) -> float:
        """Thickness of the plates of a family of gauges."""
        return self.standing_plate if family == "standing" else self.plate


class CheckPlan(Record):
    """The inside corner that as many wedge rings as come nearest to 90 degrees must fill."""

    rings: int
    angle: float
    leg: float
