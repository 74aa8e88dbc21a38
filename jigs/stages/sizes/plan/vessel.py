"""The diameters of a vessel by stations and stages: gap gauges, sticks to set callipers by, mouth sticks."""

from __future__ import annotations

from geometry.measuring.turned import Station
from geometry.records import Record


class StageSize(Record):
    """One diameter of the work. mm."""

    number: int  # of the stage, from 1
    label: str  # for people, such as "+1 MM"
    diameter: float


class GapGauge(Record):
    """Slides over the work from the side: `go` is the last stage, `before` the one before, where there is one.

    Both are the largest that the plate's thickness covers; `wider` is how much that is over the station's own
    diameter, of the finished vessel.
    """

    station: Station
    over_faceplate: float  # the station's height
    go: StageSize
    before: StageSize | None
    fit: float  # of each leg off the work
    leg: float  # width of the legs beside the wider gap
    wider: float

    @property
    def sizes(self) -> tuple[StageSize, ...]:
        return (self.before, self.go) if self.before else (self.go,)

    @property
    def reach(self) -> float:
        """Half the width over both legs."""
        return (self.before or self.go).diameter / 2 + self.fit + self.leg


class CalliperStick(Record):
    """Outside callipers are set by its steps, one for each stage, the largest first."""

    station: Station
    over_faceplate: float
    sizes: tuple[StageSize, ...]


class MouthStick(Record):
    """Enters the mouth with one end when that has opened to `go`, with the other at `before`, if there is one."""

    number: int
    go: StageSize
    before: StageSize | None
    go_short: float  # how much shorter than the mouth's diameter: a flat plate touches with its arrises
    before_short: float


class LidSizes(Record):
    """A lid's fit. The flange is right where GO goes over it and TOO SMALL does not; its pot's mouth where GO enters
    and TOO WIDE does not.

    A flange too wide for a gap gauge has a stick to set callipers by.
    """

    flange: GapGauge | CalliperStick
    mouth: MouthStick


class VesselSizes(Record):
    """Every gauge of a diameter."""

    plate: float
    gaps: tuple[GapGauge, ...]
    sticks: tuple[CalliperStick, ...]
    mouth: tuple[MouthStick, ...]
    mouth_diameter: float  # finished
    least_mouth: float  # diameter that a mouth stick enters
    lid: LidSizes | None = None  # a lid's

    @property
    def finished(self) -> tuple[tuple[Station, float], ...]:
        """Each station and its diameter at the last stage, as its gauge has it."""
        return (
            *((gap.station, gap.go.diameter) for gap in self.gaps),
            *((stick.station, stick.sizes[-1].diameter) for stick in self.sticks),
        )
