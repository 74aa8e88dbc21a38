"""The torus's judge can fail: a set that is right is found right, and each part that is changed is found wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import ExitStack
from pathlib import Path

import pytest
from ezdxf.layouts import Modelspace
from stl import mesh as stl_mesh

from tests.jigs.redrawn import redraw
from tests.jigs.set_files import in_set
from tests.sweep.mutations import put_back
from tests.sweep.torus_judge import judge_torus

CONFIGS = Path(__file__).parents[2] / "configs"
SIZED = (
    "cut/segment-base.dxf",
    "cut/width-fork.dxf",
    "cut/hole-stick.dxf",
    "cut/outer-stick.dxf",
    "turn/channel-section.dxf",
    "turn/retainer-section.dxf",
    "print/hole-gauge-finished.stl",
    "print/outer-gauge-stage-1.stl",
    "print/standing-gauge-d-outer.stl",
)
ANGLED = ("cut/tilt-plate.dxf", "cut/joint-plate.dxf", "cut/check-corner.dxf")


@pytest.fixture(scope="module")
def garland(set_of):
    return set_of("garland")


def _wrong(garland, names: Iterable[str], change: Callable[[Path], None]) -> set[str]:
    """Parts found wrong while these files are changed."""
    with ExitStack() as changed:
        for name in names:
            changed.enter_context(put_back(in_set(garland[1], name)))
            change(in_set(garland[1], name))
        return {one.part for one in judge_torus(*garland) if not one.right}


def test_a_set_as_made_is_right(garland) -> None:
    found = judge_torus(*garland)
    assert not [one for one in found if not one.right]
    assert len({one.part for one in found}) > 15


def test_parts_that_are_a_little_too_large_are_found(garland) -> None:
    assert {Path(name).stem for name in SIZED} == _wrong(garland, SIZED, _scaled)


def test_angles_that_are_a_little_off_are_found(garland) -> None:
    assert {Path(name).stem for name in ANGLED} == _wrong(garland, ANGLED, _stretched)


@pytest.mark.parametrize("name", ["cut/sled-stop-cheek.dxf", "cut/sled-wedge.dxf"])
def test_a_sled_that_cuts_other_rings_is_found(name, garland) -> None:
    assert _wrong(garland, [name], _scaled) & {"sled", "blank"}


def _scaled(file: Path, by: float = 1.01) -> None:
    if file.suffix == ".stl":
        plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
        plate.vectors[:, :, :2] *= by
        plate.save(str(file))
        return
    redraw(file, lambda space: [entity.scale_uniform(by) for entity in space])


def _stretched(file: Path, by: float = 1.02) -> None:
    def stretch(space: Modelspace) -> None:
        for entity in space.query("LWPOLYLINE"):
            entity.set_points([(x, by * y, bulge) for x, y, bulge in entity.get_points("xyb")], format="xyb")

    redraw(file, stretch)
