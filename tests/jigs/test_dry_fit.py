"""The dry fit: good files fit, and a file that is slightly wrong never does."""

from __future__ import annotations

import random
from contextlib import contextmanager
from math import atan2, cos, degrees, hypot, radians, sin
from pathlib import Path

import numpy as np
import pytest
from stl import mesh as stl_mesh

from jigs.asked.jobfile import load
from jigs.dryfit.torus import dry_fit
from jigs.words.file_names import what_of
from tests.jigs.redrawn import redraw
from tests.jigs.set_files import in_set
from tests.sweep.remembered import Remembered

CONFIGS = Path(__file__).parents[2] / "configs"
ANGLE, RADIUS, HOLE = 0.05, 0.1, 1.0  # degrees, mm, mm


@pytest.fixture(scope="module")
def garland(set_of):
    """Without whole sheets, on which a changed cutting plate would be found whatever it does."""
    return Remembered(*set_of("garland"), sheets=False)


@pytest.fixture(scope="module")
def millwheel(set_of):
    """A job whose rings have a flat outward, so that blocks are clamped to the rim."""
    return set_of("millwheel")


@contextmanager
def changed(file):
    """Put a file back as it was."""
    content = file.read_bytes()
    try:
        yield
    finally:
        file.write_bytes(content)


def outline(space):
    """The entity with the largest outline."""
    closed = [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer in ("cut", "section")]
    return max(
        closed,
        key=lambda e: np.ptp([p[0] for p in e.get_points("xy")]) * np.ptp([p[1] for p in e.get_points("xy")]),
    )


def rewritten(change):
    """A mutation of a DXF: `change` takes its model space and a random generator."""

    def mutate(file, rng):
        redraw(file, lambda space: change(space, rng))

    return mutate


def turned_edge(pick):
    """Turn one straight edge of the outline by the angle, about its own start."""

    def change(space, rng):
        entity = outline(space)
        points = [list(p) for p in entity.get_points("xyb")]
        i = pick(points)
        (x0, y0), (x1, y1) = points[i][:2], points[(i + 1) % len(points)][:2]
        turn = radians(rng.choice([-1, 1]) * ANGLE)
        dx, dy = x1 - x0, y1 - y0
        points[(i + 1) % len(points)][:2] = [
            x0 + dx * cos(turn) - dy * sin(turn),
            y0 + dx * sin(turn) + dy * cos(turn),
        ]
        entity.set_points(points, format="xyb")

    return rewritten(change)


def leaning(points):
    """Index of the longest edge that is neither level nor upright."""

    def size(i):
        (x0, y0), (x1, y1) = points[i][:2], points[(i + 1) % len(points)][:2]
        return hypot(x1 - x0, y1 - y0) if min(abs(x1 - x0), abs(y1 - y0)) > 0.01 else 0.0

    return max(range(len(points)), key=size)


def inner_leg(points):
    """Index of the edge that runs from the relieved corner along the second leg."""
    arc = next(i for i, p in enumerate(points) if p[2])
    return (arc + 1) % len(points)


