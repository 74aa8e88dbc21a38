"""What changed or was harmed is made again, and that alone; strangers' files are kept."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.files.manifest import input_print
from jigs.sets.make import make
from tests.jigs.making.sets import assert_whole, changed, contents, manifest
from tests.jigs.set_files import in_set


def test_a_second_make_changes_nothing_and_says_so(job_file, standing):
    before = {file: file.stat().st_mtime_ns for file in (standing / "garland").rglob("*")}
    made = make(load(job_file), standing)
    assert made.unchanged
    assert len(made.files) == len(manifest(standing / "garland")["files"])
    assert {file: file.stat().st_mtime_ns for file in (standing / "garland").rglob("*")} == before


def test_a_changed_job_is_remade(job_file, standing):
    before = contents(standing / "garland")
    made = make(load(changed(job_file)), standing)
    after = contents(standing / "garland")
    assert not made.unchanged
    assert_whole(standing / "garland")
    assert after["print/garland_outer-gauge-finished.stl"] != before["print/garland_outer-gauge-finished.stl"]
    assert make(load(job_file), standing).unchanged


def test_a_changed_workshop_file_is_noticed(job_file, standing):
    changed(job_file.parent / "shed.toml", "sheet = 11.9", "sheet = 12.1")
    assert not make(load(job_file), standing).unchanged
    assert_whole(standing / "garland")


@pytest.mark.parametrize("harm", [Path.unlink, lambda file: file.write_bytes(file.read_bytes()[:-1] + b"?")])
def test_a_removed_or_broken_file_is_remade(job_file, standing, harm):
    before = contents(standing / "garland")
    harm(in_set(standing / "garland", "print/hole-gauge-finished.stl"))
    assert not make(load(job_file), standing).unchanged
    assert contents(standing / "garland") == before


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"files": 3}', '{"files": [{}]}', '{"files": ["x"]}', "null"]
)
def test_a_manifest_that_cannot_be_read_is_made_again(job_file, standing, made_once, text):
    (standing / "garland" / "manifest.json").write_text(text, "utf-8")
    assert not make(load(job_file), standing).unchanged
    assert contents(standing / "garland") == contents(made_once)


def test_pictures_of_the_job_before_its_change_are_deleted_and_that_is_noted(job_file, standing):
    look = standing / "garland" / "look"
    look.mkdir()
    (look / "front.png").write_bytes(b"png")
    (look / "mine.png").write_bytes(b"mine")
    stamp = {"inputs_sha256": input_print(load(job_file).sources), "files": {"front.png": ""}}
    (look / "look.json").write_text(json.dumps(stamp), "utf-8")
    (standing / "garland" / "cut").joinpath("garland_sled-base.dxf").unlink()
    same = make(load(job_file), standing)
    assert (look / "front.png").is_file()
    assert "stale-look" not in [note.code for note in same.notes]
    other = make(load(changed(job_file)), standing)
    assert [file.name for file in look.iterdir()] == ["mine.png"]
    assert "stale-look" in [note.code for note in other.notes]


def test_strangers_files_are_carried_over(job_file, standing):
    (standing / "garland" / "print" / "my notes.txt").write_text("glue on Tuesday", "utf-8")
    (standing / "garland" / "photos").mkdir()
    (standing / "garland" / "photos" / "rim.jpg").write_bytes(b"\xff\xd8")
    make(load(changed(job_file)), standing)
    assert (standing / "garland" / "print" / "my notes.txt").read_text("utf-8") == "glue on Tuesday"
    assert (standing / "garland" / "photos" / "rim.jpg").read_bytes() == b"\xff\xd8"
    assert_whole(standing / "garland")


def test_files_of_the_old_set_that_the_job_no_longer_makes_are_gone(job_file, standing):
    make(load(changed(job_file, 'stages = [3, 1, "finished"]', 'stages = [3, "finished"]')), standing)
    assert not in_set(standing / "garland", "print/outer-gauge-stage-2.stl").exists()
    assert in_set(standing / "garland", "print/outer-gauge-stage-1.stl").exists()
