"""The dry fit of vessels: good files fit, and a file that is slightly wrong never does.

Both vessels in configs/ are fitted with every other example, in tests/jigs/test_dry_fit.py.
"""

import os
import random
from collections import Counter
from contextlib import contextmanager
from math import cos, radians, sin

import ezdxf
import numpy as np
import pytest
import shapely
from stl import mesh as stl_mesh

from jigs.dryfit.report import fit_json, fit_picture, fit_text
from jigs.dryfit.run import dry_fit
from jigs.dryfit.vessel.work import work_of
from jigs.jobfile import load
from jigs.make import make
from tests.jigs.vessel.jobs import text

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
OTHERWISE = (
    '[made]\ngauges = "cut"\nsizes = "print"\nglue_up = "paper"\ntruing = "paper"\n[cutter]\nkerf = 0.2\n'
)


def made(folder, name, job_text):
    (folder / f"{name}.toml").write_text(job_text, "utf-8")
    job = load(folder / f"{name}.toml")
    return job, make(job, folder).folder


@pytest.fixture(scope="module")
def tub(tmp_path_factory):
    """A job and its good files, one of which a test may change as long as it puts it back."""
    return made(tmp_path_factory.mktemp("good"), "tub", TUB)


@contextmanager
def changed(file):
    """Put a file back as it was, its time too, so that what was read of it is still known."""
    content, times = file.read_bytes(), file.stat()
    try:
        yield
    finally:
        file.write_bytes(content)
        os.utime(file, ns=(times.st_atime_ns, times.st_mtime_ns))


# Changes of a drawing: its model space, the job and a random generator are given.


def rewritten(change):
    def mutate(file, job, rng):
        document = ezdxf.readfile(file)
        change(document.modelspace(), job, rng)
        document.saveas(file)

    mutate.__name__ = change.__name__
    return mutate


def outline(space):
    closed = [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer in ("cut", "section")]
    return max(closed, key=lambda e: np.prod(np.ptp(np.array(list(e.get_points("xy"))), axis=0)))


