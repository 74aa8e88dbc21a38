"""A job's shape alone is that of its plan."""

import numpy as np
import pytest

from jigs.asked.jobfile import load
from jigs.forms.shaped import shaped
from jigs.forms.solve import solve
from jigs.looks.form import form_of
from jigs.looks.surface import surface_of
from jigs.looks.unrolled import unrolled
from jigs.words.findings import Refused
from tests.conftest import CONFIGS, JOBS

SMALL = (64, 24)  # pixels


@pytest.mark.parametrize("file", JOBS, ids=[file.stem for file in JOBS])
def test_a_shape_looks_as_its_plan_does(file):
    job = load(file)
    pictures = []
    for one in (shaped(job), solve(job)):
        form = form_of(one)
        pictures.append(unrolled(surface_of(one), form.meridian, form.whole, *SMALL))
    assert pictures[0].std() > 0
    np.testing.assert_array_equal(*pictures)


def test_a_shape_is_drawn_though_its_jigs_cannot_be_made(tmp_path):
    file = tmp_path / "tall.toml"
    text = (CONFIGS / "garland.toml").read_text("utf-8").replace('workshop_file = "shed"\n', "")
    file.write_text(f"{text}\n[saw]\nblade_height = 40\n", "utf-8")
    job = load(file)
    with pytest.raises(Refused):
        solve(job)
    assert shaped(job).sled.saw_height > 40
