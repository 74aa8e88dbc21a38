"""The work of the tests' whole jobs, gathered once."""

from __future__ import annotations

from functools import cache

from jigs.proof import draw
from jigs.work.gather import work
from jigs.work.model import Work
from tests.jigs.wood.whole_jobs import plan_of


@cache
def work_of(name: str) -> Work:
    proof = draw(plan_of(name))
    return work(proof.plan, proof.parts, proof.notes)
