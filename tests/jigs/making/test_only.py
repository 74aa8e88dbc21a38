"""`make --only` writes what is asked for, whole; all else stays, and the manifest says what the set is."""

from __future__ import annotations

import json
from unittest import mock

import pytest

from jigs.asked.jobfile import load
from jigs.cli import main
from jigs.files.manifest import input_print, made_from, read_manifest
from jigs.sets.make import make
from jigs.sets.only import make_only
from jigs.sets.standing import standing as standing_set
from jigs.words.findings import Refused
from tests.jigs.making.sets import changed, contents
from tests.jigs.set_files import in_set

BESIDES = True

SHORTER = ('stages = [3, 1, "finished"]', 'stages = [3, "finished"]')


def only(job_file, root, *words):
    return make_only(load(job_file), root, words, lambda done, total, name: None)


def test_what_is_asked_for_is_written_and_all_else_stays_as_it_was(job_file, standing):
    folder = standing / "garland"
    (folder / "print" / "mine.txt").write_text("mine", "utf-8")
    before = contents(folder)
    made = only(changed(job_file), standing, "gauges", "sb")
    after = contents(folder)
    assert set(after) == set(before)
    other = {name for name in after if after[name] != before[name]} - {"manifest.json"}
    assert other <= set(made.files)
    assert "print/garland_outer-gauge-finished.stl" in other
    assert not [name for name in made.files if not name.startswith(("print/", "cut/garland_sled-base"))]
    assert "cut/garland_sled-base.dxf" in made.files
    assert made.stay == len(before) - len(made.files) - 2  # the manifest and the user's own
    assert not made.same_job


def test_jigs_among_those_of_another_job_file_are_named_until_its_set_is_made_whole(job_file, standing):
    """A copy of a job carries its name along, and with it the folder."""
    changed(job_file, "title = ", 'name = "garland"\ntitle = ')
    copy = job_file.with_name("wreath.toml")
    copy.write_text(job_file.read_text("utf-8").replace("tube_diameter = 54", "tube_diameter = 55"), "utf-8")
    for _ in range(2):
        (told,) = (one for one in only(copy, standing, "gauges").warnings if one.code == "other-job")
        assert "garland.toml" in told.message
    assert not [one for one in only(job_file, standing, "gauges").warnings if one.code == "other-job"]
    assert [note for note in make(load(copy), standing).notes if note.code == "other-job"]
    assert not [one for one in only(copy, standing, "gauges").warnings if one.code == "other-job"]


def test_a_job_files_first_jigs_are_its_own_and_nothing_else_stays(job_file, tmp_path, capsys):
    assert main(["make", str(job_file), "--into", str(tmp_path), "--only", "co"]) == 0
    assert capsys.readouterr().out.endswith("garland: 1 file written\n")
    assert (read_manifest(tmp_path / "garland") or {})["job_file"] == job_file.name


def test_the_manifest_says_that_the_set_is_not_the_jobs_and_the_next_make_makes_it_whole(
    job_file, standing, made_once
):
    folder = standing / "garland"
    only(changed(job_file), standing, "gauges")
    only(changed(job_file, "tube_diameter = 55", "tube_diameter = 54"), standing, "cut")
    manifest = read_manifest(folder)
    assert manifest["only"] == ["cut", "gauges"]
    assert not made_from(folder, load(job_file).sources)
    assert {row["file"] for row in (*manifest["files"], *manifest["extras"])} | {"manifest.json"} == set(
        contents(folder)
    )
    made = make(load(job_file), standing)
    assert not made.unchanged
    whole, fresh = contents(folder), contents(made_once)
    assert whole.keys() - fresh.keys() <= {"last-change.txt"}
    assert {name: whole[name] for name in fresh} == fresh


def test_a_lost_file_of_the_same_job_is_written_again_and_the_set_stands(job_file, standing):
    folder, inputs = standing / "garland", input_print(load(job_file).sources)
    before = contents(folder)
    in_set(folder, "cut/tilt-plate.dxf").unlink()
    assert standing_set(folder, inputs) is None
    made = only(job_file, standing, "tilt-plate")
    assert made.same_job
    assert standing_set(folder, inputs)
    assert contents(folder) == before


