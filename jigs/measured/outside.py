"""A vessel's outside where it was turned too far: the inside, and all that fits it, follows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from geometry.bodies.section import Section, least_wall
from geometry.measuring.estimate import Estimate
from geometry.measuring.turned import Shift, Station, moved
from geometry.records import Record, replace

if TYPE_CHECKING:
    from jigs.asked.readings.readings import Readings
    from jigs.asked.vessel_job import Shape, VesselJob

ACROSS = ".finished-stations.across."
FAR = 0.1  # share of a diameter by which it may differ; more is a slip of the pen
LATE = 1.0  # mm of diameter that turning the profile takes off on a slope: from there on a late reading tells itself
WITHIN = 0.005  # mm, of arcs to the outside as it was moved


class StationRead(Record):
    """A diameter as turned beside what it should have."""

    id: str
    name: str
    height: float
    planned: float
    finished: float
    read: Estimate

    @property
    def off(self) -> Estimate:
        """Over its size."""
        return Estimate(self.read.value - self.planned, self.read.accuracy)

    @property
    def label(self) -> str:
        return self.name[0].upper() + self.name[1:]

    @property
    def slip(self) -> bool:
        return abs(self.off.value) > FAR * self.planned

    @property
    def late(self) -> bool:
        """Whether it is nearer to the finished size, on a slope: read after the profile was turned."""
        sloped = self.planned - self.finished > LATE
        return sloped and self.read.value < (self.planned + self.finished) / 2


def stations_read(readings: Readings, finished: Sequence[tuple[Station, float]]) -> Iterator[StationRead]:
    """By height, of stations with their diameters as planned before anything was read."""
    for station, planned in sorted(finished, key=lambda one: one[0].height):
        for id in readings.entries:
            read = readings.length(id) if id.endswith(f"{ACROSS}{station.slug}") else None
            if read is not None:
                yield StationRead(id, station.name, station.height, planned, 2 * station.radius, read)


def as_turned(job: VesselJob, finished: Sequence[tuple[Station, float]]) -> VesselJob:
    """The job with its outside, and an inside of its own, as far in as the stations were turned under their sizes.

    The same job where none was, as well as can be measured, or where one reading is far from its plan or was taken
    late. What is over its size is turned off, and a station that was not read is taken to have its size, so these
    change nothing.
    """
    found = list(stations_read(job.readings, finished))
    if job.halves.ring is not None:  # hollowed before they are joined and turned outside
        return job
    if not any(_under(one) for one in found) or any(one.slip or one.late for one in found):
        return job
    shift = _shift(found, finished)
    inside = _moved(job.inside, shift) if job.inside else None
    return replace(job, outside=_moved(job.outside, shift), inside=inside)


def wall_left(
    section: Section, found: Sequence[StationRead], finished: Sequence[tuple[Station, float]]
) -> float:
    """The thinnest place of a wall whose inside was turned before its outside was turned so."""
    return least_wall(moved(section.outer, _shift(found, finished), WITHIN), section.inner)[0]


def _shift(found: Sequence[StationRead], finished: Sequence[tuple[Station, float]]) -> Shift:
    by = {one.height: _under(one) for one in found}
    heights = sorted({station.height for station, _ in finished})
    return Shift(tuple(heights), tuple(by.get(height, 0.0) for height in heights))


def _under(one: StationRead) -> float:
    """On the radius: less than nothing, or nothing."""
    return one.off.value / 2 if one.off.sure and one.off.value < 0 else 0.0


def _moved(shape: Shape, shift: Shift) -> Shape:
    return replace(shape, profile=moved(shape.profile, shift, WITHIN), within=shape.within + WITHIN)
