"""The segment carrier for a blade that tilts left or right: drawn for it, and neither fits the other saw."""

from pathlib import Path

import numpy as np
import pytest

from jigs.asked.job import TorusJob
from jigs.asked.jobfile import load, parse
from jigs.dryfit.files import Files
from jigs.dryfit.segments import carrier_checks
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.plans.torus import TorusPlan
from jigs.stages.segments.parts import HANDED, segment_carrier
from tests.jigs.inspection import faults, text_of
from tests.jigs.vessel.jobs import planned
from tests.unset import jigs_made

JOB = """\
title = "Hoop"
[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 14
segments = 8
core_opening = 20
[saw]
"""
SIDES = {side: f'{JOB}tilts = "{side}"\n' for side in ("left", "right")}


def job_of(text: str) -> TorusJob:
    job = parse(text, "hoop.toml")
    assert isinstance(job, TorusJob)
    return job


def plan_of(text: str) -> TorusPlan:
    plan = solve(job_of(text))
    assert isinstance(plan, TorusPlan)
    return plan


@pytest.fixture(scope="module")
def folders(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    found = {}
    for side, text in SIDES.items():
        folder = tmp_path_factory.mktemp(side)
        (folder / "hoop.toml").write_text(text)
        found[side] = jigs_made(load(folder / "hoop.toml"), folder)
    return found


def misfits(side: str, folder: Path) -> list[str]:
    plan = plan_of(SIDES[side])
    checks = carrier_checks(plan.job, Files.of(plan.job, folder), plan.blank.apothem)
    return [f"{check.where}: {check.what}" for check in checks if not check.fits]


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_carrier_as_drawn_fits_its_own_saw_and_not_the_other(side, folders):
    other = {"left": "right", "right": "left"}[side]
    assert misfits(side, folders[side]) == []
    assert misfits(other, folders[side])


def test_every_mirrored_part_is_sound_and_its_lettering_reads_from_left_to_right():
    left, right = ({p.name: p for p in segment_carrier(plan_of(text))} for text in SIDES.values())
    assert left.keys() == right.keys()
    for name in HANDED:
        assert faults(right[name]) == []
    arm = text_of(right["segment-stop"])
    assert "TIP →" in arm or "→ TIP" in arm
    assert "←" not in arm
    for name in ("segment-fence", "segment-stop", "segment-hold-strip"):
        ours, theirs = (np.sort(part[name].outline.points[:, 0]) for part in (left, right))
        assert ours == pytest.approx(-theirs[::-1])


def test_the_runner_is_in_the_same_slot_to_the_left_of_the_blade():
    """In the mirrored frame of the layout it lies on the segment's side, as far from the blade as measured."""
    layout = plan_of(SIDES["right"]).cutting.carrier
    near, far = layout.runner
    assert near - layout.blade_at_table[1] == pytest.approx(110.0)
    assert far < layout.right_edge


def test_a_side_that_is_not_stated_is_told_as_assumed():
    base = next(part for part in segment_carrier(plan_of(JOB)) if part.name == "segment-base")
    assert any("assumed" in note for note in base.making)
    stated = next(part for part in segment_carrier(plan_of(SIDES["left"])) if part.name == "segment-base")
    assert not any("assumed" in note for note in stated.making)


def test_the_sentence_of_an_assumed_side_stands_apart():
    """No "to the left, assumed: look, away from the stave"."""
    (base,) = (part for part in parts_of(planned("staved")) if part.name == "stave-base")
    assert base.making == (
        "Drawn for a blade whose top tilts to the left, away from the stave. That side is assumed: look at your saw, "
        "and state tilts in [saw].",
    )
