"""Jobs and random stacks for the saws' tests."""

from dataclasses import dataclass, replace
from functools import cache
from math import cos

from hypothesis import strategies as st

from geometry.blanks.ring_stack import Ring
from geometry.bodies.torus import SegmentCut
from jigs.asked.jobfile import parse
from jigs.asked.vessel_job import VesselJob
from jigs.forms.solve import solve
from jigs.plans.vessel import VesselPlan
from jigs.stages.finished_form.solve import solve_section
from jigs.stages.flat_segments.check import saw_findings
from jigs.stages.flat_segments.solve import saw_plan
from jigs.stages.stack.plan import Layer
from jigs.stages.stack.solve.whole import solve_stack
from jigs.words.findings import Finding

SHAPE = """\
title = "Sorrel"
[profile]
stations = [[0, 70], [12, 74], [60, 132], [110, 148], [150, 118], [180, 96]]
[wall]
thickness = 7
floor = 9
"""
STAVES = "[staves]\nlow = 30\nhigh = 110\ncount = 16\n"
KERF = 3.0  # the usual one


def text(heights: object = 20, segments: object = 12, *tables: str) -> str:
    rings = f'[rings]\nheights = {heights}\nsegments = {segments}\nspecies = "maple"\n'
    return SHAPE + rings + "".join(tables)


def job_of(*asked: object) -> VesselJob:
    job = parse(text(*asked[:2], *map(str, asked[2:])), "sorrel.toml")
    assert isinstance(job, VesselJob)
    return job


@cache
def plan_of(*asked: object) -> VesselPlan:
    return solve(job_of(*asked))


def findings(*asked: object) -> dict[str, Finding]:
    """What the saws have to say, by code, of a job that need not be made."""
    job = job_of(*asked)
    stack = solve_stack(job, solve_section(job))
    found = saw_findings(job, saw_plan(job, stack.layers, stack.staves_cut), stack.layers)
    return {finding.code: finding for finding in found}


def layer(number: int, segments: int, outer: float, depth: float, height: float, sanding: float) -> Layer:
    core = max(0.0, outer - depth)
    ring = Ring(number, 0.0, height, segments, outer, core)
    extra = 2 * sanding / cos(ring.mitre)
    cut = SegmentCut(ring.outer_edge + extra, ring.inner_edge + extra, outer - core, height, ring.mitre, KERF)
    return Layer(ring, "segments", ("maple",) * segments, 0.0, cut, ring.volume)


@dataclass(frozen=True)
class Stack:
    """Rings to cut, and what of the workshop the sled depends on."""

    layers: tuple[Layer, ...]
    sheet: float
    clear: float

    @property
    def plan(self) -> VesselPlan:
        """A vessel's plan with these rings instead of its own: saws and their jigs look at nothing else."""
        plan = plan_of(20, 12)
        shop = plan.job.workshop
        shop = replace(
            shop,
            boards=replace(shop.boards, sheet=self.sheet),
            sled=replace(shop.sled, clear_of_blade=self.clear),
        )
        job = replace(plan.job, workshop=shop)
        stack = replace(plan.stack, layers=self.layers)
        return replace(plan, job=job, stack=stack, saws=saw_plan(job, self.layers, None))


@st.composite
def stacks(draw: st.DrawFn) -> Stack:
    counts = draw(st.lists(st.integers(4, 40), min_size=1, max_size=2, unique=True))
    layers = tuple(
        layer(
            number,
            draw(st.sampled_from(counts)),
            draw(st.floats(30.0, 150.0)),
            draw(st.floats(8.0, 45.0)),
            draw(st.floats(3.0, 60.0)),
            draw(st.sampled_from([0.0, 0.1, 0.4])),
        )
        for number in range(1, draw(st.integers(1, 5)) + 1)
    )
    return Stack(layers, draw(st.floats(6.0, 20.0)), draw(st.floats(5.0, 30.0)))