def holes(space, corners=None):
    outer = outline(space).dxf.handle
    found = [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut"]
    return [e for e in found if e.dxf.handle != outer and (corners is None or len(e) == corners)]


def named(space, name):
    lines = [e for e in space.query("LWPOLYLINE") if e.has_xdata("JIGS")]
    return [e for e in lines if e.get_xdata("JIGS")[0].value.startswith(name)]


def edited(entity, edit):
    points = np.array(list(entity.get_points("xyb")))
    edit(points)
    entity.set_points(points.tolist(), format="xyb")


def either(rng, size):
    return rng.choice([-1, 1]) * size


def turned(points, turn, about=(0.0, 0.0)):
    matrix = np.array([[cos(turn), sin(turn)], [-sin(turn), cos(turn)]])
    points[:, :2] = (points[:, :2] - about) @ matrix + about


@rewritten
def stick_too_long(space, job, rng):
    def edit(points):
        points[points[:, 1] == points[:, 1].max(), 1] += either(rng, 0.3)

    edited(outline(space), edit)


@rewritten
def fence_turned(space, job, rng):
    """Both slots of one fence, 0.2 degrees round the middle of the blade's line."""
    side, turn = either(rng, 1), radians(either(rng, 0.2))
    for hole in holes(space, 4):
        points = np.array(list(hole.get_points("xy")))
        steps = np.abs(np.diff(points, axis=0))
        if points[:, 1].mean() * side > 0 and steps.min() > 0.1:
            edited(hole, lambda points: turned(points, turn))


@rewritten
def slot_moved(space, job, rng):
    def edit(points):
        points[:, :2] += (0.0, either(rng, 1.0))

    edited(rng.choice(holes(space)), edit)


@rewritten
def hole_moved(space, job, rng):
    circle = rng.choice([e for e in space.query("CIRCLE") if e.dxf.layer == "drill"])
    turn, (x, y, _) = radians(rng.uniform(0, 360)), circle.dxf.center
    circle.dxf.center = (x + cos(turn), y + sin(turn))


@rewritten
def hole_widened(space, job, rng):
    circle = rng.choice([e for e in space.query("CIRCLE") if e.dxf.layer == "drill"])
    circle.dxf.radius += either(rng, 0.5)


@rewritten
def leaning_edge_turned(space, job, rng):
    def edit(points):
        steps = np.roll(points[:, :2], -1, axis=0) - points[:, :2]
        leans = np.where(np.abs(steps).min(axis=1) > 0.01, np.hypot(*steps.T), 0.0)
        k = int(leans.argmax())
        end = points[(k + 1) % len(points)][None].copy()
        turned(end, radians(either(rng, 0.1)), points[k, :2])
        points[(k + 1) % len(points)] = end[0]

    edited(outline(space), edit)


@rewritten
def leg_moved(space, job, rng):
    """One of the four inner sides of a gap gauge's legs."""

    def edit(points):
        x = np.abs(points[:, 0])
        inner = np.unique(np.round(x, 4))
        pairs = [i for i in range(len(points)) if abs(points[i, 0] - points[i - 1, 0]) < 1e-6]
        legs = [i for i in pairs if 20 < x[i] < inner[-1] - 8 and abs(points[i, 1] - points[i - 1, 1]) > 15]
        i = rng.choice(legs)
        points[[i, i - 1], 0] += either(rng, 0.3)

    edited(outline(space), edit)


@rewritten
def end_moved(space, job, rng):
    """One side of a stick's lower end."""

    def edit(points):
        low = points[:, 1] == points[:, 1].min()
        x = rng.choice(points[low, 0].tolist())
        points[np.abs(points[:, 0] - x) < 1e-6, 0] += either(rng, 0.1)

    edited(outline(space), edit)


@rewritten
def plate_too_large(space, job, rng):
    edited(outline(space), lambda points: np.multiply(points[:, :2], 1.02, out=points[:, :2]))


@rewritten
def ring_outline_too_large(space, job, rng):
    edited(
        rng.choice(named(space, "outside of")),
        lambda points: np.multiply(points[:, :2], 1.003, out=points[:, :2]),
    )


@rewritten
def joint_mark_moved(space, job, rng):
    def edit(points):
        points[:, :2] += (0.2, 0.2)

    edited(rng.choice(named(space, "joint")), edit)


@rewritten
def tick_moved(space, job, rng):
    def edit(points):
        points[:, 0] += 2.5

    edited(rng.choice(named(space, "tip of")), edit)


@rewritten
def land_tilted(space, job, rng):
    def edit(points):
        k = rng.choice(np.flatnonzero(np.abs(points[:, 1]) < 1e-6).tolist())
        points[k, 1] += either(rng, 0.05)

    edited(outline(space), edit)


@rewritten
def mirrored(space, job, rng):
    edited(outline(space), lambda points: np.multiply(points, (-1.0, 1.0, -1.0), out=points))


@rewritten
def plug_side_moved(space, job, rng):
    """The side of the plug that goes into the mouth."""

    def edit(points):
        flange, bore = points[:, 0].max(), points[:, 0].min()
        points[(points[:, 0] < flange - 1) & (points[:, 0] > bore + 1), 0] += either(rng, 0.1)

    edited(outline(space), edit)


@rewritten
def flange_moved(space, job, rng):
    def edit(points):
        face = points[(points[:, 0] == points[:, 0].max()), 1].min()
        points[np.abs(points[:, 1] - face) < 1e-6, 1] += 3.0

    edited(outline(space), edit)


# Changes of a mesh.


def reshaped(change):
    def mutate(file, job, rng):
        plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
        corners = plate.vectors.reshape(-1, 3).copy()
        change(corners, file, job, rng)
        plate.vectors[:] = corners.reshape(-1, 3, 3)
        plate.save(str(file))

    mutate.__name__ = change.__name__
    return mutate


def on_edge(corners, file, job):
    """Which corners of a mesh lie on the parallel that its file is named after."""
    side = "inside" if file.stem.startswith("inside") else "outside"
    stage = file.stem.partition("gauge-")[2]
    k = int(stage.split("-")[1]) - 1 if stage.startswith("stage") else -1
    line = getattr(work_of(job), side)(job.gauges.stages[k] + job.gauges.fit)
    return shapely.distance(line, shapely.points(corners[:, :2].astype(float))) < 0.05


@reshaped
def edge_shifted(corners, file, job, rng):
    """The whole working edge, towards the work or away from it."""
    corners[on_edge(corners, file, job), 0] += either(rng, 0.2)


@reshaped
def edge_bent(corners, file, job, rng):
    """A third of the working edge."""
    edge = np.flatnonzero(on_edge(corners, file, job))
    low, high = np.quantile(corners[edge, 1], (0.33, 0.67))
    middle = edge[(corners[edge, 1] >= low) & (corners[edge, 1] <= high)]
    corners[middle, 0] += either(rng, 0.2)


@reshaped
def lifted(corners, file, job, rng):
    """All of it, along the axis."""
    corners[:, 1] += either(rng, 0.1)


@reshaped
def end_raised(corners, file, job, rng):
    """The upper end alone, so that pieces overlap or leave a gap."""
    corners[corners[:, 1] > corners[:, 1].max() - 0.01, 1] += either(rng, 0.1)


@reshaped
def hook_raised(corners, file, job, rng):
    rim = job.outside.profile.end[1]
    under = (np.abs(corners[:, 1] - rim) < 0.01) & (corners[:, 0] > work_of(job).section.mouth_radius)
    corners[under, 1] += either(rng, 0.1)


@reshaped
def slot_widened(corners, file, job, rng):
    """One side of the first slot of the wall gauge."""
    inner = np.unique(np.round(corners[(corners[:, 1] < 0.01) & (corners[:, 2] < 0.01), 0], 3))
    corners[np.abs(corners[:, 0] - inner[1]) < 0.01, 0] += either(rng, 0.2)


@reshaped
def bolt_hole_moved(corners, file, job, rng):
    """The upper one of a piece on the rail."""
    back, top = corners[:, 0].max(), corners[:, 1].max()
    around = (corners[:, 0] > back - 14) & (corners[:, 0] < back - 4) & (corners[:, 1] < top - 3)
    hole = around & (corners[:, 1] > top - 20)
    assert hole.any()
    corners[hole, :2] += (1.0, 0.0)


@reshaped
def plug_gauge_shifted(corners, file, job, rng):
    """All of it, along the radius."""
    corners[:, 0] += either(rng, 0.1)


CUT = {
    stick_too_long: ("stop-stick-ring-2",),
    fence_turned: ("plan-angle-base-n8",),
    slot_moved: ("plan-angle-base-n8", "plan-angle-carriage-n8"),
    hole_moved: ("gauge-rail", "plan-angle-carriage-n8", "mouth-plug-layer"),
    hole_widened: ("gauge-rail",),
    leaning_edge_turned: ("joint-plate-n8",),
    leg_moved: ("gap-gauge-wide-place",),
    end_moved: ("mouth-stick-2",),
    plate_too_large: ("centring-plate-ring-2",),
    ring_outline_too_large: ("glue-up-board-1",),
    joint_mark_moved: ("glue-up-board-2",),
    tick_moved: ("ring-truing-board",),
    land_tilted: ("half-ring-check",),
    mirrored: ("plan-angle-base-n8",),
}  # fmt: skip
TURNED = {plug_side_moved: ("mouth-plug-section",), flange_moved: ("mouth-plug-section",)}
PRINTED = {
    edge_shifted: ("outside-gauge-finished-2", "inside-gauge-stage-2"),
    edge_bent: ("outside-gauge-stage-2-2", "inside-gauge-finished"),
    lifted: ("inside-gauge-stage-1",),
    end_raised: ("outside-gauge-stage-1-1",),
    hook_raised: ("inside-gauge-finished",),
    slot_widened: ("wall-gauge",),
    bolt_hole_moved: ("outside-gauge-stage-2-1",),
    plug_gauge_shifted: ("mouth-plug-gauge",),
}
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


def test_the_files_are_good_before_they_are_changed(tub):
    found = dry_fit(*tub)
    assert not found.misfits, fit_text(found)
    assert not found.notes
    assert len(found.checks) > 300


@pytest.mark.parametrize(
    "seed", range(len(WRONG)), ids=[f"{change.__name__}-{name}" for change, name in WRONG]
)
def test_a_slightly_wrong_file_does_not_fit(seed, tub):
    job, folder = tub
    mutate, name = WRONG[seed]
    with changed(folder / name):
        before = (folder / name).read_bytes()
        mutate(folder / name, job, random.Random(seed))
        assert (folder / name).read_bytes() != before
        assert dry_fit(job, folder).misfits, f"{name} was changed and still fits"


def test_what_is_not_measured_may_change(tub):
    """A file that is only written again still fits: the changes above are found by what they change."""
    job, folder = tub
    names = (
        "cut/plan-angle-base-n8.dxf",
        "turn/mouth-plug-section.dxf",
        "print/outside-gauge-finished-1.stl",
    )
    for name, kind in zip(names, (rewritten, rewritten, reshaped), strict=True):
        with changed(folder / name):
            kind(as_it_is)(folder / name, job, random.Random(0))
            assert not dry_fit(job, folder).misfits


def as_it_is(*_):
    pass


@pytest.mark.parametrize("name", NEEDED)
def test_a_missing_piece_is_told(name, tub):
    job, folder = tub
    with changed(folder / name):
        (folder / name).unlink()
        assert dry_fit(job, folder).misfits


def test_a_platter_whose_set_is_made_otherwise_fits(tmp_path):
    job, folder = made(tmp_path, "platter", text("platter", more=OTHERWISE))
    found = dry_fit(job, folder)
    assert not found.misfits, fit_text(found)
    put = [note.partition(" not put")[0] for note in found.notes if "put together" in note]
    assert put == ["ring truing", "glue-up boards"]
    assert {check.where for check in found.checks} >= {"outside-gauge-finished", "calliper-stick-foot"}


@pytest.mark.parametrize("base", ["solid", "segmented"])
def test_open_rings_fit_without_boards_and_closed_ones_beside_them_with(base, tmp_path):
    job, folder = made(tmp_path, "lattice", text("open", more=f'base = "{base}"'))
    found = dry_fit(job, folder)
    assert not found.misfits, fit_text(found)
    boards = [check for check in found.checks if check.where.startswith(("glue-up board", "ring-truing"))]
    assert bool(boards) is (base == "segmented")
    assert any(check.where.startswith("centring-plate") for check in found.checks)


def test_text_and_json_tell_the_same(tub):
    found = dry_fit(*tub)
    answer = fit_json(found)
    assert answer["verdict"] == "fits"
    assert len(answer["checks"]) == len(found.checks)
    text = fit_text(found)
    assert "everything fits" in text
    counted = [row.rsplit("  ", 1) for row in text.splitlines()[1:-1]]
    groups = Counter(check["group"] for check in answer["checks"])
    assert {group.strip(): count for group, count in counted} == {g: f"{n} ok" for g, n in groups.items()}


def test_a_misfit_is_red_in_the_picture(tub):
    job, folder = tub
    name = "print/outside-gauge-stage-1-1.stl"
    with changed(folder / name):
        edge_shifted(folder / name, job, random.Random(0))
        picture = fit_picture(job, folder, dry_fit(job, folder))
    red = [line for line in picture.splitlines() if "#c00000" in line]
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
    for low in (-3.0, 19.0, 41.0):
        least, most = work.needs(low, low + 22)
        cases = [(most - 0.01, True), (most + 0.01, False)]
        for x, held in [*cases, *([(least - 0.01, False)] if least else [])]:
            places = shapely.points(np.full(4401, x), np.linspace(low, low + 22, 4401))
            assert (shapely.distance(work.solid, places).min() <= allowance) == held, (low, x)
