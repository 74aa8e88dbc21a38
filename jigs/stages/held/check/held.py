"""Whether every piece is held while it is sawn, by statics."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import floor

from jigs.asked.job import Job
from jigs.stages.held.plan import HeldCut
from jigs.words.findings import Finding

# Times the cut's force, by friction and pins: common practice, no source. The force, 100 N, is over twice what 2.2 kW
# give a table saw: 44 N at 50 m/s.
LEAST_GRIP = 1.25


def is_held(cut: HeldCut) -> bool:
    """Nothing left free to move, and friction and pins hold more than the blade's push, whichever way it goes."""
    return cut.held and cut.grip >= LEAST_GRIP


def held_findings(job: Job, cuts: Iterable[HeldCut], key: str, remedy: str) -> Iterator[Finding]:
    """One for the first piece that is not held."""
    loose = next((cut for cut in cuts if not is_held(cut)), None)
    if loose is None:
        return
    why = f"{loose.gets_away} under the cut" if loose.gets_away else _weak(loose)
    yield job.finding(
        "not-held", f"the {loose.what} {why}: it is too small for its hold-down", key=key, remedy=remedy
    )


def _weak(cut: HeldCut) -> str:
    shown = floor(100 * cut.grip) / 100  # never rounded up to what it has not reached
    return f"is held against only {shown:.2f} times the cut's push, and {LEAST_GRIP:g} is the least"
