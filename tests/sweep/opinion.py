"""What independent checks say of a dry fit: of all that it condemns, and of all that it passes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from jigs.dryfit.fit import DryFit
from jigs.dryfit.model import Check
from jigs.plans.plan import Plan
from jigs.plans.vessel import VesselPlan
from tests.sweep.judge import vessel_right, vessel_wrong
from tests.sweep.torus_judge import judge_torus, overlooked_of, torus_right


@dataclass(frozen=True)
class Opinion:
    """Misfits that are right, that are wrong, and of which nothing is known; and what is wrong and no misfit."""

    condemned_right: tuple[str, ...]
    condemned_wrong: tuple[str, ...]
    undecided: tuple[str, ...]
    overlooked: tuple[str, ...]


def opinion(plan: Plan, found: DryFit, folder: Path) -> Opinion:
    """Of the dry fit of a folder."""
    if isinstance(plan, VesselPlan):
        condemned = {check.where for check in found.misfits}
        missed = [name for name in vessel_wrong(plan, folder) if name not in condemned]
        return _sorted(found, missed, lambda check: vessel_right(plan, folder, check.where, check.what))
    measured = judge_torus(plan.job, folder)
    missed = overlooked_of(measured, [(check.where, check.what) for check in found.misfits])
    return _sorted(found, missed, lambda check: torus_right(measured, check.where, check.what))


def _sorted(found: DryFit, missed: list[str], right: Callable[[Check], bool | None]) -> Opinion:
    words: dict[bool | None, list[str]] = {True: [], False: [], None: []}
    for check in found.misfits:
        told = f"{check.where}: {check.what}: {check.value:.4f} ({check.least:.4f} to {check.most:.4f})"
        words[right(check)].append(told)
    return Opinion(tuple(words[True]), tuple(words[False]), tuple(words[None]), tuple(missed))
