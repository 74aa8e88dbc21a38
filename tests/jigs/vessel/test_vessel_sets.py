"""Sets of the vessels in configs/: the same bytes again, measured, and what another wall remakes."""

from __future__ import annotations

import json
import shutil
from unittest import mock

import pytest

from jigs.asked.jobfile import load
from jigs.files.written import written_back
from jigs.sets.made import Made
from jigs.sets.make import make
from tests.jigs.shops import CONFIGS, FILE_TOLERANCE, each_vessel
from tests.unset import jigs_alone


def test_the_same_job_gives_the_same_bytes_and_a_second_make_changes_nothing(set_of, tmp_path):
    """A vessel drawn as a DXF; the torus's is made anew in other processes, in `making`."""
    path, (_, folder) = CONFIGS / "tumbler.toml", set_of("tumbler")
    with mock.patch("jigs.sets.make.written_back", written_back):  # each part anew
        again = make(load(path), tmp_path)
    one, other = (
        {f.relative_to(at): f.read_bytes() for f in at.rglob("*") if f.is_file()}
        for at in (folder, again.folder)
    )
    assert one == other
    assert len(again.files) > 40
    assert make(load(path), folder.parent).unchanged


@each_vessel
def test_every_file_measures_what_it_should(path, set_of):
    manifest = json.loads((set_of(path.stem)[1] / "manifest.json").read_text("utf-8"))
    for entry in manifest["files"]:
        for found in entry["dimensions"]:
            if found["measured"] is not None:
                assert found["measured"] == pytest.approx(found["value"], abs=FILE_TOLERANCE), entry["part"]


STAYS = (
    "coupon", "joint-plate", "stop-stick", "glue-up-board", "ring-truing-face", "outside-gauge", "gauge-rail",
    "gap-gauge", "calliper-stick",
)  # fmt: skip
GOES = ("centring-plate", "inside-gauge", "wall-gauge", "mouth-stick", "mouth-plug-section")


@pytest.fixture(scope="module")
def thicker(set_of, tmp_path_factory) -> Made:
    """What a make says that finds the same vessel's set with a wall half a millimetre thinner."""
    folder = tmp_path_factory.mktemp("thicker")
    for name in ("sorrel.toml", "shed.toml"):
        shutil.copy(CONFIGS / name, folder)
    file = folder / "sorrel.toml"
    shutil.copytree(set_of("sorrel")[1], folder / "out" / "sorrel")
    text = file.read_text("utf-8")
    assert "thickness = 7\n" in text
    file.write_text(text.replace("thickness = 7\n", "thickness = 7.5\n"), "utf-8")
    with jigs_alone():
        return make(load(file), folder / "out")


def test_another_wall_remakes_what_depends_on_it_and_nothing_else(thicker):
    for start in STAYS:
        assert any(name.startswith(start) for name in thicker.right), start
        assert not any(name.startswith(start) for name in thicker.remade), start
    for start in GOES:
        assert any(name.startswith(start) for name in thicker.remade), start
        assert not any(name.startswith(start) for name in thicker.right), start


def test_another_wall_makes_the_old_inside_gauges_wrong_by_as_much(thicker):
    wrong = dict(thicker.wrong)
    for stage in ("stage-1", "stage-2", "finished"):
        told = next(why for name, why in wrong.items() if name.startswith(f"inside-gauge-{stage}"))
        out = float(told.partition("out by ")[2].split()[0])
        assert out >= 0.49, told
    assert not any(name.startswith("outside-gauge") for name in wrong)


def test_another_wall_leaves_the_old_sled_right_as_a_whole(thicker):
    sled, finger = "plan-angle sled for rings of 12", "plan-angle-finger-n12"
    assert thicker.sleds == ((sled, "sorrel"),)
    assert finger in thicker.remade
    assert dict(thicker.near)[finger] == f"right while the {sled} is kept whole"
