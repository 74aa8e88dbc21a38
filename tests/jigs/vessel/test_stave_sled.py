"""The sled of staves, made and read back: it fits for either tilt, and what is wrong in it is found."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from jigs.asked.jobfile import parse
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check
from jigs.dryfit.vessel.staves import stave_checks
from jigs.dryfit.vessel.work import work_of
from jigs.files.dxf import write_dxf
from jigs.forms.solve import solve
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.parts.flat_sleds import angle_plates
from jigs.stages.staves.parts import stave_sled
from tests.jigs.vessel.jobs import text

STAVED = text("staved")
JOBS = {
    "left": STAVED + '[saw]\ntilts = "left"\n',
    "right": STAVED + '[saw]\ntilts = "right"\n',
    "fewer": STAVED.replace("count = 16", "count = 14"),
}


def job(name: str) -> VesselJob:
    read = parse(JOBS[name], f"{name}.toml")
    assert isinstance(read, VesselJob)
    return read


@pytest.fixture(scope="module")
def sets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Each job's drawings of what cuts its staves."""
    into = tmp_path_factory.mktemp("sets")
    return {name: drawn(name, into / name) for name in JOBS}


def drawn(name: str, folder: Path) -> Path:
    plan = solve(job(name))
    assert isinstance(plan, VesselPlan)
    (folder / "cut").mkdir(parents=True)
    for part in (*stave_sled(plan), *angle_plates(plan)):
        write_dxf(part, folder / "cut" / f"{part.name}.dxf")
    return folder


def misfits(name: str, folder: Path) -> list[Check]:
    asked = job(name)
    found = stave_checks(work_of(asked), Files.of(asked, folder))
    assert len(found) > 50
    return [check for check in found if not check.fits]


@pytest.mark.parametrize("name", JOBS)
def test_the_sled_fits_for_either_tilt(name: str, sets: dict[str, Path]) -> None:
    assert misfits(name, sets[name]) == []


@pytest.mark.parametrize(
    ("part", "other"), [("stop-1", "fewer"), ("stop-2", "fewer"), ("base", "right"), ("fence", "right")]
)
def test_a_part_for_other_staves_or_the_other_tilt_is_found(
    part: str, other: str, sets: dict[str, Path], tmp_path: Path
) -> None:
    folder = tmp_path / "mixed"
    shutil.copytree(sets["left"], folder)
    shutil.copy(sets[other] / "cut" / f"stave-{part}.dxf", folder / "cut")
    assert misfits("left", folder)
