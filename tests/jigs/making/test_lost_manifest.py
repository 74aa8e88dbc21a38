"""Without its manifest a set's jigs cannot be told apart: they are set aside and listed; the user's files stay."""

from __future__ import annotations

import json
import random

import pytest

from jigs.asked.jobfile import load
from jigs.sets.make import make
from tests.jigs.making.sets import assert_whole, changed, contents
from tests.jigs.set_files import in_set


def lose(folder) -> None:
    (folder / "manifest.json").unlink()


def truncate(folder) -> None:
    text = (folder / "manifest.json").read_text("utf-8")
    (folder / "manifest.json").write_text(text[: len(text) // 2], "utf-8")


def forget(folder) -> None:
    """Valid JSON that no longer names one of the jigs."""
    content = json.loads((folder / "manifest.json").read_text("utf-8"))
    content["files"] = [entry for entry in content["files"] if entry["part"] != "old-gauge"][1:]
    (folder / "manifest.json").write_text(json.dumps(content), "utf-8")


@pytest.mark.parametrize("harm", [lose, truncate, forget])
def test_old_jigs_go_into_a_folder_of_their_own_and_are_listed(job_file, standing, harm):
    folder = standing / "garland"
    (folder / "print" / "gauge-of-long-ago.stl").write_bytes(b"solid")
    (folder / "photos").mkdir()
    (folder / "photos" / "rim.jpg").write_bytes(b"\xff\xd8")
    old = in_set(folder, "print/hole-gauge-finished.stl").read_bytes()
    harm(folder)
    made = make(load(changed(job_file)), standing)
    [warning] = [note for note in made.notes if note.code == "manifest-lost"]
    assert "gauge-of-long-ago.stl" in warning.message
    assert str(folder / "set-aside") in warning.message
    assert (folder / "set-aside" / "print" / "gauge-of-long-ago.stl").read_bytes() == b"solid"
    assert in_set(folder, "set-aside/print/hole-gauge-finished.stl").read_bytes() == old
    assert not (folder / "print" / "gauge-of-long-ago.stl").exists()
    assert (folder / "photos" / "rim.jpg").read_bytes() == b"\xff\xd8"
    assert_whole(folder)


def test_what_was_set_aside_stays_there_and_is_told_once(job_file, standing):
    folder = standing / "garland"
    (folder / "print" / "gauge-of-long-ago.stl").write_bytes(b"solid")
    lose(folder)
    make(load(job_file), standing)
    made = make(load(changed(job_file)), standing)
    assert not [note for note in made.notes if note.code == "manifest-lost"]
    assert (folder / "set-aside" / "print" / "gauge-of-long-ago.stl").read_bytes() == b"solid"


def test_two_losses_set_two_files_of_one_name_aside(job_file, standing):
    folder = standing / "garland"
    for content in (b"first", b"second"):
        (folder / "print" / "gauge.stl").write_bytes(content)
        lose(folder)
        make(load(job_file), standing)
    kept = {file.read_bytes() for file in folder.rglob("gauge.stl")}
    assert kept == {b"first", b"second"}


def test_a_folder_that_never_held_a_set_is_the_users(job_file, tmp_path):
    root = tmp_path / "out"
    (root / "garland" / "photos").mkdir(parents=True)
    (root / "garland" / "photos" / "rim.jpg").write_bytes(b"\xff\xd8")
    made = make(load(job_file), root)
    assert not [note for note in made.notes if note.code == "manifest-lost"]
    assert (root / "garland" / "photos" / "rim.jpg").read_bytes() == b"\xff\xd8"


def test_links_and_empty_folders_of_the_user_are_kept(job_file, standing, tmp_path):
    folder = standing / "garland"
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "plan.txt").write_text("mine", "utf-8")
    (folder / "linked").symlink_to(tmp_path / "elsewhere")
    (folder / "dangling").symlink_to("nowhere")
    (folder / "empty").mkdir()
    make(load(changed(job_file)), standing)
    assert (folder / "linked").is_symlink()
    assert (folder / "linked" / "plan.txt").read_text("utf-8") == "mine"
    assert (folder / "dangling").is_symlink()
    assert (folder / "empty").is_dir()


def harmed(draw: random.Random, content):
    """JSON with one place of it another value, gone, or one character of its text another."""
    at = content
    while True:
        key = draw.choice(list(at)) if isinstance(at, dict) else draw.randrange(len(at))
        if isinstance(at[key], dict | list) and at[key] and draw.random() < 0.8:
            at = at[key]
            continue
        if draw.random() < 0.3:
            del at[key]
        else:
            at[key] = draw.choice([None, 3, -1e400, "x", "../../x", [], {}, ["a"], {"a": 1}, True])
        return content


def test_no_damage_to_a_manifest_stops_a_make(job_file, standing):
    folder, draw = standing / "garland", random.Random(4)
    sound = (folder / "manifest.json").read_text("utf-8")
    before = contents(folder)
    for _ in range(6):
        (folder / "manifest.json").write_text(json.dumps(harmed(draw, json.loads(sound))), "utf-8")
        make(load(job_file), standing)
        assert contents(folder) == before
