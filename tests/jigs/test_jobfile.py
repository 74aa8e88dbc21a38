"""A job file becomes a job, or every fault of it is told at its line."""

from __future__ import annotations

import dataclasses
import subprocess
import sys
from pathlib import Path

import pytest

from jigs.asked.job import TorusJob
from jigs.asked.jobfile import load, parse
from jigs.asked.keys import KEYS, TABLES, keys_of_form
from jigs.words.findings import Refused
from tests.jigs.job_texts import EXAMPLES, ROOT, SOUND, findings, only, with_line, without


def test_there_are_three_examples_and_each_loads():
    assert len(EXAMPLES) >= 3
    for path in EXAMPLES:
        job = load(path)
        assert job.name == path.stem
        if isinstance(job, TorusJob):
            assert job.form.wedge_rings % 2 == job.form.segments % 2 == 0


def test_a_short_job_gets_every_default():
    job = parse(SOUND, "hoop.toml")
    assert (job.name, job.title, job.unit) == ("hoop", "hoop", "mm")
    assert (job.form.major_radius, job.form.tube_radius) == (98, 27)
    assert job.form.turning_allowance == 3
    assert job.gauges.stages == (3, 1, 0.25)
    assert job.workshop.saw.kerf == 3
    assert job.workshop.bolts.centre is None
    assert job.workshop.printer.bed == (220, 220)


@pytest.mark.parametrize(
    "pair",
    [
        ("outer_diameter = 250", "tube_diameter = 54"),
        ("outer_diameter = 250", "hole_diameter = 142"),
        ("hole_diameter = 142", "tube_diameter = 54"),
        ("outer_diameter = 250", "hole_diameter = 142", "tube_diameter = 54"),
    ],
)
def test_any_two_diameters_and_three_that_agree_give_the_same_torus(pair):
    job = parse("[form]\n" + "\n".join(pair) + "\nwedge_rings = 18\nsegments = 8\ncore_opening = 20")
    assert job.form.outer_diameter == pytest.approx(250)
    assert job.form.hole_diameter == pytest.approx(142)
    assert job.form.tube_radius == pytest.approx(27)


def test_a_wider_ring_gets_the_larger_allowance():
    assert parse(SOUND.replace("250", "251")).form.turning_allowance == 4


def test_default_stages_above_the_allowance_are_left_out_but_asked_ones_stay():
    assert parse(with_line("turning_allowance = 2")).gauges.stages == (1, 0.25)
    asked = with_line('turning_allowance = 2\n[gauges]\nstages = [3, "finished"]')
    assert parse(asked).gauges.stages == (3, 0.25)


def test_a_job_in_inches_gets_allowance_and_stages_that_a_rule_in_inches_shows():
    job = parse(
        'unit = "in"\n' + SOUND.replace("250", '"250 mm"').replace("54", '"54 mm"').replace("20", '"20 mm"')
    )
    told = [64 / 25.4 * length for length in (job.form.turning_allowance, *job.gauges.stages[:2])]
    assert told == pytest.approx([8, 8, 3])


def test_inches_and_mm_mix_in_one_file():
    mixed = SOUND.replace("250", "10").replace("54", '"5.4 cm"').replace("20", '"20 mm"')
    job = parse('unit = "in"\n' + mixed)
    assert job.form.outer_diameter == pytest.approx(254)
    assert job.form.tube_radius == pytest.approx(27)
    assert job.form.core_opening == 20


def test_a_bolts_size_without_a_unit_is_in_the_files(tmp_path):
    (tmp_path / "shed.toml").write_text('unit = "in"\n[bolts]\ncentre = "3/8"\n', "utf-8")
    (tmp_path / "hoop.toml").write_text(f"workshop_file = 'shed'\n{SOUND}", "utf-8")
    assert load(tmp_path / "hoop.toml").workshop.bolts.centre == "3/8 in"
    with pytest.raises(Refused):
        parse(with_line('centre = "3/8"', "bolts"))


def test_the_jobs_own_values_win_over_the_workshops(tmp_path):
    (tmp_path / "shed.toml").write_text('unit = "in"\n[saw]\nkerf = "1/8"\nthroat = 12\n', "utf-8")
    job_file = tmp_path / "hoop.toml"
    job_file.write_text('workshop_file = "shed"\n' + with_line("throat = 400", "saw"), "utf-8")
    job = load(job_file)
    assert (job.workshop.saw.kerf, job.workshop.saw.throat) == (pytest.approx(3.175), 400)
    assert job.places["saw.kerf"].file == str(tmp_path / "shed.toml")
    assert (job.places["saw.throat"].file, job.places["saw.throat"].line) == (str(job_file), 9)


