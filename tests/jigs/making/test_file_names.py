"""Files say whose job they are, in names that every system takes; a set that was named otherwise is followed up."""

from __future__ import annotations

import json
import re
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from jigs.asked.jobfile import load
from jigs.asked.values import NAME_PATTERN
from jigs.files.manifest import sealed
from jigs.parts.families import FAMILIES
from jigs.sets.make import make
from jigs.words.file_names import of_job, what_of, without_job
from tests.jigs.making.sets import changed

BESIDES = True

OF_THE_FOLDER = {"manifest.json"}
LEGAL = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*(\.[A-Za-z0-9_-]+)*")  # ends in no point and has no space
LONGEST = 143  # characters of a name that the narrowest of common file systems holds (eCryptfs)

jobs = st.from_regex(NAME_PATTERN, fullmatch=True)
parts = st.sampled_from([jig.name for family in FAMILIES for jig in family.jigs])


def files_of(folder: Path) -> list[str]:
    return sorted(file.relative_to(folder).as_posix() for file in folder.rglob("*") if file.is_file())


def test_every_file_of_a_set_says_whose_it_is_in_a_legal_name(made_once):
    names = [Path(name).name for name in files_of(made_once)]
    assert all(name.startswith("garland_") for name in names if name not in OF_THE_FOLDER)
    assert all(LEGAL.fullmatch(name) for name in names)
    assert len({name.lower() for name in names}) == len(names)
    assert max(map(len, names)) - len("garland") + 60 <= LONGEST  # a job's name has 60 letters at most


@given(jobs, parts, jobs, parts)
def test_no_two_jobs_have_a_file_of_the_same_name(job, part, other, same):
    one, two = (of_job(j, f"cut/{p}.dxf") for j, p in ((job, part), (other, same)))
    assert (one == two) == ((job, part) == (other, same))
    assert what_of(Path(one)) == part


def as_before(folder: Path) -> None:
    """The set as a version made it that did not put the job's name before each file's."""
    manifest = json.loads((folder / "manifest.json").read_text("utf-8"))
    for row in (*manifest["files"], *manifest["extras"]):
        file = folder / row["file"]
        old = file.rename(file.with_name(without_job(file.name)))
        row["file"] = old.relative_to(folder).as_posix()
    manifest["tool_sha256"] = manifest["inputs_sha256"] = "another version"
    (folder / "manifest.json").write_text(sealed(manifest), "utf-8")


def test_jigs_of_a_set_named_otherwise_are_still_right_and_nothing_of_it_is_left(job_file, standing):
    folder = standing / "garland"
    before = files_of(folder)
    as_before(folder)
    (folder / "print" / "mine.txt").write_text("mine", "utf-8")
    made = make(load(job_file), standing)
    assert (made.remade, made.wrong, made.near) == ((), (), ())
    assert len(made.right) > 50
    assert [name for name in files_of(folder) if "last-change" not in name] == sorted(
        [*before, "print/mine.txt"]
    )


def test_of_a_set_named_otherwise_without_its_manifest_all_goes_aside(job_file, standing):
    folder = standing / "garland"
    before = files_of(folder)
    as_before(folder)
    (folder / "manifest.json").unlink()
    make(load(changed(job_file)), standing)
    aside = {name for name in files_of(folder) if name.startswith("set-aside/")}
    assert {name for name in files_of(folder) if name not in aside} == set(before)
    assert {"set-aside/book.html", "set-aside/listing.txt", "set-aside/cut/sled-base.dxf"} <= aside
