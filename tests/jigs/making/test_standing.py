"""That a set stands is told from its manifest, without reading the job; whatever it was made from is minded."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.asked.toml_source import readings_file
from jigs.files.manifest import MANIFEST, read_manifest
from jigs.sets.make import make
from jigs.sets.standing import standing_of
from jigs.sets.swap import only_one
from jigs.words.findings import Refused
from tests.jigs.making.sets import ROOT, changed

BESIDES = True


def test_a_set_stands_with_the_files_that_its_manifest_names(job_file, standing):
    found = standing_of(job_file, standing)
    rows = read_manifest(standing / "garland")["files"]
    assert found.folder == standing / "garland"
    assert found.files == tuple(row["file"] for row in rows)
    assert found.parts == tuple(row["part"] for row in rows)


def test_a_job_elsewhere_with_the_same_files_beside_it_has_the_same_set(job_file, standing, tmp_path):
    moved = tmp_path / "moved"
    moved.mkdir()
    for file in (job_file, job_file.with_name("shed.toml")):
        file.rename(moved / file.name)
    assert standing_of(moved / "garland.toml", standing)
    assert make(load(moved / "garland.toml"), standing).unchanged


def change_workshop(job_file: Path, root: Path) -> None:
    changed(job_file.with_name("shed.toml"), "sheet = 11.9", "sheet = 12.1")


def take_measure(job_file: Path, root: Path) -> None:
    readings_file(job_file).write_text("", "utf-8")


CHANGES = {
    "the job": lambda job_file, root: changed(job_file),
    "the workshop": change_workshop,
    "a first reading": take_measure,
    "no workshop": lambda job_file, root: job_file.with_name("shed.toml").unlink(),
    "no job": lambda job_file, root: job_file.unlink(),
    "another name": lambda job_file, root: job_file.write_text('name = "wreath"\n' + job_file.read_text()),
    "no TOML": lambda job_file, root: job_file.write_text("["),
    "a name that is none": lambda job_file, root: job_file.write_text("name = 3\n" + job_file.read_text()),
    "a file of the set": lambda job_file, root: next((root / "garland" / "print").iterdir()).unlink(),
    "a picture": lambda job_file, root: next((root / "garland" / "pictures").iterdir()).write_text(""),
    "no manifest": lambda job_file, root: (root / "garland" / MANIFEST).unlink(),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_what_has_changed_is_left_to_whoever_reads_the_job(job_file, standing, change):
    change(job_file, standing)
    assert standing_of(job_file, standing) is None


def test_a_set_that_is_being_made_is_not_judged(job_file, standing):
    with only_one(standing, "garland"), pytest.raises(Refused, match="at work"):
        standing_of(job_file, standing)


def test_a_second_make_loads_nothing_slow(job_file, standing):
    code = "import sys; from jigs.start import main; print(main(sys.argv[1:]), *sys.modules)"
    command = [sys.executable, "-c", code, "make", str(job_file), "--into", str(standing)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    told, _, ended = done.partition("\n")
    assert "nothing changed" in told
    assert ended.startswith("0 ")
    assert not {"numpy", "jigs.asked.job", "jigs.forms.solve"} & set(ended.split())
