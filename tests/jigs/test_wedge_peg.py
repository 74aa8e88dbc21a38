"""The wedge's peg as drawn and told: one hole in the fence for every wedge, missed by the dry fit where it is not."""

from dataclasses import replace
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.dryfit.draw_rod import peg_checks, peg_drill
from jigs.dryfit.files import Files
from jigs.forms.solve import solve
from jigs.sets.rack import rack
from tests.unset import jigs_made

CONFIGS = Path(__file__).parents[2] / "configs"


@pytest.fixture(scope="module")
def quoit(tmp_path_factory):
    job = load(CONFIGS / "quoit.toml")
    return job, Files.of(job, jigs_made(job, tmp_path_factory.mktemp("peg")))


def failing(job, files, fence):
    checks = peg_checks(job, files, fence, 0.0, solve(job).sled.cut.stop, 0.0)
    return {check.what for check in checks if not check.fits}


def test_the_dry_fit_finds_the_hole_beside_the_thick_end_of_the_drawn_wedge(quoit):
    job, files = quoit
    fence = files.drawn("sled-fence")
    peg = peg_drill(fence)
    assert peg is not None
    assert peg.diameter == pytest.approx(job.fittings.peg_hole, abs=0.01)
    assert not failing(job, files, fence)


def test_a_fence_without_the_hole_or_with_it_elsewhere_does_not_fit(quoit):
    job, files = quoit
    fence = files.drawn("sled-fence")
    peg = peg_drill(fence)
    others = tuple(drill for drill in fence.drills if drill is not peg)
    assert failing(job, files, replace(fence, drills=others))
    for along, up in ((-12.0, 0.0), (12.0, 0.0), (0.0, -12.0)):
        moved = replace(peg, centre=(peg.centre[0] + along, peg.centre[1] + up))
        assert failing(job, files, replace(fence, drills=(*others, moved)))


def test_the_fence_has_a_hole_for_the_wedges_pegs():
    job = load(CONFIGS / "garland.toml")
    plan = solve(job)
    parts = {part.name: part for part in rack(plan)[0]}
    assert any("hole of the wedge's peg" in d.name for d in parts["sled-fence"].dimensions)