def test_a_later_finding_names_the_line_of_its_key_or_else_of_its_table():
    job = parse(SOUND)
    assert job.finding("thin", "too thin", key="form.core_opening").line == 6
    assert job.finding("thin", "too thin", key="form.least_wall").line == 1
    assert job.finding("tall", "too tall", key="saw.blade_height").line == 0


def test_every_fault_of_both_files_is_told_at_once(tmp_path):
    (tmp_path / "shed.toml").write_text("[saw]\nkerf = 'x'\n[form]\nsegments = 8\nwedge_rings = 8\n", "utf-8")
    text = "workshop_file = 'shed'\ncolour = 1\n" + SOUND.replace("18", "15").replace("= 8", "= true")
    found = findings(text, tmp_path / "hoop.toml")
    assert [(Path(each.file).name, each.line, each.key, each.code) for each in found] == [
        ("hoop.toml", 2, "colour", "unknown-key"),
        ("hoop.toml", 6, "form.wedge_rings", "odd-count"),
        ("hoop.toml", 7, "form.segments", "wrong-type"),
        ("shed.toml", 2, "saw.kerf", "bad-length"),
        ("shed.toml", 3, "form", "misplaced-key"),
    ]
    assert all(each.message and each.remedy for each in found)


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("lining = true", "bad-length"),
        ("lining = nan", "bad-length"),
        ("lining = -1", "out-of-range"),
        ("lining = inf", "bad-length"),
        ("lining = '1/0 in'", "bad-length"),
        ("lining = '2 ells'", "bad-length"),
        ("lining = 1979-05-27 07:32:00", "bad-length"),
        ("lining = [1]", "bad-length"),
        ("lining = {mm = 1}", "bad-length"),
        ("least_wall = 0", "out-of-range"),
        ("friction = '0.3'", "wrong-type"),
        ("friction = nan", "wrong-type"),
        ("friction = 7", "out-of-range"),
    ],
)
def test_an_impossible_value_is_refused_at_its_line(line, code):
    finding = only(with_line(line))
    assert (finding.code, finding.line, finding.key) == (code, 7, f"form.{line.split()[0]}")
    assert finding.remedy


@pytest.mark.parametrize("value", ["15", "4", "16.0", "'16'", "1000", "0x" + "f" * 5000])
def test_an_impossible_count_is_refused(value):
    assert only(SOUND.replace("18", value)).key == "form.wedge_rings"


@pytest.mark.parametrize(
    ("text", "key", "code"),
    [
        (with_line("bed = [200]", "printer"), "printer.bed", "wrong-type"),
        (with_line("bed = [200, 1]", "printer"), "printer.bed", "out-of-range"),
        (with_line("centre = 'M9'", "bolts"), "bolts.centre", "not-a-choice"),
        (with_line("stages = [3, 1]", "gauges"), "gauges.stages", "wrong-type"),
        (with_line("stages = [1, 3, 'finished']", "gauges"), "gauges.stages", "bad-order"),
        (with_line("stages = [1, 0.2, 'finished']", "gauges"), "gauges.stages", "bad-order"),
        ("unit = 'ell'\n" + SOUND, "unit", "not-a-choice"),
        ("unit = 3\n" + SOUND, "unit", "wrong-type"),
        ("name = 'a/b'\n" + SOUND, "name", "bad-name"),
        ('title = "a\\nb"\n' + SOUND, "title", "bad-text"),
        ("saw = 3\n" + SOUND, "saw", "wrong-type"),
        (with_line("kerf = 3", "[saw]"), "saw", "wrong-type"),
        (without("core_opening"), "form.core_opening", "missing-key"),
        (without("tube_diameter"), "form.outer_diameter", "missing-key"),
        (with_line("hole_diameter = 150"), "form.hole_diameter", "diameters-disagree"),
        (SOUND.replace("54", "125"), "form.tube_diameter", "no-torus"),
        (SOUND.replace("tube_diameter = 54", "hole_diameter = 250"), "form.hole_diameter", "no-torus"),
    ],
)
def test_a_fault_is_told_once_with_its_key(text, key, code):
    finding = only(text)
    assert (finding.key, finding.code) == (key, code)
    assert finding.line > 0


