"""Every wedge ring and every mounting is held, or its job is refused with the reason and with what would do."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.plans.torus import TorusPlan
from jigs.stages.held.check.rings_held import ring_findings, told
from jigs.stages.held.statics.rings import DIRECTIONS, ring_holding
from jigs.stages.wedge_rings.sled import end_wedge_thinner
from jigs.words.findings import Finding, Refused
from tests.examples import plan_of_example

CONFIGS = Path(__file__).parents[2] / "configs"
TORI = ["garland", "quoit", "millwheel", "trellis"]
FORM = "outer_diameter = 250\ntube_diameter = 54\nsegments = 8\nleast_wall = 3\n"


def plan_of(rings: int = 16, core: float = 20.0) -> TorusPlan:
    return solve(parse(f"[form]\n{FORM}wedge_rings = {rings}\ncore_opening = {core}\n", "hoop.toml"))


def refusal(code: str, rings: int = 16, core: float = 20.0) -> Finding:
    with pytest.raises(Refused) as caught:
        plan_of(rings, core)
    return next(finding for finding in caught.value.findings if finding.code == code)


@pytest.mark.parametrize("name", TORI)
def test_an_example_holds_its_rings_twice_over_and_its_mountings_by_hand(name):
    plan = plan_of_example(name)
    assert all(holding.margin > 2 for holding in plan.rings_held)
    assert [held.mounting for held in plan.mountings.held] == ["A", "B", "C", "D"]
    assert all(held.held and held.least_pull < 1000 for held in plan.mountings.held)


@pytest.mark.parametrize("second", [False, True])
def test_a_sled_without_its_rod_is_refused_and_says_that_the_ring_leaves_the_fence(second):
    plan = plan_of()
    bare = ring_holding(plan.sled, second, rod=False)
    assert "off the fence" in told(bare, DIRECTIONS)
    (finding,) = ring_findings(plan.job, (bare, bare))
    assert finding.code == "ring-not-held"
    assert finding.severity == "refused"
    assert "held against 0 N" in finding.message
    assert "100 N" in finding.message or "with 100" in finding.message


def test_a_ring_that_only_the_end_wedge_does_not_hold_is_refused_and_says_so():
    plan = plan_of_example("garland")
    assert len(plan.rings_held) == 3
    thinner = end_wedge_thinner(plan.job, plan.sled)
    bare = ring_holding(plan.sled, second=True, rod=False, thinner=thinner)
    (finding,) = ring_findings(plan.job, (*plan.rings_held[:2], bare))
    assert finding.message.startswith("in cut 2, with the end wedge, on the sled the ring")
    assert not ring_findings(plan.job, plan.rings_held)


def test_a_job_that_sands_nothing_off_its_halves_has_no_end_wedge_to_be_held_by():
    plan = solve(parse(f"[form]\n{FORM}wedge_rings = 16\ncore_opening = 20\nhalf_sanding = 0\n", "hoop.toml"))
    assert len(plan.rings_held) == 2


def test_a_core_without_room_for_a_rod_is_refused_with_the_one_that_has():
    found = refusal("core-too-small-to-hold", core=7.0)
    least = re.search(r"at least ([\d.]+) mm", found.remedy)
    assert least is not None
    assert plan_of(core=float(least[1])).sled.rod.bolt == "M4"
    refusal("core-too-small-to-hold", core=float(least[1]) - 0.1)


def test_rings_too_short_for_the_plug_are_refused_with_how_many_do():
    found = refusal("ring-too-short-to-hold", rings=24)
    assert re.match(r"a ring [\d.]+ mm long at its middle is too short to hold", found.message)
    most = re.search(r"at most (\d+) wedge rings", found.remedy)
    assert most is not None
    assert plan_of(int(most[1])).sled.rod.fits
    with pytest.raises(Refused, match="rod that holds"):  # there a smaller core would do too
        plan_of(int(most[1]) + 2)


def test_a_wide_core_in_short_rings_is_refused_with_the_one_that_does():
    found = refusal("core-too-large-to-hold", core=40.0)
    most = re.search(r"at most ([\d.]+) mm", found.remedy)
    assert most is not None
    core = float(most[1])
    assert core > 25
    assert solve(replace_core(plan_of(), core)).sled.rod.fits
    refusal("core-too-large-to-hold", core=core + 0.5)


def replace_core(plan: TorusPlan, core: float):
    return replace(plan.job, form=replace(plan.job.form, core_opening=core, least_wall=1.0))


THIN = (
    "[form]\nouter_diameter = 300\ntube_diameter = 40\nwedge_rings = 24\nsegments = 8\ncore_opening = 12\n"
    "least_wall = 3\nhalf_sanding = 0.5\n"
)


def test_a_wedge_too_thin_for_its_peg_is_refused_with_the_clean_up_that_makes_it_thick_enough():
    with pytest.raises(Refused) as caught:
        solve(parse(f"{THIN}clean_up = 2\n", "hoop.toml"))
    found = next(f for f in caught.value.findings if f.code == "wedge-not-pegged")
    least = re.search(r"clean_up of at least ([\d.]+) mm", found.remedy)
    assert least is not None
    plan = solve(parse(f"{THIN}clean_up = {least[1]}\n", "hoop.toml"))
    assert all(holding.held for holding in plan.rings_held)


@pytest.mark.parametrize("name", TORI)
def test_the_wedge_of_an_example_is_held_by_its_peg_alone(name):
    plan = plan_of_example(name)
    assert not ring_holding(plan.sled, second=True, peg=False).held
    assert ring_holding(plan.sled, second=True).margin > 2
