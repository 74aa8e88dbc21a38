"""The joint plate's bearing edges, which a person and the dry fit find at its short end, make the joint's angle."""

from __future__ import annotations

from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.dryfit.angle_plates import bearing_angle
from jigs.dryfit.files import Files
from jigs.dryfit.torus import dry_fit
from jigs.files.dxf import write_dxf
from jigs.parts.sleds.angles import joint_plate
from tests.jigs.inspection import text_of
from tests.jigs.vessel.jobs import text
from tests.jigs.wood.wood_jobs import plan_of
from tests.unset import jigs_made


@pytest.mark.parametrize("segments", [3, 4, 5, 6, 7, 8, 9, 12, 16, 24, 48])
def test_edges_at_the_short_end_make_the_angle_of_a_joint(tmp_path: Path, segments: int) -> None:
    part = joint_plate(plan_of("vase"), segments)
    (tmp_path / "cut").mkdir()
    write_dxf(part, tmp_path / "cut" / "joint-plate.dxf")
    files = Files(tmp_path, 0.0, part.thickness)
    assert bearing_angle(files.drawn("joint-plate")) == pytest.approx(360 / segments, abs=0.01)
    assert "SHORT END" in text_of(part)


@pytest.mark.parametrize("segments", [6, 7])
def test_a_vessel_of_few_segments_fits(tmp_path: Path, segments: int) -> None:
    file = tmp_path / "cup.toml"
    file.write_text(text("cup").replace("segments = 9", f"segments = {segments}"), "utf-8")
    job = load(file)
    found = dry_fit(job, jigs_made(job, tmp_path / "made"), sheets=False)
    assert [check for check in found.checks if not check.fits] == []
