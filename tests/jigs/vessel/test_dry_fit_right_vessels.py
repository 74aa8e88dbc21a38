"""Good sets of vessels that are easily misjudged: corners, short flaring bowls, wide fits, thick plates, one stage,
slim mouths, lips."""

import pytest

from jigs.asked.jobfile import load
from jigs.dryfit.report import fit_text
from jigs.dryfit.torus import dry_fit
from tests.unset import jigs_made

WOOD = '[wall]\nthickness = 6\nfloor = 9\n[rings]\nheights = 20\nsegments = 10\nspecies = "ash"\n'
RIGHT = {
    "sharp at its widest place": "[profile]\nedges = [[0, 70], [60, 120], [110, 84]]\n" + WOOD,
    "sharp at its narrowest place": "[profile]\nedges = [[0, 110], [60, 80, -90], [120, 112]]\n" + WOOD,
    "a short flaring bowl": "[profile]\nedges = [[0, 60], [22, 110], [50, 150]]\n" + WOOD,
    "a smooth neck, thick plates": "[profile]\nstations = [[0, 80], [45, 130], [90, 90], [120, 108]]\n"
    + WOOD
    + '[made]\ngauges = "cut"\n[boards]\nsheet = 24\n',
    "a fit of 2 mm, one stage": "[profile]\nedges = [[0, 70], [40, 112], [90, 96]]\n"
    + WOOD
    + '[gauges]\nfit = 2\nstages = ["finished"]\n[sled]\nrunner_play = 0.9\n',
    "a slim mouth, pressed little": "[profile]\nstations = [[0, 70], [30, 90], [60, 62], [70, 60]]\n"
    + WOOD.replace("thickness = 6", "thickness = 8"),
    "a lip that flares, on a rod": "[profile]\nedges = [[0, 90], [40, 130], [70, 76], [76, 84]]\n"
    + WOOD.replace("floor = 9", "floor = 13")
    + "[reversing]\nbase_hole = 6.6\n",
}
SIZES = {
    "sharp at its widest place": "calliper-stick-wide-place",
    "sharp at its narrowest place": "calliper-stick-narrow-place",
}


@pytest.mark.parametrize("name", RIGHT)
def test_a_right_set_is_not_condemned(name, tmp_path):
    (tmp_path / "right.toml").write_text(
        RIGHT[name] + "[gauges]\nwidest_gap = 60\n" * (name in SIZES), "utf-8"
    )
    job = load(tmp_path / "right.toml")
    folder = jigs_made(job, tmp_path)
    found = dry_fit(job, folder, sheets=False)
    assert not found.misfits, fit_text(found)
    assert not found.faults, fit_text(found)
    if name in SIZES:
        assert any(check.where == SIZES[name] for check in found.checks)
