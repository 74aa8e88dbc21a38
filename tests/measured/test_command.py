"""The command: a blank file first, then what readings ask for, then the rack that they have made wrong."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from jigs.asked.job import Job
from jigs.asked.jobfile import load
from jigs.asked.toml_source import readings_file
from jigs.cli import main
from jigs.dryfit.torus import dry_fit
from jigs.parts.codes import code_of
from jigs.sets.make import make
from jigs.sets.old_set import OldSet
from tests.examples import plan_of_example
from tests.measured.garland import with_readings
from tests.unset import jigs_alone, jigs_made, old_sleds_untried
from tests.work.works import work_of

Told = pytest.CaptureFixture[str]
SetOf = Callable[[str], tuple[Job, Path]]
SANDED = "[sanding.first-side]\ntube = 53.6\nouter = 249.6\nhole = 142.4"


def test_a_blank_file_is_written_once(tmp_path: Path, capsys: Told):
    tmp_path = tmp_path / "my jobs"
    tmp_path.mkdir()
    job = with_readings(tmp_path, "")
    file = tmp_path / "garland.readings.toml"
    assert main(["measured", str(job), "--blank"]) == 1
    assert "is there already" in capsys.readouterr().err
    file.unlink()
    assert main(["measured", str(job), "--blank"]) == 0
    assert "[wedge_rings.trial]" in file.read_text("utf-8")
    assert f'then: jigs measured "{job}"' in capsys.readouterr().out, (
        "as it is typed where a folder has a space"
    )
    assert file not in load(job).sources, "a file of blanks makes no set out of date"
    assert main(["measured", str(job), "--into", str(tmp_path)]) == 0
    assert f"no readings yet: write them into {file}" in capsys.readouterr().out
    with_readings(tmp_path, "[rings.flatten]\nthickness = 99")
    assert main(["measured", str(job), "--into", str(tmp_path)]) == 0
    assert "the check at its step says how" in capsys.readouterr().out, "no jig answers it, and it is far off"
    with_readings(tmp_path, "[rings.flatten]\nthickness = 99\n[segments.trial]\nring.light-at-rim = 0.4")
    assert main(["measured", str(job), "--into", str(tmp_path)]) == 0
    told = capsys.readouterr().out
    assert "segment-angle: correct it" in told
    assert "Nothing follows from thickness in [rings.flatten]." in told, "another reading has an answer"
    with_readings(tmp_path, '[shop.table-saw]\n"saw.throat" = 650')
    assert main(["measured", str(job), "--into", str(tmp_path)]) == 0
    assert "throat in [saw]: read\n" in capsys.readouterr().out, "jigs may follow it, so not: nothing to do"


def test_a_wedge_that_is_wrong_now_is_made_right_and_the_set_fits(tmp_path: Path, capsys: Told):
    """The sled's own dry fit takes the saw to err as it was measured."""
    job, out = with_readings(tmp_path, ""), tmp_path / "out"
    jigs_made(load(job), out, lettered=True)
    with_readings(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0.42")
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert set(told["wrong"]) == {"sled-wedge", "end-wedge"}
    assert [(one["id"], one["verdict"]) for one in told["advice"]] == [("wedge-angle.wedge", "correct")]
    with jigs_alone():
        made = make(load(job), out)
    assert set(made.remade) == {"sled-wedge", "end-wedge"}
    assert main(["measured", str(job), "--into", str(out)]) == 0
    told = capsys.readouterr().out
    assert "Light at the rim: put 0.12 mm of paper under the wedge's thick end." in told
    assert "no jig in the rack is wrong" in told
    assert not dry_fit(load(job), made.folder, sheets=False).misfits


def test_a_wedge_that_is_right_with_its_paper_is_not_called_wrong(tmp_path: Path, capsys: Told):
    """One drawn anew without the paper does the same; with it, it would be out the other way."""
    job, out = with_readings(tmp_path, ""), tmp_path / "out"
    jigs_made(load(job), out, lettered=True)
    with_readings(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0\npaper = 0.12")
    assert main(["measured", str(job), "--into", str(out)]) == 0
    told = capsys.readouterr().out
    assert "Leave the wedge and the paper under it as they are" in told
    assert "A new wedge of 10.096°, no paper under it, does the same" in told
    assert "no jig in the rack is wrong" in told
    with_readings(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0.4\npaper = 0.12")
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    assert set(json.loads(capsys.readouterr().out)["wrong"]) == {"sled-wedge", "end-wedge"}


def test_new_readings_over_old_ones_say_which_wedge_their_rings_were_cut_on(tmp_path: Path, capsys: Told):
    """Rings that fill the corner prove the wedge in the rack; taken for rings of the first wedge they would undo it."""
    job, out = with_readings(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0.42"), tmp_path / "out"
    jigs_made(load(job), out, lettered=True)
    with_readings(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0")
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert not told["wrong"]
    assert [(one["id"], one["verdict"]) for one in told["advice"]] == [("wedge-angle.which", "unclear")]
    for more in ([], ["--only", "SW"]):
        assert main(["make", str(job), "--into", str(out), *more]) == 1
        assert "or wedge-angle = 10.000" in capsys.readouterr().err
    stated = told["advice"][0]["says"][0].partition("wedge-angle = ")[2].split()[0]
    with_readings(tmp_path, f"[wedge_rings.trial]\ngap-at-rim = 0\nwedge-angle = {stated}")
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    assert not json.loads(capsys.readouterr().out)["wrong"]
    with_readings(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0.2\nwedge-angle = 10.1")
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [one["id"] for one in told["advice"]] == ["wedge-angle.wedge", "wedge-angle.which"]
    assert f"wedge-angle = {stated}" in told["advice"][1]["says"][0]
    assert told["wrong"]
    assert main(["make", str(job), "--into", str(out), "--only", "SW"]) == 0
    assert f"write wedge-angle = {stated} and make the set again" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("readings", "wrong"),
    [
        (
            "[wedge_rings.trial]\ngap-at-rim = -0.1",
            "cannot be so small. Write what you measured; for no light write 0",
        ),
        (
            "[wedge_rings.trial]\nthick-edge = 0\nchord = 170\ngap-at-rim = 0.4",
            "cannot be so small. Write what you measured\n",
        ),
        ('[coupon.read]\n"printer.play" = -0.1', "is out of range"),
        ('[coupon.read]\n"printer.play" = 3', "is out of range"),
        ("[coupon.read]\noutside-x = 3", "is no box"),
        ('[shop.sheets]\n"boards.sheet" = "thick"', "is not a length"),
        ("[arc.foot]\nwidth = 3", "is no box"),
        ("[first_mounting.flat]\noffset = -3\nacross = 256\nhole = 135.8\nheight = 59", "cannot be so small"),
        ("[wedge_rings.trial]\npaper = -0.1\ngap-at-rim = 0.4", "cannot be so small"),
        ('[wedge_rings.trial]\ngap-at-rim = "none"', "is no reading"),
        ("[glued]\nthick = -45\nrings = 9", "is no size of a glued ring"),
        ("[glued]\nacross-flats = [61, 0]\nrings = 9", "is no size of a glued ring"),
        ("[glued]\ntogether = -180\nrings = 9", "is no size of a glued ring"),
        ("[glued]\ntogether = 360\nrings = 9", "is no size of a glued ring"),
        ("[glued]\nacross-flats = 60", "says nothing without rings"),
    ],
)
def test_what_cannot_be_a_reading_is_refused_with_its_line(
    tmp_path: Path, capsys: Told, readings: str, wrong: str
):
    assert main(["measured", str(with_readings(tmp_path, readings)), "--into", str(tmp_path)]) == 1
    told = capsys.readouterr().err
    assert wrong in told
    assert "garland.readings.toml:2" in told


def test_an_inch_job_is_answered_in_inches(tmp_path: Path, capsys: Told):
    job = with_readings(tmp_path, "[wedge_rings.trial]\ngap-at-hole = 0.016", "quoit")
    assert main(["measured", str(job), "--into", str(tmp_path)]) == 0
    told = capsys.readouterr().out
    assert " in " in told
    assert " mm" not in told


def test_a_smaller_form_of_an_inch_job_is_offered_in_inches(tmp_path: Path, capsys: Told):
    """Its rim is nearly half an inch smaller than planned; the lines are those that were tried."""
    job = with_readings(
        tmp_path, "[first_mounting.flat]\nacross = 7.30\nhole = 4.00\nheight = 1.943", "quoit"
    )
    assert main(["measured", str(job), "--into", str(tmp_path)]) == 0
    told = capsys.readouterr().out
    assert 'In [form] write outer_diameter = "7.277 in", tube_diameter = "1.402 in"' in told
    assert " mm" not in told


def test_once_the_first_side_is_read_only_what_a_later_step_uses_is_wrong(tmp_path: Path, capsys: Told):
    job, out = with_readings(tmp_path, ""), tmp_path / "out"
    jigs_made(load(job), out, lettered=True)
    with_readings(tmp_path, "[sanding.first-side]\ntube = 54.6\nouter = 251.0\nhole = 141.8")
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    wrong = set(json.loads(capsys.readouterr().out)["wrong"])
    steps = work_of("garland").operations
    sanded = [step.id for step in steps].index("sanding.first-side")
    later = {use.part for step in steps[sanded:] for use in step.jigs}
    assert wrong <= later
    assert {"channel-section", "retainer-gauge", "standing-gauge-c-inner", "brace-pad"} <= wrong
    with jigs_alone(), old_sleds_untried():
        made = make(load(job), out)
    assert {part for part, _ in made.wrong} == wrong, "a make says the same"
    assert {"width-fork", "outer-gauge-finished", "standing-gauge-a-outer"} <= set(made.done)


def test_a_key_that_a_vessel_does_not_look_at_is_not_called_used(tmp_path: Path, capsys: Told):
    read = '[shop.table-saw]\n"saw.table_front" = 310\n"saw.kerf" = 3.1'
    job = with_readings(tmp_path, read, "sorrel")
    assert main(["measured", str(job), "--into", str(tmp_path)]) == 0
    told = capsys.readouterr().out
    assert "Nothing of this job asks for table_front in [saw]." in told
    assert "kerf in [saw]: read" in told
    assert "for table_front in [saw]: jigs" not in told


def test_a_station_to_be_measured_again_comes_before_what_else_would_do(tmp_path: Path, capsys: Told):
    job = with_readings(tmp_path, "[outside.finished-stations]\nacross.station-4 = 137.5", "sorrel")
    assert main(["measured", str(job), "--into", str(tmp_path)]) == 1
    told = capsys.readouterr().err
    assert "Measure it again before you change anything" in told
    assert "If you read the same again, this would do; tried, and the job passes:\n\n  [wall]" in told
    assert "What would do" not in told


def test_what_was_cut_for_another_kerf_is_measured_before_it_is_used(tmp_path: Path, capsys: Told):
    job, out = with_readings(tmp_path, ""), tmp_path / "out"
    jigs_made(load(job), out)
    with_readings(tmp_path, '[shop.printer-and-cutter]\n"cutter.kerf" = 0.3')
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    wrong = json.loads(capsys.readouterr().out)["wrong"]
    assert wrong["width-fork"].startswith("it is drawn for a cut 0.30 mm narrower than yours is now")
    assert {"tilt-plate", "sheet-coupon"} <= wrong.keys()
    assert "outer-gauge-finished" not in wrong, "printed"
    assert main(["measured", str(job), "--into", str(out)]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert told.count("it is drawn for a cut 0.30 mm narrower") == 1, "many jigs share a reason"
    assert all(code_of(name) in told for name in wrong)
    joined = "\n[first_mounting.flat]\nacross = 259.0\nhole = 132.9\nheight = 61.0"
    with_readings(tmp_path, f'[shop.printer-and-cutter]\n"cutter.kerf" = 0.3{joined}')
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    wrong = json.loads(capsys.readouterr().out)["wrong"]
    assert {"width-fork", "sheet-coupon"} <= wrong.keys()
    assert wrong.keys().isdisjoint({"tilt-plate", "sled-base", "sled-gusset", "half-check"}), (
        "the blank is closed"
    )


@pytest.mark.parametrize(
    ("made", "wished"), [("wedge_rings = 18", "wedge_rings = 16"), ("segments = 10", "segments = 8")]
)
def test_glued_rings_are_not_made_for_another_count(tmp_path: Path, capsys: Told, made: str, wished: str):
    """The blank lay on its board already, and 16 rings were planned in place of the 18 in it without a word."""
    job, out = with_readings(tmp_path, SANDED), tmp_path / "out"
    jigs_made(load(job), out, lettered=True)
    job.write_text(job.read_text("utf-8").replace(made, wished), "utf-8")
    assert main(["measured", str(job), "--into", str(out), "--json"]) == 0
    assert "glued.others" in [one["id"] for one in json.loads(capsys.readouterr().out)["advice"]]
    for more in ([], ["--only", "HS"]):
        assert main(["make", str(job), "--into", str(out), *more]) == 1
        assert f"Write {made};" in capsys.readouterr().err
    readings_file(job).unlink()
    with jigs_alone():
        assert make(load(job), out).remade, "nothing says that any ring is glued"


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit"])
def test_an_old_set_knows_its_rings(name: str, set_of: SetOf):
    assert OldSet(set_of(name)[1]).rings == plan_of_example(name).blank.wedge_rings
