"""The dry fit of vessels: good files fit, and a file that is slightly wrong never does.

Both vessels in configs/ are fitted with every other example, in tests/jigs/test_dry_fit_examples.py.
"""

import random
from collections import Counter
from contextlib import contextmanager

import numpy as np
import pytest
import shapely

from jigs.asked.jobfile import load
from jigs.dryfit.report import fit_json, fit_picture, fit_text
from jigs.dryfit.torus import dry_fit
from jigs.dryfit.vessel.work import work_of
from jigs.figures.svg import PAINTS
from tests.jigs.set_files import in_set
from tests.jigs.vessel.changed_drawings import CUT, TURNED, rewritten
from tests.jigs.vessel.changed_meshes import PRINTED, edge_shifted, reshaped
from tests.jigs.vessel.jobs import text
from tests.sweep.remembered import Remembered
from tests.unset import jigs_made

TUB = """title = "Tub"
[profile]
stations = [[0, 70], [30, 104], [60, 96]]
[wall]
thickness = 6
floor = 8
[rings]
heights = 22
segments = 8
species = "ash"
base = "segmented"
spacer = 1.5
spacer_species = "walnut"
[gauges]
longest_in_hand = 70
"""
SPACED = 'spacer = 1.5\nspacer_species = "walnut"\n'
LATTICE = TUB.replace(SPACED, 'gap = 5\n[reversing]\nhold = "none"\n')
OTHERWISE = (
    '[made]\ngauges = "cut"\nsizes = "print"\nglue_up = "paper"\ntruing = "paper"\n[cutter]\nkerf = 0.2\n'
)


def job_in(folder, name, job_text):
    (folder / f"{name}.toml").write_text(job_text, "utf-8")
    return load(folder / f"{name}.toml")


def fitted(folder, name, job_text):
    """The dry fit of a job's jigs alone."""
    job = job_in(folder, name, job_text)
    return dry_fit(job, jigs_made(job, folder), sheets=False)


@pytest.fixture(scope="module")
def tub(tmp_path_factory):
    """A job and its good files, one of which a test may change as long as it puts it back."""
    job = job_in(tmp_path_factory.mktemp("good"), "tub", TUB)
    return job, jigs_made(job, job.source.parent, lettered=True)


@contextmanager
def changed(file):
    """Put a file back as it was."""
    content = file.read_bytes()
    try:
        yield
    finally:
        file.write_bytes(content)


WRONG = [
    (change, f"{folder}/{name}.{suffix}")
    for folder, suffix, table in (("cut", "dxf", CUT), ("turn", "dxf", TURNED), ("print", "stl", PRINTED))
    for change, names in table.items()
    for name in names
]
NEEDED = (
    "cut/stop-stick-ring-1.dxf",
    "cut/glue-up-board-3.dxf",
    "print/outside-gauge-stage-1-2.stl",
    "print/inside-gauge-stage-2.stl",
)


@pytest.fixture(scope="module")
def remembered(tub):
    """Without whole sheets, on which a changed cutting plate would be found whatever it does."""
    return Remembered(*tub, sheets=False)


def test_the_files_are_good_before_they_are_changed(remembered):
    found = remembered.first
    assert not found.misfits, fit_text(found)
    assert not found.notes
    assert len(found.checks) > 300


@pytest.mark.parametrize(
    "seed", range(len(WRONG)), ids=[f"{change.__name__}-{name}" for change, name in WRONG]
)
def test_a_slightly_wrong_file_does_not_fit(seed, remembered):
    job, folder = remembered.job, remembered.folder
    mutate, name = WRONG[seed]
    with changed(in_set(folder, name)):
        before = in_set(folder, name).read_bytes()
        mutate(in_set(folder, name), job, random.Random(seed))
        assert in_set(folder, name).read_bytes() != before
        assert remembered.again().misfits, f"{name} was changed and still fits"


def test_what_is_not_measured_may_change(remembered):
    """A file that is only written again still fits: the changes above are found by what they change."""
    job, folder = remembered.job, remembered.folder
    names = (
        "cut/plan-angle-base-n8.dxf",
        "turn/mouth-plug-section.dxf",
        "print/outside-gauge-finished-1.stl",
    )
    for name, kind in zip(names, (rewritten, rewritten, reshaped), strict=True):
        with changed(in_set(folder, name)):
            kind(as_it_is)(in_set(folder, name), job, random.Random(0))
            assert not remembered.again().misfits


