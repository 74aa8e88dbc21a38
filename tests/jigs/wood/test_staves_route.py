"""A torus sliced from tubes of staves: what cuts segments is neither made nor spoken of."""

from __future__ import annotations

from math import cos, pi, tan
from pathlib import Path

import pytest

from jigs.dryfit.run import dry_fit
from jigs.families.torus import FAMILIES
from jigs.findings import Refused
from jigs.jobfile import load
from jigs.make import make
from jigs.words.report import sections
from tests.jigs.wood.wood_jobs import STAVES, plan_of, torus_text

CARRIES = ("segment-", "plan-angle-")
BOTH_SLEDS = "plan_angle_sled = true\n"  # in the staves' own table [cutting]
LOW_SAW = "wedge_rings = 'bandsaw'\n[saw]\nblade_height = 20\n[bandsaw]\nheight = 300\n"


def names(name: str, more: str = "") -> set[str]:
    plan = plan_of(name, more)
    return {part.name for family in FAMILIES for part in family(plan)}


def test_nothing_that_carries_segments_is_made_for_staves() -> None:
    segments, staves = names("", f"[cutting]\n{BOTH_SLEDS}"), names("staves", BOTH_SLEDS)
    carriers = {part for part in segments if part.startswith(CARRIES)}
    assert carriers == segments - staves
    assert {"tilt-plate", "joint-plate"} <= staves


def test_nothing_of_segments_is_told_for_staves() -> None:
    told = {section.title for section in sections(plan_of("staves"))}
    assert "Cutting staves" in told
    assert not told & {"Cutting segments", "Segment carrier", "Sled for flat rings"}


def test_staves_glued_and_sanded_close_round_the_core() -> None:
    plan = plan_of("staves")
    rip, blank, mitre = plan.cutting.staves, plan.blank, pi / 8
    sanded = 2 * plan.job.form.joint_sanding / cos(mitre)
    assert rip.outer_width - sanded == pytest.approx(2 * blank.apothem * tan(mitre))
    assert rip.inner_width - sanded == pytest.approx(2 * blank.core_apothem * tan(mitre))
    assert rip.outer_width - rip.inner_width == pytest.approx(2 * rip.thickness * tan(rip.tilt))


def test_both_widths_of_a_stave_are_told_where_its_edges_are_cut() -> None:
    plan = plan_of("staves")
    (bevel,) = [step for step in plan.wood.steps if step.work == "bevel"]
    told = {setting.id: setting.value for setting in (*bevel.settings, *bevel.checks)}
    assert told["outer-width"] == pytest.approx(plan.cutting.staves.outer_width)
    assert told["inner-width"] == plan.cutting.staves.inner_width


def test_a_stave_too_thick_for_the_tilted_blade_is_refused() -> None:
    with pytest.raises(Refused) as refused:
        plan_of("staves", LOW_SAW)
    assert "stave-too-thick" in {finding.code for finding in refused.value.findings}


def test_jigs_for_staves_fit_together(tmp_path: Path) -> None:
    file = tmp_path / "loop.toml"
    file.write_text(torus_text(STAVES), "utf-8")
    job = load(file)
    found = dry_fit(job, make(job, tmp_path / "made").folder)
    assert found.checks
    assert [check for check in found.checks if not check.fits] == []