def test_into_an_empty_folder_it_writes_that_alone(job_file, tmp_path):
    made = only(job_file, tmp_path / "out", "print", "labels")
    names = set(contents(tmp_path / "out" / "garland"))
    assert names == {*made.files, "manifest.json"}
    assert {name.split("/")[0] for name in made.files} == {"print", "paper"}
    assert "paper/garland_labels.pdf" in names


def test_files_of_the_kind_that_the_job_no_longer_has_go(job_file, standing):
    only(changed(job_file, *SHORTER), standing, "gauges")
    names = set(contents(standing / "garland"))
    assert "print/garland_outer-gauge-stage-2.stl" not in names
    assert "print/garland_standing-gauge-a-outer.stl" in names


def test_a_part_that_is_now_made_otherwise_has_one_file(job_file, standing):
    job_file.write_text(job_file.read_text("utf-8") + '\n[made]\nangles = "paper"\n', "utf-8")
    only(job_file, standing, "paper")
    names = set(contents(standing / "garland"))
    assert "paper/garland_tilt-plate.svg" in names
    assert "cut/garland_tilt-plate.dxf" not in names
    assert "cut/garland_sled-base.dxf" in names


def test_a_word_that_means_nothing_is_refused_with_what_is_like_it(job_file, standing):
    before = contents(standing / "garland")
    with pytest.raises(Refused) as refused:
        only(job_file, standing, "guages", "sled")
    (finding,) = refused.value.findings
    assert "guages" in finding.message
    assert "gauges" in finding.remedy
    assert contents(standing / "garland") == before


@pytest.mark.parametrize("nothing", ["", ","])
def test_no_word_at_all_is_refused_too(job_file, standing, capsys, nothing):
    assert main(["make", str(job_file), "--into", str(standing), "--only", nothing]) == 1
    assert "gauges" in capsys.readouterr().err


def test_where_it_fails_the_old_set_stands_whole(job_file, standing):
    before = contents(standing / "garland")
    full = mock.patch("jigs.sets.only.write_extras", side_effect=OSError(28, "No space left on device"))
    with full, pytest.raises(Refused, match="the old set stands"):
        only(changed(job_file), standing, "cut", "tables")
    assert contents(standing / "garland") == before


def test_a_set_without_its_manifest_is_made_whole_first(job_file, standing):
    (standing / "garland" / "manifest.json").unlink()
    with pytest.raises(Refused, match="without --only"):
        only(job_file, standing, "cut")


def test_the_command_takes_several_and_says_what_stays(job_file, standing, capsys):
    changed(job_file)
    assert (
        main(["make", str(job_file), "--into", str(standing), "--only", "tables, listing", "--only", "co"])
        == 0
    )
    told = capsys.readouterr().out
    assert "tables/garland_cut-list.csv" in told
    assert "garland_listing.txt" in told
    assert "print/garland_coupon.stl" in told
    assert "others stay unchanged" in told
    assert "make without --only before you use them" in told
    assert main(["make", str(job_file), "--into", str(standing), "--only", "co", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["files"] == ["print/garland_coupon.stl"]


def test_a_wedge_that_is_not_asked_for_and_now_wrong_is_named_with_its_angle(job_file, standing, capsys):
    """It stays in the folder, and on the sled; of the same job nothing is wrong."""
    assert only(job_file, standing, "coupon").wrong == ()
    asked = ["make", str(job_file), "--into", str(standing), "--only", "sheet-coupon"]
    changed(job_file, "wedge_rings = 18", "wedge_rings = 16")
    assert main([*asked, "--json"]) == 0
    wrong = json.loads(capsys.readouterr().out)["wrong"]
    assert "angle: 10.000° -> 11.250°" in wrong["sled-wedge"]
    assert not {"coupon", "sheet-coupon", "tilt-plate"} & wrong.keys()
    assert main(asked) == 0
    assert f"and now wrong\n  segment-base: {wrong['segment-base']}\n" in capsys.readouterr().out
