"""Vessels held by the mouth: jobs, their plans, the plug as a stranger would build it."""

import re
from dataclasses import replace
from functools import cache

import numpy as np
import shapely

from geometry.plane.sample import sample
from jigs.asked.jobfile import parse
from jigs.stages.finished_form.solve import solve_section
from jigs.stages.holding_by_mouth.solve.whole import reversing_plan
from jigs.stages.stack.solve.whole import solve_stack
from tests.jigs.vessel.jobs import planned

TOUCH = 0.02  # mm2: chords of sampled arcs


def blank_of(job):
    """Its section and its rings: a fifth of what it takes to solve all of it."""
    section = solve_section(job)
    return section, solve_stack(job, section)


def solved(asked):
    section, stack = blank_of(asked)
    return section, stack, reversing_plan(asked, section, stack)


@cache
def held(name, hold="auto", **more):
    """One of JOBS, held in a way; all else of its plan is as it was."""
    plan = planned(name)
    asked = replace(plan.job, reversing=replace(plan.job.reversing, hold=hold, **more))
    return replace(plan, job=asked, reversing=reversing_plan(asked, plan.section, plan.stack))


def made(edges, wall=6.0, floor=10.0, extra="", reverse="", corner=5):
    """A vessel of straight edges."""
    return parse(
        f'title = "Made"\n[profile]\nedges = {edges}\n'
        f"[wall]\nthickness = {wall}\nfloor = {floor}\ninner_corner = {corner}\n"
        f'[rings]\nheights = 20\nsegments = 12\nspecies = "maple"\n{extra}\n[reversing]\n{reverse}\n',
        "made.toml",
    )


def solid(contour):
    return shapely.Polygon(sample(contour, 0.001))


def turned(plug):
    """The plug's half section without its hole, as a stranger would build it from the plan's numbers."""
    side = np.array([edge.point_at(t) for edge in plug.bearing.edges() for t in np.linspace(0, 1, 30)])
    neck = plug.bearing.end[0]
    tail = [(neck, plug.face), (plug.flange, plug.face), (plug.flange, plug.back), (0, plug.back)]
    return shapely.Polygon([(0, plug.tip), *side, *tail])


def number(remedy, words):
    """The number that stands behind some words of a remedy."""
    found = re.search(rf"{words} ([0-9.]+)", remedy)
    assert found, remedy
    return float(found[1])


def hangs(section, z):
    """N mm about a height by the turned vessel above it, its axis level, of known woods at 900 kg/m3."""
    heights = np.linspace(z, section.height, 5001)
    inner, outer = np.transpose([section.wall_at(one) for one in heights.tolist()])
    return np.trapezoid(np.pi * (outer**2 - inner**2) * (heights - z), heights) * 900e-9 * 9.81