@rewritten
def turned_slot(space, rng):
    """One fence or cheek slot of the base turned about its middle."""
    slots = [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut" and len(e) == 4]
    fence = next(
        e
        for e in space.query("LWPOLYLINE")
        if e.has_xdata("JIGS") and e.get_xdata("JIGS")[0].value == "fence line"
    )
    (x0, y0), (x1, y1) = list(fence.get_points("xy"))[:2]
    along = degrees(atan2(y1 - y0, x1 - x0)) % 180
    near = [e for e in slots if abs((heading(e) - along + 90) % 180 - 90) < 1]
    entity = rng.choice(near)
    points = np.array(list(entity.get_points("xyb")))
    middle, turn = points[:, :2].mean(axis=0), radians(rng.choice([-1, 1]) * ANGLE)
    matrix = np.array([[cos(turn), sin(turn)], [-sin(turn), cos(turn)]])
    points[:, :2] = (points[:, :2] - middle) @ matrix + middle
    entity.set_points(points.tolist(), format="xyb")


def end_line(space, rng):
    """One of the lines at the ends of the abrasive."""
    lines = [e for e in space if e.has_xdata("JIGS") and e.get_xdata("JIGS")[0].value == "abrasive ends"]
    return rng.choice(lines)


@rewritten
def line_gone(space, rng):
    space.delete_entity(end_line(space, rng))


@rewritten
def line_moved(space, rng):
    """Outward under a foot, or inward over the half's end."""
    entity = end_line(space, rng)
    out = 1 if entity.get_points("xy")[0][0] > 0 else -1
    entity.translate(out * rng.choice((3.5, -12.5)), 0, 0)


def heading(entity):
    (x0, y0), (x1, y1), (x2, y2) = list(entity.get_points("xy"))[:3]
    a, b = (x1 - x0, y1 - y0), (x2 - x1, y2 - y1)
    dx, dy = max(a, b, key=lambda v: hypot(*v))
    return degrees(atan2(dy, dx)) % 180


@rewritten
def moved_hole(space, rng):
    """One round hole in another place."""
    circle = rng.choice([e for e in space.query("CIRCLE") if e.dxf.layer == "drill"])
    turn = radians(rng.uniform(0, 360))
    x, y, _ = circle.dxf.center
    circle.dxf.center = (x + HOLE * cos(turn), y + HOLE * sin(turn))


@rewritten
def sized_hole(space, rng):
    """One round hole of another size."""
    circle = rng.choice([e for e in space.query("CIRCLE") if e.dxf.layer == "drill"])
    circle.dxf.radius += rng.choice([-1, 1]) * HOLE / 2


@rewritten
def moved_slot(space, rng):
    """One slot of a fence or a base moved along its longer side or across."""
    slots = [
        e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut" and e is not outline(space)
    ]
    slots = [e for e in slots if len(e) == 4 and e.dxf.handle != outline(space).dxf.handle]
    entity = rng.choice(slots)
    turn = radians(heading(entity) + rng.choice([0, 90, 180, 270]))
    points = [(x + HOLE * cos(turn), y + HOLE * sin(turn), b) for x, y, b in entity.get_points("xyb")]
    entity.set_points(points, format="xyb")


@rewritten
def shorter_foot(space, rng):
    """The stick that sets the draw rod's tip too short: the metal comes nearer to the cut."""
    entity = outline(space)
    low = min(y for _, y in entity.get_points("xy"))
    points = [(x, y + HOLE if y < low + 1e-6 else y, b) for x, y, b in entity.get_points("xyb")]
    entity.set_points(points, format="xyb")


@rewritten
def mirrored(space, rng):
    """The whole outline mirrored, left to right or top to bottom."""
    entity = outline(space)
    x, y = rng.choice([(-1, 1), (1, -1)])
    entity.set_points([(x * px, y * py, -b) for px, py, b in entity.get_points("xyb")], format="xyb")


@rewritten
def thinner_board(space, _rng):
    """The section's back 1 mm nearer to its face than the board's layers."""
    entity = outline(space)
    points = np.array(list(entity.get_points("xyb")))
    points[points[:, 1] < points[:, 1].min() + 1e-6, 1] += 1.0
    entity.set_points(points.tolist(), format="xyb")


@rewritten
def arc_of_another_radius(space, rng):
    """The section's hollow of another radius about the same centre."""
    entity = outline(space)
    points = np.array(list(entity.get_points("xyb")))
    change = rng.choice([-1, 1]) * RADIUS
    for i in np.flatnonzero(np.abs(points[:, 2]) > 1e-9):
        j = (i + 1) % len(points)
        a, b = points[i, :2].copy(), points[j, :2].copy()
        middle, half = (a + b) / 2, (b - a) / 2
        t = 2 * np.arctan(points[i, 2])
        centre = middle + np.array([-half[1], half[0]]) / np.tan(t)
        for k, p in ((i, a), (j, b)):
            points[k, :2] = p + (p - centre) / np.linalg.norm(p - centre) * change
    entity.set_points(points.tolist(), format="xyb")


def edge_of_another_radius(file, rng):
    """A gauge's working edge moved along its radius."""
    plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
    corners = plate.vectors.reshape(-1, 3).copy()
    size = working_radius(file)
    off = np.hypot(corners[:, 0], corners[:, 1])
    edge = np.abs(off - size) < 0.05
    change = rng.choice([-1, 1]) * RADIUS
    corners[edge, :2] *= ((off[edge] + change) / off[edge])[:, None]
    plate.vectors[:] = corners.reshape(-1, 3, 3)
    plate.save(str(file))


def working_radius(file):
    job = load(CONFIGS / "garland.toml")
    if what_of(file) in ("channel-gauge", "retainer-gauge"):
        return job.form.tube_radius - job.gauges.fit
    stage = {"stage-1": 0, "stage-2": 1}.get(what_of(file).partition("gauge-")[2], -1)
    return job.form.tube_radius + job.gauges.stages[stage] + job.gauges.fit


def turned_flat(file, rng):
    """One flat of the roughing gauge turned about its middle."""
    plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
    corners = plate.vectors.reshape(-1, 3).copy()
    job = load(CONFIGS / "garland.toml")
    size = job.form.tube_radius + job.gauges.stages[0] + job.gauges.fit
    normal = radians(90 - 180 / job.form.segments * rng.choice([1, 2, 3, 4]))
    across, along = np.array([cos(normal), sin(normal)]), np.array([-sin(normal), cos(normal)])
    flat = np.abs(corners[:, :2] @ across - size) < 0.001
    lean = np.tan(radians(rng.choice([-1, 1]) * ANGLE))
    corners[flat, :2] += np.outer(corners[flat, :2] @ along * lean, across)
    plate.vectors[:] = corners.reshape(-1, 3, 3)
    plate.save(str(file))


def moved_printed_hole(file, rng):
    """The bolt hole of a printed pad in another place."""
    plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
    corners = plate.vectors.reshape(-1, 3).copy()
    bolt = np.array([139.0 - 98.0, 0.0])  # the bolt circle, from the tube's centre
    round_it = np.hypot(*(corners[:, :2] - bolt).T) < 4.6
    assert round_it.any()
    turn = radians(rng.uniform(0, 360))
    corners[round_it, :2] += (HOLE * cos(turn), HOLE * sin(turn))
    plate.vectors[:] = corners.reshape(-1, 3, 3)
    plate.save(str(file))


@rewritten
def side_of_another_radius(space, rng):
    """One of a gauge's bearing sides, or a turned cylinder's, moved off the axis."""
    entity = outline(space)
    points = np.array(list(entity.get_points("xyb")))
    reach, sides = np.abs(points[:, 0]), (points[:, 0].min(), points[:, 0].max())
    upright = [
        i
        for i in range(len(points))
        if abs(points[i, 0] - points[i - 1, 0]) < 1e-6
        and reach[i] > 20
        and min(abs(points[i, 0] - side) for side in sides) > 1
        and min(points[i, 1], points[i - 1, 1]) < 0
    ]
    i = rng.choice(upright)
    points[[i, i - 1], 0] += rng.choice([-1, 1]) * RADIUS
    entity.set_points(points.tolist(), format="xyb")


@rewritten
def turned_any_slot(space, rng):
    """One slot turned about its middle."""
    outer = outline(space).dxf.handle
    slots = [
        e
        for e in space.query("LWPOLYLINE")
        if e.closed and e.dxf.layer == "cut" and len(e) == 4 and e.dxf.handle != outer
    ]
    entity = rng.choice(slots)
    points = np.array(list(entity.get_points("xyb")))
    middle, turn = points[:, :2].mean(axis=0), radians(rng.choice([-1, 1]) * ANGLE)
    matrix = np.array([[cos(turn), sin(turn)], [-sin(turn), cos(turn)]])
    points[:, :2] = (points[:, :2] - middle) @ matrix + middle
    entity.set_points(points.tolist(), format="xyb")


def longest_level(points):
    """Index of the longest edge that is level."""
    return longest(points, 1)


def longest_upright(points):
    return longest(points, 0)


def longest(points, axis):
    def size(i):
        a, b = points[i], points[(i + 1) % len(points)]
        return hypot(b[0] - a[0], b[1] - a[1]) if abs(a[axis] - b[axis]) < 1e-6 and not a[2] else 0.0

    return max(range(len(points)), key=size)


def land(points):
    """Index of a land of the check plate, on y = 0."""
    return next(
        i for i, p in enumerate(points) if abs(p[1]) < 1e-6 and abs(points[(i + 1) % len(points)][1]) < 1e-6
    )


DRILLED = ("support-board-layer", "retainer-layer", "sled-base", "sled-runner", "sled-jaw", "sled-fence",
           "segment-base", "segment-runner", "segment-hold-strip", "segment-hold-segment", "segment-stop", "truing-bar",
           "brace-strap", "brace-block-layer")  # fmt: skip
PRINTED = [
    f"{side}-gauge-{stage}" for side in ("outer", "hole") for stage in ("stage-1", "stage-2", "finished")
]
STANDING = [f"standing-gauge-{name}" for name in ("a-outer", "a-inner", "c-inner", "d-outer")]

ANGLES = [
    *[(turned_edge(leaning), f"cut/{n}.dxf") for n in ("tilt-plate", "joint-plate", "sled-wedge", "end-wedge",
                                                       "clamp-block-flat")],
    *[(turned_edge(longest_level), f"cut/{n}.dxf") for n in ("clamp-block-flat", "brace-strap")],
    (turned_edge(longest_upright), "cut/segment-stop.dxf"),
    (turned_edge(land), "cut/half-check.dxf"),
    (turned_edge(inner_leg), "cut/check-corner.dxf"),
    (turned_slot, "cut/sled-base.dxf"),
    *[(turned_any_slot, f"cut/{n}.dxf") for n in ("segment-base", "truing-carrier", "truing-base")],
    (turned_flat, "print/flats-gauge.stl"),
]  # fmt: skip
RADII = [
    *[(arc_of_another_radius, f"turn/{n}.dxf") for n in ("channel-section", "retainer-section")],
    *[(thinner_board, f"turn/{n}.dxf") for n in ("channel-section", "first-board-section")],
    (arc_of_another_radius, "cut/outer-stick.dxf"),
    (side_of_another_radius, "turn/first-board-section.dxf"),
    *[(side_of_another_radius, f"cut/{n}.dxf") for n in ("width-fork", "hole-stick")],
    *[
        (edge_of_another_radius, f"print/{n}.stl")
        for n in (*PRINTED, *STANDING, "channel-gauge", "retainer-gauge")
    ],
]
HOLES = [
    *[(change, f"cut/{n}.dxf") for n in DRILLED for change in (moved_hole, sized_hole)],
    (sized_hole, "cut/truing-carrier.dxf"),
    (moved_printed_hole, "print/brace-pad.stl"),
    *[(moved_slot, f"cut/{n}.dxf") for n in ("sled-base", "sled-fence", "sled-jaw", "truing-carrier", "truing-base",
                                             "truing-board")],
]  # fmt: skip
MIRRORED = [(mirrored, f"cut/{n}.dxf") for n in ("sled-wedge", "sled-stop-cheek", "end-wedge")]
LINES = [(change, "cut/truing-board.dxf") for change in (line_gone, line_moved, line_moved)]
MUTATIONS = [*ANGLES, *RADII, *HOLES, *MIRRORED, *LINES]
BY_SHEETS = [(moved_slot, "cut/segment-fence.dxf"), (shorter_foot, "cut/sled-rod-stick.dxf")]


@pytest.mark.parametrize("seed", range(len(MUTATIONS)))
def test_a_slightly_wrong_file_does_not_fit(seed, garland):
    mutate, name = MUTATIONS[seed]
    file = in_set(garland.folder, name)
    with changed(file):
        mutate(file, random.Random(seed))
        assert garland.again().misfits, f"{name} was changed and still fits"


@pytest.mark.parametrize(("mutate", "name"), BY_SHEETS, ids=[name for _, name in BY_SHEETS])
def test_a_wrong_file_that_no_other_check_finds_is_not_what_lies_on_its_sheet(mutate, name, garland):
    file = in_set(garland.folder, name)
    with changed(file):
        mutate(file, random.Random(68))
        wrong = dry_fit(garland.job, garland.folder).misfits
        assert {check.group for check in wrong} == {"sheets"}, "another check finds it now: list it above"


@pytest.mark.parametrize("mutate", [turned_edge(leaning), turned_edge(longest_level), mirrored])
def test_a_slightly_wrong_rim_block_does_not_fit(mutate, millwheel):
    job, folder = millwheel
    file = in_set(folder, "cut/clamp-block-rim.dxf")
    with changed(file):
        mutate(file, random.Random(1))
        assert any("rim" in check.where for check in dry_fit(job, folder, sheets=False).misfits)


def test_the_files_are_good_before_they_are_changed(garland):
    assert not garland.again().misfits
