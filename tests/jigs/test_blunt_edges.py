"""No board that spins has an edge that cuts: every corner of what is turned is blunt."""

from __future__ import annotations

from math import degrees, pi
from pathlib import Path

import pytest

from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.stages.holding_by_mouth.parts import reversing
from jigs.stages.mountings.parts.braces import first_board_section
from jigs.stages.mountings.parts.holding import channel_section, retainer_section
from tests.examples import plan_of_example

CONFIGS = Path(__file__).parents[2] / "configs"
LEAST = 60.0  # degrees of wood in a corner


def corners(part: Part) -> list[tuple[float, tuple[float, float]]]:
    """Degrees of wood in every corner of a section, and where it is."""
    edges = part.outline.ccw().edges()
    found = []
    for before, after in zip([edges[-1], *edges[:-1]], edges, strict=True):
        turn = (after.heading(0.0) - before.heading(1.0) + pi) % (2 * pi) - pi
        found.append((180 - degrees(turn), after.start))
    return found


def turned(plan: TorusPlan) -> list[Part]:
    return [channel_section(plan), retainer_section(plan), first_board_section(plan)]


def assert_no_corner_of_a_board_is_sharp(plan: TorusPlan) -> None:
    """Of any torus; of random ones in `test_random_jobs`, which solves them."""
    for part in turned(plan):
        assert min(corners(part))[0] >= LEAST, (part.name, min(corners(part)))


@pytest.mark.parametrize("name", ["sorrel", "tumbler"])
def test_no_corner_of_a_plug_is_sharp(name):
    parts = reversing(plan_of_example(name))
    sections = [part for part in parts if part.process == "turn"]
    assert sections
    assert all(min(corners(part))[0] >= LEAST for part in sections)
