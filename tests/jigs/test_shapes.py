"""A job's shape alone is that of its plan."""

import numpy as np
import pytest

from jigs.asked.jobfile import load
from jigs.forms.solve import shaped, solve
from jigs.looks.form import form_of
from jigs.looks.surface import surface_of
from jigs.looks.unrolled import unrolled
from jigs.stages.finished_form.solve import COARSE
from jigs.stages.flat_segments.solve import saw_plan, sled_layouts
from jigs.words.findings import Refused
from tests.conftest import CONFIGS, JOBS
from tests.jigs.layup.layup_jobs import with_layup

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


def test_a_vessel_in_layups_needs_no_saws_to_be_drawn():
    job = with_layup(load(CONFIGS / "sorrel.toml"))
    stack = shaped(job).stack
    assert {count: sled.held for count, sled in sled_layouts(job, stack.layers).items()} == saw_plan(
        job, stack.layers, None
    ).strips_held


def test_while_it_is_dragged_a_wall_is_found_to_half_a_step():
    job = load(CONFIGS / "tumbler.toml")
    exact, coarse = shaped(job).wall[0], shaped(job, coarse=True).wall[0]
    assert exact - 1e-9 <= coarse <= exact + COARSE / 2


def test_a_shape_is_drawn_though_its_jigs_cannot_be_made(tmp_path):
    file = tmp_path / "tall.toml"
    text = (CONFIGS / "garland.toml").read_text("utf-8").replace('workshop_file = "shed"\n', "")
    file.write_text(f"{text}\n[saw]\nblade_height = 40\n", "utf-8")
    job = load(file)
    with pytest.raises(Refused):
        solve(job)
    assert shaped(job).sled.saw_height > 40
