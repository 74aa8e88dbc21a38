"""Readings that go straight into a key, such as printer.play: whether the job is planned with them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from jigs.asked.readings.keys import key_of
from jigs.measured.advice import Advice
from jigs.work.values import is_used

if TYPE_CHECKING:
    from jigs.plans.plan import Plan

TOPIC = "keys"


def keys_advice(plan: Plan) -> Iterator[Advice]:
    """One for each key that was read."""
    job, readings = plan.job, plan.job.readings
    for key in sorted({key for id in readings.entries if (key := key_of(id))}):
        section, _, name = key.rpartition(".")
        place = job.places.get(key)
        if place is None:
            continue
        says: tuple[str, ...] = (
            (f"Nothing of this job asks for {name} in [{section}].",)
            if not is_used(key, job, plan.kind)
            else (f"Used for {name} in [{section}]: jigs and work follow it.",)
            if place.file == readings.file
            else (
                f"Not used: {name} in [{section}] is written in {place.file}. Delete that line to use the reading.",
            )
        )
        yield Advice(f"{TOPIC}.{key}", f"{name} in [{section}]", "right", (), says)
