"""Whether every piece is held while it is sawn: by statics, friction not counted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jigs.findings import Finding
from jigs.job import Job
from jigs.plan.held import HeldCut

LEAST_GRIP = 1.25  # times the force along the base, by pins and friction alone. Common practice, no source


def is_held(cut: HeldCut) -> bool:
    """Held whichever way the blade pushes, its pins not torn through the wood."""
    return cut.held and cut.grip >= LEAST_GRIP


def held_findings(job: Job, cuts: Iterable[HeldCut], key: str, remedy: str) -> Iterator[Finding]:
    """One for the first piece that is not held."""
    loose = next((cut for cut in cuts if not is_held(cut)), None)
    if loose is None:
        return
    why = f"{loose.gets_away} under the cut" if loose.gets_away else f"is held only {loose.grip:.1f} times"
    yield job.finding(
        "not-held",
        f"the {loose.what} {why}: it is too small for the pins of its hold-down",
        key=key,
        remedy=remedy,
    )