def as_it_is(*_):
    pass


@pytest.mark.parametrize("name", NEEDED)
def test_a_missing_piece_is_told(name, remembered):
    file = in_set(remembered.folder, name)
    with changed(file):
        file.unlink()
        assert remembered.again().misfits


def test_a_platter_whose_set_is_made_otherwise_fits(tmp_path):
    found = fitted(tmp_path, "platter", text("platter", more=OTHERWISE))
    assert not found.misfits, fit_text(found)
    put = [note.partition(" not put")[0] for note in found.notes if "put together" in note]
    assert put == ["ring truing", "glue-up boards"]
    assert {check.where for check in found.checks} >= {"outside-gauge-finished", "calliper-stick-foot"}


@pytest.mark.parametrize("base", ["solid", "segmented"])
def test_open_rings_fit_without_boards_and_closed_ones_beside_them_with(base, tmp_path):
    found = fitted(tmp_path, "lattice", LATTICE.replace("segmented", base))
    assert not found.misfits, fit_text(found)
    boards = [check for check in found.checks if check.where.startswith(("glue-up board", "ring-truing"))]
    assert bool(boards) is (base == "segmented")
    assert any(check.where.startswith("centring-plate") for check in found.checks)


def test_text_and_json_tell_the_same(remembered):
    answer = fit_json(remembered.first)
    assert answer["verdict"] == "fits"
    assert len(answer["checks"]) == len(remembered.first.checks)
    text = fit_text(remembered.first)
    assert "everything fits" in text
    counted = [row.rsplit("  ", 1) for row in text.splitlines()[1:-1]]
    groups = Counter(check["group"] for check in answer["checks"])
    assert {group.strip(): count for group, count in counted} == {g: f"{n} ok" for g, n in groups.items()}


def test_a_misfit_is_red_in_the_picture(remembered):
    job, folder = remembered.job, remembered.folder
    name = "print/outside-gauge-stage-1-1.stl"
    with changed(in_set(folder, name)):
        edge_shifted(in_set(folder, name), job, random.Random(0))
        picture = fit_picture(job, folder, remembered.again())
    red = [line for line in picture.splitlines() if PAINTS["blade"] in line]
    assert len(red) == 1
    assert "outside-gauge-stage-1-1" in red[0]
    assert picture.count("<path") > 12


def test_the_lines_beside_the_work_keep_their_distance(tub):
    work = work_of(tub[0])
    for offset in (0.1, 1.0, 3.0):
        for side, own in ((work.outside, work.section.outer), (work.inside, work.section.inner)):
            line = shapely.LineString([edge.point_at(k / 64) for edge in own.edges() for k in range(65)])
            middle = side(offset).interpolate(np.linspace(0.2, 0.8, 50), normalized=True)
            assert shapely.distance(middle, line) == pytest.approx(offset, abs=0.01)


def test_what_the_blank_must_hold_is_within_the_allowance_of_the_section(tub):
    """Brute force: no point farther out at these heights is within the allowance of the finished wood."""
    job, work = tub[0], work_of(tub[0])
    allowance = job.rings.turning_allowance
    shapely.prepare(work.solid)
    for low in (-3.0, 19.0, 41.0):
        least, most = work.needs(low, low + 22)
        cases = [(most - 0.01, True), (most + 0.01, False)]
        for x, held in [*cases, *([(least - 0.01, False)] if least else [])]:
            places = shapely.points(np.full(4401, x), np.linspace(low, low + 22, 4401))
            assert shapely.dwithin(work.solid, places, allowance).any() == held, (low, x)


def test_an_inside_gauge_that_lies_on_a_level_floor_passes_the_mouth(tmp_path):
    """With no fit to its edge it stands at the floor's own height, where the hollow is as wide as the floor."""
    found = fitted(
        tmp_path,
        "flared",
        'title = "Flared"\n[profile]\nstations = [[0, 60], [22, 100], [40, 148]]\n[wall]\nthickness = 8\n'
        '[rings]\nheights = [26, 14.2]\nsegments = 10\nspecies = "ash"\n[gauges]\nfit = 0\nstages = ["finished"]\n',
    )
    assert any(check.what == "passes the mouth with" for check in found.checks)
    assert not [check for check in found.misfits if "inside-gauge" in check.where]
