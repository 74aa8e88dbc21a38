"""The gauges of a lid and its pot, as drawn, as written and in the dry fit."""

import shutil
from dataclasses import replace

import pytest

from jigs.asked.jobfile import load
from jigs.dryfit.files import Files
from jigs.dryfit.vessel.lid import has_pot, lid_checks, pot_checks
from jigs.dryfit.vessel.work import work_of
from jigs.files.dxf import write_dxf
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.stages.lid.plan import LEAST_BEARS
from tests.conftest import CONFIGS
from tests.examples import plan_of_example
from tests.jigs.vessel.lids import REBATE, lid_of, written


@pytest.fixture(scope="module")
def pair(set_of, tmp_path_factory):
    """Both sets side by side."""
    folder = tmp_path_factory.mktemp("pair")
    for name in ("acorn", "acorn-lid"):
        shutil.copytree(set_of(name)[1], folder / name)
    return folder


def test_the_written_gauges_of_lid_and_pot_go_together(pair):
    job = load(CONFIGS / "acorn-lid.toml")
    files = Files.of(job, pair / "acorn-lid")
    assert has_pot(job, files)
    checks = [*lid_checks(work_of(job), files), *pot_checks(work_of(job), files)]
    assert len(checks) == 13
    assert [check for check in checks if not check.fits] == []


RINGS_OF = 'species = ["walnut"]'
STAVED = (RINGS_OF, f'{RINGS_OF}\n[staves]\nlow = 40\nhigh = 80\ncount = 12\nspecies = "beech"')
LOWER_BEECH = (RINGS_OF, 'species = ["beech", "walnut"]')  # from ring 2 on walnut, solid at the mouth
SOLID_MOUTH = ("heights = 16", "heights = 16\nupright = [5]")


def test_a_pot_of_staves_closes_its_mouth_as_their_wood_dries(tmp_path):
    """GTR-190, table 13-5: beech 0.00431; solid wood round the mouth, dried by 2 %."""
    fit = lid_of(tmp_path, pot=[STAVED]).fit
    assert fit.pot.solid
    assert fit.pot.closed(44.0) == pytest.approx(44 * 2 * 0.00431)


@pytest.mark.parametrize("pot", [[STAVED], [LOWER_BEECH, SOLID_MOUTH]])
def test_gauges_are_judged_by_the_woods_at_the_mouth(pair, tmp_path, pot):
    assert judged(pair, tmp_path, pot=pot) == []


def test_gauges_pass_a_lid_that_just_lies_on_its_ledge(pair, tmp_path):
    """It reaches over nothing else: the ledge is as narrow as the lid's check allows."""
    lid = [("[19, 100, 70],\n  [25, 106]", "[19, 88, 70],\n  [25, 93]")]
    least, narrow = 3.0, REBATE
    for _ in range(2):  # less wood under the rebate spreads its mouth less
        least += LEAST_BEARS - lid_of(tmp_path, lid, [narrow]).bears
        narrow = REBATE[0], REBATE[1].replace("width = 3", f"width = {least:.3f}")
    assert lid_of(tmp_path, lid, [narrow]).bears == pytest.approx(LEAST_BEARS, abs=0.011)
    assert judged(pair, tmp_path, lid, [narrow]) == []


def judged(pair, folder, lid=(), pot=()):
    """What does not fit of the lid's own gauges, drawn for this lid and pot."""
    job = load(written(folder, lid, pot))
    shutil.copytree(pair / "acorn-lid", folder / "acorn-lid")
    for part in parts_of(solve(job)):
        if part.name in ("lid-flange-gauge", "lid-mouth-stick"):
            (file,) = (folder / "acorn-lid" / "cut").glob(f"*{part.name}.dxf")
            write_dxf(part, file)
    checks = lid_checks(work_of(job), Files.of(job, folder / "acorn-lid"))
    return [check.what for check in checks if not check.fits]


@pytest.mark.parametrize(
    ("part", "by"), [("lid-flange-gauge", 1.004), ("lid-flange-gauge", 0.996), ("lid-mouth-stick", 1.004)]
)
def test_a_gauge_that_is_out_is_found(pair, tmp_path, part, by):
    job = load(CONFIGS / "acorn-lid.toml")
    shutil.copytree(pair / "acorn-lid", tmp_path / "acorn-lid")
    (drawn,) = [one for one in parts_of(solve(job)) if one.name == part]
    rows = drawn.outline.vertices.copy()
    rows[:, 0] *= by
    wrong = replace(drawn, outline=type(drawn.outline)(rows), marks=(), words=(), holes=())
    (file,) = (tmp_path / "acorn-lid" / "cut").glob(f"*{part}.dxf")
    write_dxf(wrong, file)
    checks = lid_checks(work_of(job), Files.of(job, tmp_path / "acorn-lid"))
    assert [check for check in checks if not check.fits]


def test_the_widest_flange_that_passes_go_keeps_its_gap_in_the_dampest_air():
    """A gap with play to slide would pass a flange that is larger by it."""
    plan = plan_of_example("acorn-lid")
    (gauge,) = [part for part in parts_of(plan) if part.name == "lid-flange-gauge"]
    gap, fit = 2 * gauge.outline.vertices[0, 0], plan.lid.fit
    grown = gap / 2 + fit.lid.grown(gap / 2)
    assert fit.mouth - fit.pot.closed(fit.mouth) - grown >= fit.least - 1e-9
