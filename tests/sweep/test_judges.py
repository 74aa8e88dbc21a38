"""The torus's judge can fail: a set that is right is found right, and each part that is changed is found wrong."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import numpy as np
import pytest
from stl import mesh as stl_mesh

from jigs.jobfile import load
from jigs.make import make
from tests.sweep.mutations import put_back
from tests.sweep.torus_judge import judge_torus

CONFIGS = Path(__file__).parents[2] / "configs"


@pytest.fixture(scope="module")
def garland(tmp_path_factory: pytest.TempPathFactory):
    job = load(CONFIGS / "garland.toml")
    return job, make(job, tmp_path_factory.mktemp("judged")).folder


def _wrong(garland) -> set[str]:
    return {one.part for one in judge_torus(*garland) if not one.right}


def test_a_set_as_made_is_right(garland) -> None:
    found = judge_torus(*garland)
    assert not [one for one in found if not one.right]
    assert len({one.part for one in found}) > 15


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("cut/sled-stop-cheek.dxf", "sled"),
        ("cut/sled-wedge.dxf", "blank"),
        ("cut/sled-jaw.dxf", "segment-base"),
        ("cut/segment-base.dxf", "segment-base"),
        ("cut/width-fork.dxf", "width-fork"),
        ("cut/hole-stick.dxf", "hole-stick"),
        ("cut/outer-stick.dxf", "outer-stick"),
        ("turn/channel-section.dxf", "channel-section"),
        ("turn/retainer-section.dxf", "retainer-section"),
        ("print/hole-gauge-finished.stl", "hole-gauge-finished"),
        ("print/outer-gauge-stage-1.stl", "outer-gauge-stage-1"),
        ("print/standing-gauge-d-outer.stl", "standing-gauge-d-outer"),
    ],
)
def test_a_part_that_is_a_little_too_large_is_found(name, found, garland) -> None:
    with put_back(garland[1] / name):
        _scaled(garland[1] / name, 1.01)
        assert found in _wrong(garland)


@pytest.mark.parametrize("name", ["sled-wedge", "tilt-plate", "joint-plate", "check-corner"])
def test_an_angle_that_is_a_little_off_is_found(name, garland) -> None:
    file = garland[1] / "cut" / f"{name}.dxf"
    with put_back(file):
        _sheared(file, 0.004)
        assert _wrong(garland) & {name, "sled"}


def _scaled(file: Path, by: float) -> None:
    if file.suffix == ".stl":
        plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
        plate.vectors[:, :, :2] *= by
        plate.save(str(file))
        return
    document = ezdxf.readfile(file)
    for entity in document.modelspace():
        entity.scale_uniform(by)
    document.saveas(file)


def _sheared(file: Path, by: float) -> None:
    document = ezdxf.readfile(file)
    for entity in document.modelspace().query("LWPOLYLINE"):
        rows = np.array(list(entity.get_points("xyb")))
        rows[:, 0] += by * rows[:, 1]
        entity.set_points(rows.tolist(), format="xyb")
    document.saveas(file)
