"""Values that only follow others: kept as they were, they may keep jigs right that a change has made wrong.

Clean-up follows the saw's kerf unless the job states it: a blade of another kerf moves the stop of a sled that cuts as
well with the old clean-up. What is offered has been tried: read, solved, drawn and held against the old jigs.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from geometry.records import Record
from jigs.plans.plan import by_form
from jigs.words.findings import Refused
from jigs.words.lengths import MM_PER_INCH

if TYPE_CHECKING:
    from jigs.asked.job import Job
    from jigs.parts.part import Part
    from jigs.plans.plan import Plan
    from jigs.sets.old_set import OldSet
    from jigs.words.lengths import Unit

SAME = 1e-6  # mm


class Keep(Record):
    """A key to state as it was, and the jigs that are right then."""

    table: str
    line: str
    jigs: tuple[str, ...]


def followed(plan: Plan) -> dict[str, float]:
    """By key, the lengths (mm) that the job leaves to follow others."""
    return by_form(
        plan,
        torus=lambda own: {} if own.job.form.clean_up is not None else {"form.clean_up": own.clean_up},
        vessel=lambda _: {},
    )


def worth_keeping(plan: Plan, old: OldSet, right: Mapping[str, bool]) -> tuple[Keep, ...]:
    """Values that, kept as the old set had them, make wrong jigs right and no right one wrong.

    `right` tells of each old jig whether it is, as the job stands.
    """
    if all(right.values()):
        return ()
    job, now, least = plan.job, followed(plan), _least(plan)
    moved = {key: was for key, was in old.followed.items() if key in now and abs(was - now[key]) > SAME}
    tried = [
        (key, was, _saved(job, key, was, old, right))
        for key, was in moved.items()
        if was >= least[key] - SAME
    ]
    return tuple(_keep(key, was, saved, job.unit) for key, was, saved in tried if saved)


def _least(plan: Plan) -> dict[str, float]:
    """The least of each that is offered: with less clean-up than its kerf a blade has wood on one side only."""
    from jigs.stages.segments.saws import kerf_of

    return by_form(
        plan, torus=lambda own: {"form.clean_up": kerf_of(own.job, own.cutting.rings_on)}, vessel=lambda _: {}
    )


def _keep(key: str, was: float, saved: tuple[str, ...], unit: Unit) -> Keep:
    from jigs.asked.change import Change

    return Keep(key.rpartition(".")[0], Change(key, typed(was, unit)).line, saved)


def typed(mm: float, unit: Unit) -> float:
    """To the last figure, for a stop depends on it."""
    return round(mm, 4) if unit == "mm" else round(mm / MM_PER_INCH, 6)


def _saved(job: Job, key: str, was: float, old: OldSet, right: Mapping[str, bool]) -> tuple[str, ...]:
    """The wrong jigs that are right with a key as it was; none where the job is refused then, or loses a right one."""
    parts = _parts(job, key, was)
    then = {part.name: old.serves(part, job) for part in parts if part.name in right}
    if any(was_right and not then.get(name, False) for name, was_right in right.items()):
        return ()
    return tuple(name for name, serves in then.items() if serves and not right[name])


def _parts(job: Job, key: str, was: float) -> list[Part]:
    """All jigs of the job with a key as it was; none where it is refused then."""
    from jigs.asked import toml_source
    from jigs.asked.change import changed
    from jigs.asked.jobfile import job_of
    from jigs.forms.solve import solve
    from jigs.sets.rack import rack

    file = job.sources[0]
    try:
        source = changed(toml_source.read(file), {key: typed(was, job.unit)})
        return rack(solve(job_of(source, file)))[0]
    except Refused:
        return []
