"""Counts of a layup's pieces that every shop knows: common practice, no source."""

import pytest

from jigs.asked.job import TorusJob
from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.layup.solve.whole import torus_layups

# The counts that most rings of this kind have: common practice, no source. They are no demo's.
USUAL_COUNTS = """
[form]
outer_diameter = 240
tube_diameter = 52
wedge_rings = 16
segments = 8
core_opening = 20
"""
LAYUP = '\n[layup]\nplies = [["maple", 3], ["walnut", 2]]\nmirrored = "{}"\n'


def layup(mirrored: str) -> LayupPlan:
    job = parse(USUAL_COUNTS + LAYUP.format(mirrored), "usual.toml")
    assert isinstance(job, TorusJob)
    plan = solve(job)
    [found] = torus_layups(job, plan.blank, plan.cutting.carrier)
    return found


@pytest.mark.parametrize(
    ("mirrored", "pieces"), [("none", 128), ("left and right", 256), ("up and down", 256), ("both", 512)]
)
def test_sixteen_rings_of_eight_segments_of_four_quarters_are_512_quarters(
    mirrored: str, pieces: int
) -> None:
    assert layup(mirrored).pieces == pieces


def test_half_of_the_quarters_are_turned_over() -> None:
    quarters = layup("both")
    assert (quarters.per_segment, quarters.turned_over) == (4, 2)
