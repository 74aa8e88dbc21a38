"""Jobs, solved as far as their wood, for the tests of lots and boards."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from jigs.asked.job import Job, TorusJob
from jigs.asked.job_wood import Board
from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.plans.plan import Plan
from jigs.stages.boards.check import stock_findings
from jigs.stages.boards.plan import Lot, Shortage, WoodClass
from jigs.stages.boards.solve.boards import wood_classes
from jigs.stages.boards.solve.torus import torus_lots
from jigs.stages.boards.solve.vessel_lots import vessel_lots
from jigs.words.findings import Finding
from tests.examples import plan_of_example
from tests.jigs.vessel.jobs import text as vessel_text

NAMES = ("garland", "quoit", "millwheel", "sorrel", "tumbler")
ODD = {
    "one wood by rings": 'species = ["maple", "walnut"]',
    "woods round the ring": 'species = [["maple", "walnut", "maple", "cherry"], ["ash"]]',
}
VESSELS = ("vase", "bowl", "platter", "bottle", "cup", "open", "staved")
ALL = (*NAMES, *ODD, *VESSELS)
RING = """title = "Loop"
unit = "{unit}"
[form]
outer_diameter = "250 mm"
tube_diameter = "54 mm"
wedge_rings = {rings}
segments = 8
core_opening = "20 mm"
{form}
{more}
"""


def torus_text(form: str = "", more: str = "", unit: str = "mm", rings: int = 18) -> str:
    return RING.format(form=form, more=more, unit=unit, rings=rings)


@cache
def plan_of(name: str, more: str = "", unit: str = "mm") -> Plan:
    """The plan of one of ALL; `more` stands at the end of the job file of those that are not in configs."""
    if name in NAMES:
        return plan_of_example(name)
    text = vessel_text(name, unit, more) if name in VESSELS else torus_text(ODD.get(name, name), more, unit)
    return solve(parse(text, "loop.toml"))


def lots_of(plan: Plan) -> tuple[Lot, ...]:
    if isinstance(plan.job, TorusJob):
        return torus_lots(plan.job, plan.blank, plan.cutting, plan.species, plan.spare_rings)
    return vessel_lots(plan.job, plan.stack, plan.saws)


Stocked = tuple[tuple[WoodClass, ...], tuple[Shortage, ...]]


def stocked(job: Job, lots: tuple[Lot, ...]) -> tuple[tuple[WoodClass, ...], list[Finding]]:
    """The plan of the boards, and what is found about it."""
    classes, shortages = wood_classes(job, lots)
    return classes, list(stock_findings(job, lots, classes, shortages))


def with_stock(job: Job, **changes: object) -> Job:
    shop = job.workshop
    return replace(job, workshop=replace(shop, stock=replace(shop.stock, **changes)))


def with_boards(job: Job, *boards: Board) -> Job:
    return with_stock(job, boards=boards)
