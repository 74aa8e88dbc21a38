"""Boards for the demo torus, and the plan that they give."""

from jigs.asked.job_wood import Board
from tests.jigs.wood.wood_jobs import lots_of, plan_of, stocked, with_stock

PLAN = plan_of("garland")
LOTS = lots_of(PLAN)
(LOT,) = LOTS
THICK = LOT.thickness


def board(width=150.0, length=2000.0, count=1, thickness=THICK, species="maple"):
    return Board(species, thickness, width, length, count)


def planned(*boards, lots=LOTS, **stock):
    job = with_stock(PLAN.job, boards=boards, **stock)
    return stocked(job, lots)


def codes(findings):
    return [finding.code for finding in findings]
