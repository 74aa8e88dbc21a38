"""An output folder that is a link, a file or cannot be deleted: no make is blocked by what another left there."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.sets.make import make
from jigs.sets.swap import new_folder
from jigs.words.findings import Refused
from tests.jigs.making.sets import ROOT, assert_whole, changed, leftovers, refusal


def test_a_link_is_followed_and_stays_a_link(job_file, standing, tmp_path):
    elsewhere = tmp_path / "disk"
    elsewhere.mkdir()
    (standing / "garland").rename(elsewhere / "jigs")
    (standing / "garland").symlink_to(elsewhere / "jigs")
    for tube in (55, 56):
        made = make(load(changed(job_file, "tube_diameter = ", f"tube_diameter = {tube} # ")), standing)
        assert not [note for note in made.notes if note.code == "left-over"]
    assert (standing / "garland").is_symlink()
    assert_whole(elsewhere / "jigs")
    assert [*leftovers(standing), *leftovers(elsewhere)] == []


def test_a_link_to_nothing_is_filled(tmp_path):
    (tmp_path / "set").symlink_to(tmp_path / "not-yet")
    with new_folder(tmp_path, "set") as fresh:
        (fresh / "a.txt").write_text("a")
    assert (tmp_path / "not-yet" / "a.txt").read_text() == "a"
    assert (tmp_path / "set").is_symlink()


def test_a_file_in_the_place_of_the_folder_is_refused_and_kept(job_file, tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "garland").write_text("mine", "utf-8")
    for _ in range(2):
        with pytest.raises(Refused) as caught:
            make(load(job_file), tmp_path / "out")
        assert "garland is a file" in refusal(caught, "not-a-folder")
    assert (tmp_path / "out" / "garland").read_text("utf-8") == "mine"
    assert leftovers(tmp_path / "out") == []


def test_a_set_of_another_job_file_of_the_same_name_is_replaced_and_named(job_file, standing):
    """A copy of a job carries its name along, and with it the folder."""
    changed(job_file, "title = ", 'name = "garland"\ntitle = ')
    assert not [note for note in make(load(job_file), standing).notes if note.code == "other-job"]
    copy = job_file.with_name("wreath.toml")
    copy.write_text(job_file.read_text("utf-8").replace("tube_diameter = 54", "tube_diameter = 55"), "utf-8")
    (told,) = (note for note in make(load(copy), standing).notes if note.code == "other-job")
    assert (told.file, told.key) == (str(copy), "name")
    assert "garland.toml" in told.message
    changed(copy, "tube_diameter = 55", "tube_diameter = 56")
    assert not [note for note in make(load(copy), standing).notes if note.code == "other-job"]


@pytest.mark.parametrize("name", [".set.new", ".set.old"])
def test_what_a_killed_run_left_goes_whatever_it_is(tmp_path, name):
    (tmp_path / "set").mkdir()
    for stale in ("file", "link", "folder"):
        if stale == "file":
            (tmp_path / name).write_text("stale")
        elif stale == "link":
            (tmp_path / name).symlink_to("nowhere")
        else:
            (tmp_path / name / "print").mkdir(parents=True)
        with new_folder(tmp_path, "set") as fresh:
            (fresh / "kind.txt").write_text(stale)
        assert (tmp_path / "set" / "kind.txt").read_text() == stale
        assert leftovers(tmp_path) == []


@pytest.mark.parametrize("exchanged", [True, False])
def test_what_cannot_be_deleted_blocks_nothing(tmp_path, monkeypatch, exchanged):
    """As on a disk that keeps folders which another program holds open."""
    if not exchanged:
        monkeypatch.setattr("jigs.sets.swap._exchanged", lambda one, other: False)
    with monkeypatch.context() as held:
        held.setattr(shutil, "rmtree", lambda folder, ignore_errors: None)
        for content in ("one", "two", "three", "four"):
            with new_folder(tmp_path, "set") as fresh:
                (fresh / "a.txt").write_text(content)
            assert (tmp_path / "set" / "a.txt").read_text() == content
        assert len(leftovers(tmp_path)) == 3
    with new_folder(tmp_path, "set") as fresh:
        (fresh / "a.txt").write_text("five")
    assert leftovers(tmp_path) == []


def test_the_newest_set_moved_aside_comes_back(tmp_path):
    for name in (".set.old", ".set.old-2", ".set.old-10"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "a.txt").write_text(name)
    with new_folder(tmp_path, "set") as fresh:
        assert (tmp_path / "set" / "a.txt").read_text() == ".set.old-10"
        (fresh / "a.txt").write_text("new")
    assert (tmp_path / "set" / "a.txt").read_text() == "new"


def test_an_old_set_that_cannot_be_deleted_is_told(job_file, standing, monkeypatch):
    monkeypatch.setattr(shutil, "rmtree", lambda folder, ignore_errors: None)
    made = make(load(changed(job_file)), standing)
    [note] = [note for note in made.notes if note.code == "left-over"]
    assert str(standing / ".garland.new") in note.message
    assert_whole(standing / "garland")


READ_ONLY = """
import ctypes  # what swaps folders loads it late, when Python's own may no longer be readable
import os, sys
from pathlib import Path
from jigs.sets.swap import leftovers, new_folder
root = Path(sys.argv[1])
if os.getuid() == 0:
    os.setuid(65534)  # no folder refuses root
for content in ("one", "two", "three"):
    with new_folder(root, "set") as fresh:
        (fresh / "print").mkdir()
        (fresh / "print" / "a.txt").write_text(content)
        (fresh / "print").chmod(0o555)
    assert (root / "set" / "print" / "a.txt").read_text() == content
assert leftovers(root, "set") == []
"""


@pytest.mark.skipif(sys.platform == "win32", reason="folders are not locked by modes there")
def test_a_set_whose_folders_are_read_only_is_replaced_and_gone():
    with tempfile.TemporaryDirectory() as root:
        Path(root).chmod(0o777)
        ended = subprocess.run(
            [sys.executable, "-c", READ_ONLY, root], cwd=ROOT, capture_output=True, text=True, check=False
        )
        assert (ended.returncode, ended.stderr) == (0, "")
