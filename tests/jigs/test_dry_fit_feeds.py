"""What ends a feed and keeps hands away: a part of it that is wrong never passes the dry fit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from ezdxf.layouts import Modelspace

from jigs.asked.jobfile import load
from tests.jigs.redrawn import redraw
from tests.jigs.set_files import in_set
from tests.sweep.remembered import Remembered
from tests.unset import jigs_made

CONFIGS = Path(__file__).parents[2] / "configs"
HANDS = 230.0  # mm
SHORT = 60.0  # mm off an exit block
MOVED = 12.0  # mm of a line
HANDLES = ("sled-handle", "segment-handle", "plan-angle-handle", "layup-handle", "layup-trim-handle")
BLOCKS = ("sled", "segment", "plan-angle", "layup", "layup-trim")
Change = Callable[[Modelspace], None]


@pytest.fixture(scope="module")
def trellis(tmp_path_factory: pytest.TempPathFactory):
    """A ring with a layup, all of its sleds on the table saw, hands kept farther away than by default."""
    job = load(CONFIGS / "trellis.toml")
    shop = job.workshop
    shop = replace(
        shop,
        sled=replace(shop.sled, hands_clear=HANDS),
        cutting=replace(shop.cutting, plan_angle_sled=True, segments="table saw", wedge_rings="table saw"),
    )
    job = replace(job, workshop=shop)
    return Remembered(job, jigs_made(job, tmp_path_factory.mktemp("feeds")), sheets=False)


def misfits(made: Remembered, name: str, change: Change) -> list[str]:
    """Where the set does not fit while one of its drawings is changed; then it is put back."""
    file = in_set(made.folder, f"cut/{name}.dxf")
    content = file.read_bytes()
    try:
        redraw(file, change)
        return [check.where for check in made.again().misfits]
    finally:
        file.write_bytes(content)


def outlines(space: Modelspace):
    return [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut"]


def lines(space: Modelspace, name: str):
    named = [e for e in space.query("LWPOLYLINE") if e.has_xdata("JIGS")]
    found = [e for e in named if e.get_xdata("JIGS")[0].value == name]
    assert found, name
    return found


def move(entity, dx: float = 0.0, dy: float = 0.0) -> None:
    entity.set_points([(x + dx, y + dy, b) for x, y, b in entity.get_points("xyb")], format="xyb")


def test_the_set_is_good_and_every_handle_keeps_the_hands_as_far_as_asked(trellis) -> None:
    found = trellis.first
    assert not found.misfits + found.faults
    reach = {c.where: c.value for c in found.checks if c.what == "hands clear of the blade"}
    assert set(reach) == set(HANDLES)
    assert min(reach.values()) >= HANDS - 0.03


@pytest.mark.parametrize("name", BLOCKS)
def test_an_exit_block_that_is_too_short_is_found(name, trellis) -> None:
    def shorter(space: Modelspace) -> None:
        (outline,) = outlines(space)
        points = np.array(list(outline.get_points("xyb")))
        points[points[:, 1] < points[:, 1].min() + 1.0, 1] += SHORT
        outline.set_points(points.tolist(), format="xyb")

    assert f"{name}-exit-block" in misfits(trellis, f"{name}-exit-block", shorter)


@pytest.mark.parametrize("way", [-1.0, 1.0])
def test_a_batten_line_that_is_moved_is_found(way, trellis) -> None:
    def moved(space: Modelspace) -> None:
        for line in lines(space, "batten, under the base"):
            move(line, dy=way * 4 * MOVED)

    assert misfits(trellis, "sled-base", moved)


def test_a_batten_with_a_hole_at_its_edge_or_too_short_is_found(trellis) -> None:
    def shorter(space: Modelspace) -> None:
        (outline,) = outlines(space)
        points = np.array(list(outline.get_points("xyb")))
        points[points[:, 0] > points[:, 0].min() + 1.0, 0] -= SHORT
        outline.set_points(points.tolist(), format="xyb")

    assert "sled-batten" in misfits(trellis, "sled-batten", shorter)


@pytest.mark.parametrize("name", ["sled-base", "segment-base", "plan-angle-base"])
def test_a_stops_measuring_line_that_is_moved_is_found(name, trellis) -> None:
    def moved(space: Modelspace) -> None:
        for line in lines(space, "stop line"):
            move(line, dx=0.5)

    assert name in misfits(trellis, name, moved)


@pytest.mark.parametrize("name", ["segment-base", "plan-angle-base", "layup-base", "layup-trim-base"])
def test_a_blade_line_that_ends_before_the_work_is_cut_through_is_found(name, trellis) -> None:
    def shorter(space: Modelspace) -> None:
        start = {"layup-base": "blade, slab's side", "layup-trim-base": "blade, piece's side"}
        own = lines(space, start.get(name, "blade, kept side"))
        lowest = min(own, key=lambda e: min(y for _, y in e.get_points("xy")))
        points = np.array(list(lowest.get_points("xyb")))
        points[points[:, 1].argmin(), 1] += SHORT
        lowest.set_points(points.tolist(), format="xyb")

    assert misfits(trellis, name, shorter)
