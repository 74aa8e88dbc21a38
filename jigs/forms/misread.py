"""Readings of the turned work that refuse a job: one that was misread looks like wood that is gone."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator

from geometry.records import Record, replace
from jigs.asked.job import Job
from jigs.measured.advice import Words
from jigs.measured.first_side import READ
from jigs.measured.outside import ACROSS, stations_read
from jigs.plans.plan import Plan, by_form
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.words.findings import Finding, Refused


class _Off(Record):
    """A size as read beside its plan, mm."""

    id: str
    label: str
    read: float
    planned: float

    @property
    def share(self) -> float:
        return abs(self.read - self.planned) / self.planned


def misread(job: Job, solve: Callable[[Job], Plan]) -> tuple[Finding, ...]:
    """Of a refused job, the readings without which it is not refused: the one farthest off, if that alone does."""
    ids = [id for id in job.readings.entries if ACROSS in id or id.startswith(f"{READ}.")]
    plan = _solved(job, ids, solve) if ids else None
    if plan is None:
        return ()
    offs = sorted(by_form(plan, torus=_of_side, vessel=_of_stations)(job), key=lambda one: -one.share)
    if len(offs) > 1 and ACROSS in offs[0].id and _solved(job, [offs[0].id], solve) is not None:
        offs = offs[:1]
    words = Words(job.unit)
    without, again = ("it", "it") if len(offs) == 1 else ("these readings", "them")
    return tuple(
        Finding(
            "misread",
            f"{one.label} was read as {words.fine(one.read)}, planned {words.fine(one.planned)}; without {without} the "
            f"job is not refused. Measure {again} again before you change anything",
            key=one.id,
            file=job.readings.file,
            line=job.readings.entries[one.id].line,
        )
        for one in offs
    )


def _solved(job: Job, left_out: Collection[str], solve: Callable[[Job], Plan]) -> Plan | None:
    kept = {id: entry for id, entry in job.readings.entries.items() if id not in left_out}
    try:
        return solve(replace(job, readings=replace(job.readings, entries=kept)))
    except Refused:
        return None


def _of_stations(plan: VesselPlan) -> Callable[[Job], Iterator[_Off]]:
    return lambda job: (
        _Off(one.id, one.label, one.read.value, one.planned)
        for one in stations_read(job.readings, plan.asked_sizes.finished)
        if one.off.sure
    )


def _of_side(plan: TorusPlan) -> Callable[[Job], Iterator[_Off]]:
    form = plan.asked.form
    planned = {
        "tube": ("the tube's width", form.tube_diameter),
        "outer": ("the rim", form.outer_diameter),
        "hole": ("the hole", 2 * (form.major_radius - form.tube_radius)),
    }

    def offs(job: Job) -> Iterator[_Off]:
        for name, (label, size) in planned.items():
            read = job.readings.length(f"{READ}.{name}")
            if read and abs(read.value - size) > read.accuracy:
                yield _Off(f"{READ}.{name}", label, read.value, size)

    return offs