def test_a_file_name_that_cannot_name_a_folder_asks_for_a_name():
    assert only(SOUND, "my job.toml").key == "name"
    assert parse('name = "hoop"\n' + SOUND, "my job.toml").name == "hoop"


def test_a_key_in_the_wrong_table_is_sent_home():
    assert "belongs in [saw] or in [bandsaw] or in [cutter]" in only(with_line("kerf = 3", "lathe")).remedy
    assert str(only(with_line("unit = 'mm'"))).endswith("It belongs at the top, above the first section")


def test_missing_files_are_named(tmp_path):
    with pytest.raises(Refused, match=r"nothing\.toml: cannot be read"):
        load(tmp_path / "nothing.toml")
    (tmp_path / "shed.toml").touch()
    finding = only("\nworkshop_file = 'shde'\n" + SOUND, tmp_path / "hoop.toml")
    assert (finding.key, finding.line) == ("workshop_file", 2)
    assert '"shed"' in finding.remedy
    far = only("workshop_file = 'nosuch'\n" + SOUND, tmp_path / "hoop.toml")
    assert "shed" not in far.remedy, "only its ending is like it"


def test_only_workshop_files_are_suggested_for_a_workshop_file(tmp_path):
    (tmp_path / "shed2.toml").write_text(SOUND, "utf-8")
    (tmp_path / "shade.toml").write_text("[lathe]\nswing_over_bed = 500\n", "utf-8")
    asked = "\nworkshop_file = 'shed'\n" + SOUND
    assert '"shade"' in only(asked, tmp_path / "hoop.toml").remedy
    (tmp_path / "shade.toml").unlink()
    assert "shed2" not in only(asked, tmp_path / "hoop.toml").remedy


def test_a_folder_where_a_file_should_be_is_refused(tmp_path):
    with pytest.raises(Refused, match="cannot be read"):
        load(tmp_path)


@pytest.mark.parametrize("name", ["x" * 150 + "/" + "y" * 40, "é" * 200, "../../nowhere/shed"])
def test_any_name_of_a_workshop_file_is_looked_for_without_a_crash(name):
    assert only(f"workshop_file = '{name}'\n" + SOUND).code == "no-file"


def test_text_that_is_not_utf8_or_not_toml_is_refused_at_its_line(tmp_path):
    path = tmp_path / "hoop.toml"
    path.write_bytes(b"title = 'a'\n# \xff\n")
    with pytest.raises(Refused, match=r"hoop\.toml:2: is not UTF-8"):
        load(path)
    assert only("a = 1\nb = = 2\n").line == 2
    assert only("a = 1\nb = [\n").line == 2
    assert only(SOUND + "segments = 10\n").line == 7


def test_a_byte_order_mark_and_carriage_returns_are_taken(tmp_path):
    path = tmp_path / "hoop.toml"
    path.write_bytes(b"\xef\xbb\xbf" + SOUND.replace("\n", "\r\n").encode())
    assert load(path).places["form.core_opening"].line == 6


def test_a_file_of_neither_form_is_told_both():
    finding = only("unit = 'mm'\n[saw]\nkerf = 3\n")
    assert (finding.key, finding.code) == ("form", "missing-key")
    assert "[form]" in finding.remedy
    assert "[profile]" in finding.remedy


def test_a_vessels_table_in_a_torus_job_is_misplaced_once():
    finding = only(with_line("heights = 20\nsegments = 12\nspecies = 'ash'", "rings"))
    assert (finding.code, finding.key, finding.line) == ("misplaced-key", "rings", 7)


def test_every_table_of_the_keys_is_built_into_the_job():
    job = parse(SOUND + '\n[layup]\nplies = [["maple", 3], ["walnut", 1]]\n')
    solved = {"outer_diameter", "hole_diameter", "tube_diameter", "major_radius", "tube_radius"}
    for name in {key.table for key in keys_of_form("torus")} - {""}:
        part = getattr(job.workshop if TABLES[name].shared else job, name)
        asked = {key.name for key in KEYS if key.table == name}
        assert asked - solved == {each.name for each in dataclasses.fields(part)} - solved


def test_reading_a_job_imports_nothing_slow():
    code = "import sys, jigs.asked.jobfile, jigs.asked.schema, jigs.asked.starter; print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert "jigs.asked.jobfile" in run.stdout.split()
    assert not {"numpy", "scipy", "ezdxf", "cadquery", "jsonschema"} & set(run.stdout.split())
