"""Whole plans with their wood, for the tests of steps, grain, glue and words."""

from functools import cache

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.plans.plan import Plan
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.steps.prepared import Made, prepared
from tests.examples import plan_of_example
from tests.jigs.vessel.jobs import text as vessel_text

CONFIG_TORI = ("garland", "quoit", "millwheel")
CONFIG_VESSELS = ("sorrel", "tumbler", "acorn-lid", "gourd")
CONFIG_JOBS = (*CONFIG_TORI, *CONFIG_VESSELS)
TORI = {
    "two woods": 'species = [["maple", "walnut"], ["walnut", "maple"]]',
    "woods by rings": 'species = ["maple", "walnut"]',
    "no half sanding": "half_sanding = 0",
}
VESSELS = ("vase", "bowl", "platter", "bottle", "cup", "open", "staved")
LAYUP = '[layup]\nplies = [["maple", "4 mm"], ["walnut", "2 mm"], ["black", "1 mm", "#202020"]]\n'
LAYUPS = ("plied torus", "plied vase")
ALL = (*CONFIG_JOBS, *TORI, *VESSELS, *LAYUPS)

RING = """title = "Loop"
unit = "{unit}"
[form]
outer_diameter = "250 mm"
tube_diameter = "54 mm"
wedge_rings = {rings}
segments = {segments}
core_opening = "20 mm"
{form}
{more}
"""


def torus(form: str = "", more: str = "", unit: str = "mm", rings: int = 18, segments: int = 8) -> TorusPlan:
    """A ring 250 mm across."""
    text = RING.format(form=form, more=more, unit=unit, rings=rings, segments=segments)
    found = solve(parse(text, "loop.toml"))
    assert isinstance(found, TorusPlan)
    return found


def vessel(name: str, more: str = "", unit: str = "mm") -> VesselPlan:
    """One of VESSELS, with more at the end of its job file."""
    found = solve(parse(vessel_text(name, unit, more), "cup.toml"))
    assert isinstance(found, VesselPlan)
    return found


@cache
def plan_of(name: str, unit: str = "mm") -> Plan:
    """One of ALL; those in configs have units of their own."""
    if name in CONFIG_JOBS:
        return plan_of_example(name)
    if name == "plied torus":
        return torus(more=LAYUP, unit=unit)
    if name == "plied vase":
        return vessel("vase", f'{LAYUP}mirrored = "none"\nrings = [3, 5]\n', unit)
    return torus(TORI[name], unit=unit) if name in TORI else vessel(name, unit=unit)


def prepared_of(plan: Plan) -> list[Made]:
    """From its boards to its strips."""
    return list(prepared(plan.job, plan.wood.lots, plan.wood.classes))
