"""Plies that draw no pattern, and plies of which nothing shows."""

from itertools import accumulate

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.pattern import ply_at
from geometry.bodies.places import Places
from jigs.asked.job import TorusJob
from jigs.asked.job_wood import Ply
from jigs.looks.woods import pattern_of
from jigs.stages.layup.check.layup import layup_findings
from jigs.stages.layup.solve.whole import torus_layups
from jigs.words.findings import Finding
from tests.jigs.layup.layup_jobs import hoop, of_hoop, with_layup

BLACK = "#202020"
CODES = {"no-pattern", "plies-too-thick"}


def warned(*plies: Ply, **changes: object) -> list[Finding]:
    plan = hoop()
    job = with_layup(plan.job, plies=plies, **changes)
    assert isinstance(job, TorusJob)
    found = layup_findings(job, torus_layups(job, plan.blank, plan.cutting.carrier))
    return [finding for finding in found if finding.code in CODES]


@pytest.mark.parametrize(
    "plies",
    [
        [Ply("maple", 3.0)],
        [Ply("maple", 3.0), Ply("maple", 1.0)],
        [Ply("maple", 3.0, BLACK), Ply("walnut", 1.0, BLACK)],
        [Ply("maple", 3.0, "#aabbcc"), Ply("maple", 1.0, "#AABBCC")],
    ],
)
def test_plies_that_look_alike_are_warned_of_with_what_would_do(plies: list[Ply]) -> None:
    [finding] = warned(*plies)
    assert (finding.code, finding.severity, finding.key) == ("no-pattern", "warning", "layup.plies")
    assert "differ in name or colour" in finding.remedy
    assert warned(*plies, Ply("cherry", 1.0)) == []


def test_plies_of_one_wood_in_two_colours_are_a_pattern() -> None:
    assert warned(Ply("maple", 3.0), Ply("maple", 1.0, BLACK)) == []


@given(st.lists(st.floats(1, 40), min_size=2, max_size=4), st.floats(0, 90))
def test_plies_too_thick_to_show_are_those_that_no_place_of_the_blank_has(
    thicknesses: list[float], angle: float
) -> None:
    """Brute force: the plies at places all over the blank."""
    plies = tuple(Ply(f"wood {k}", thickness) for k, thickness in enumerate(thicknesses))
    layup = of_hoop(plies=plies, angle=angle)
    begins = list(accumulate(thicknesses, initial=0.0))[: len(plies)]
    if any(abs(begin - layup.layup.height) < 1.0 for begin in begins):
        return  # shows at a corner only, between the places
    piece, found = layup.layup, warned(*plies, angle=angle)
    hidden = {ply.name for ply in plies if any(ply.name in finding.message for finding in found)}
    u, v, y = np.meshgrid(np.linspace(-1, 1, 60), np.linspace(0, 1, 3), np.linspace(-1, 1, 60))
    one = np.zeros(u.shape, dtype=np.intp)
    places = Places(one, one, piece.a * u, piece.depth * v, piece.b * y)
    shown = {plies[k].name for k in np.unique(ply_at(places, pattern_of(layup)))}
    assert hidden == {ply.name for ply in plies} - shown
    assert all(finding.severity == "warning" and finding.key == "layup.plies" for finding in found)
