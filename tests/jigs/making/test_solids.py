"""STEP files of a set: asked for, made beside the rest, and what is said where they cannot be."""

from importlib.util import find_spec

import pytest

import jigs.sets.solids
from jigs.asked.jobfile import load
from jigs.sets.make import make
from jigs.words.findings import Refused
from tests.jigs.making.sets import assert_whole, contents, manifest


def of_model(folder):
    return {file: digest for file, digest in contents(folder).items() if file.startswith("model/")}


@pytest.mark.skipif(find_spec("cadquery") is None, reason="cadquery is not installed")
def test_a_set_that_stands_gets_its_solids_when_they_are_asked_for(standing, job_file):
    folder = standing / "garland"
    assert not of_model(folder)
    assert make(load(job_file), standing).unchanged
    made = make(load(job_file), standing, solids=True)
    assert not made.unchanged
    assert not made.remade
    found = of_model(folder)
    assert {
        row["file"]: row["sha256"] for row in manifest(folder)["extras"] if "model/" in row["file"]
    } == found
    parts = {entry["part"] for entry in manifest(folder)["files"] if entry["process"] != "paper"}
    assert {f"model/garland_{part}.step" for part in parts} < set(found)
    assert "model/garland_ring-sled-assembly.step" in found
    assert "model/garland_mounting-a-assembly.step" in found
    assert_whole(folder)
    assert make(load(job_file), standing, solids=True).unchanged
    assert of_model(folder) == found


def test_without_the_kernel_all_else_is_made_and_that_is_said(standing, job_file, monkeypatch):
    monkeypatch.setattr(jigs.sets.solids, "find_spec", lambda name: None)
    before = contents(standing / "garland")
    made = make(load(job_file), standing, solids=True)
    assert made.unchanged
    (note,) = [note for note in made.notes if note.code == "no-solids"]
    assert note.severity == "note"
    assert "CadQuery" in note.told
    assert contents(standing / "garland") == before


def test_a_kernel_that_fails_leaves_the_old_set(standing, job_file, monkeypatch):
    monkeypatch.setattr(jigs.sets.solids, "CHILD", "raise SystemExit('libGL.so.1: cannot open')")
    before = contents(standing / "garland")
    with pytest.raises(Refused, match=r"libGL\.so\.1") as caught:
        make(load(job_file), standing, solids=True)
    assert "--solids" in caught.value.findings[0].remedy
    assert contents(standing / "garland") == before
