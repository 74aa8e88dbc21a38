"""A set without sleds: written, dry-fitted, and filled up later."""

import json
import shutil
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.cli import main
from jigs.dryfit.torus import dry_fit
from jigs.files.manifest import MANIFEST

BESIDES = True

JOB = """title = "Mug"
[profile]
edges = [[0, 60], [50, 70]]
[wall]
thickness = 7
[rings]
heights = 20
segments = 8
species = "maple"
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("lean")
    (place / "mug.toml").write_text(JOB, "utf-8")
    assert main(["make", str(place / "mug.toml"), "--into", str(place), "--essential"]) == 0
    return place


def manifest(place: Path):
    return json.loads((place / "mug" / MANIFEST).read_text("utf-8"))


def test_a_lean_set_is_all_there_and_fits(folder):
    files = {row["part"]: row["family"] for row in manifest(folder)["files"]}
    assert "segments" not in files.values()
    assert {"gauges", "sizes", "angles", "coupon"} <= {*files.values()}
    found = dry_fit(load(folder / "mug.toml"), folder / "mug")
    assert not found.misfits + found.faults
    assert not found.faults
    assert any("sleds for flat rings not checked: left out" in note for note in found.notes)


def test_some_of_its_files_made_anew_leave_it_a_lean_set(folder, tmp_path, capsys):
    shutil.copytree(folder, tmp_path / "own")
    job, before = tmp_path / "own" / "mug.toml", manifest(tmp_path / "own")

    def made(*more: str) -> str:
        assert main(["make", str(job), "--into", str(job.parent), *more]) == 0
        return capsys.readouterr().out

    made("--only", "gauges,cut,book")
    assert manifest(job.parent) == before, "the book too says what to use instead"
    assert "nothing changed" in made("--essential")
    made("--only", "plan-angle-base-n8")
    assert len(manifest(job.parent)["left_out"]) == len(before["left_out"]) - 1
    assert "nothing changed" not in made()
    assert "left_out" not in manifest(job.parent)
    assert {row["part"] for row in manifest(job.parent)["files"]} >= {*before["left_out"]}


def test_it_stands_until_the_whole_set_is_asked_for(folder, capsys):
    lean = {row["file"]: row["sha256"] for row in manifest(folder)["files"]}
    assert main(["make", str(folder / "mug.toml"), "--into", str(folder), "--essential"]) == 0
    assert "nothing changed" in capsys.readouterr().out
    assert main(["make", str(folder / "mug.toml"), "--into", str(folder)]) == 0
    whole = manifest(folder)
    assert "left_out" not in whole
    assert lean.items() <= {row["file"]: row["sha256"] for row in whole["files"]}.items()
    assert "segments" in {row["family"] for row in whole["files"]}


def test_a_whole_set_does_not_stand_for_a_lean_one(tmp_path):
    """Its book builds the sleds, and says nowhere what to use instead."""
    job = tmp_path / "mug.toml"
    job.write_text(JOB, "utf-8")
    book = tmp_path / "mug" / "mug_book.html"
    assert main(["make", str(job), "--into", str(tmp_path)]) == 0
    whole = book.read_text("utf-8")
    assert main(["make", str(job), "--into", str(tmp_path), "--essential"]) == 0
    assert manifest(tmp_path)["left_out"]
    assert "your own" not in whole
    assert "your own" in book.read_text("utf-8")


@pytest.mark.parametrize("other", [["--solids"], ["--only", "gauges"]])
def test_options_that_make_it_useless_are_refused(folder, other, capsys):
    assert main(["make", str(folder / "mug.toml"), "--into", str(folder), "--essential", *other]) == 1
    assert "--essential" in capsys.readouterr().err
