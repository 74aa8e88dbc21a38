from __future__ import annotations

import dataclasses
import re
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from jigs.findings import Refused
from jigs.job import TorusJob
from jigs.jobfile import load, parse
from jigs.keys import KEYS, TABLES, keys_of_form
from jigs.toml_source import key_lines

CONFIGS = Path(__file__).parents[2] / "configs"
ROOT = CONFIGS.parent
EXAMPLES = sorted(path for path in CONFIGS.glob("*.toml") if path.name != "shed.toml")

SOUND = """\
[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 16
segments = 8
core_opening = 20
"""


def findings(text, path="job.toml"):
    with pytest.raises(Refused) as caught:
        parse(text, path)
    return caught.value.findings


def only(text, path="job.toml"):
    (finding,) = findings(text, path)
    return finding


def with_line(line, table="form"):
    return SOUND + (line if table == "form" else f"[{table}]\n{line}") + "\n"


def without(key):
    return "".join(line for line in SOUND.splitlines(keepends=True) if not line.startswith(key))


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
    job = parse("[form]\n" + "\n".join(pair) + "\nwedge_rings = 16\nsegments = 8\ncore_opening = 20")
    assert job.form.outer_diameter == pytest.approx(250)
    assert job.form.hole_diameter == pytest.approx(142)
    assert job.form.tube_radius == pytest.approx(27)


def test_a_wider_ring_gets_the_larger_allowance():
    assert parse(SOUND.replace("250", "251")).form.turning_allowance == 4


def test_default_stages_above_the_allowance_are_left_out_but_asked_ones_stay():
    assert parse(with_line("turning_allowance = 2")).gauges.stages == (1, 0.25)
    asked = with_line('turning_allowance = 2\n[gauges]\nstages = [3, "finished"]')
    assert parse(asked).gauges.stages == (3, 0.25)


def test_inches_and_mm_mix_in_one_file():
    mixed = SOUND.replace("250", "10").replace("54", '"5.4 cm"').replace("20", '"20 mm"')
    job = parse('unit = "in"\n' + mixed)
    assert job.form.outer_diameter == pytest.approx(254)
    assert job.form.tube_radius == pytest.approx(27)
    assert job.form.core_opening == 20


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
    text = "workshop_file = 'shed'\ncolour = 1\n" + SOUND.replace("16", "15").replace("= 8", "= true")
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
    assert only(SOUND.replace("16", value)).key == "form.wedge_rings"


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
    assert "at the top" in only(with_line("unit = 'mm'")).remedy


def test_missing_files_are_named(tmp_path):
    with pytest.raises(Refused, match=r"nothing\.toml: cannot be read"):
        load(tmp_path / "nothing.toml")
    (tmp_path / "shed.toml").touch()
    finding = only("\nworkshop_file = 'shde'\n" + SOUND, tmp_path / "hoop.toml")
    assert (finding.key, finding.line) == ("workshop_file", 2)
    assert '"shed.toml"' in finding.remedy


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


def test_lines_are_found_in_every_form_that_toml_allows():
    text = '''# a = 1
a = """
[b]
c = 1"""
"quoted key" = 1
saw.kerf = 3
form = { core = { x = 1, y = ["]", '}', 2] }, z = 2 }
list = [
  1, # ]
  { deep = 1 },
  [2, [3]],
]
[ lathe . "swing" ] # heading
d = 1979-05-27 07:32:00
e = \'\'\'
f = 1\'\'\'
[[rows]]
g = -1.5e+3
"e=f]" = "\\""
h = "#"
'''
    assert key_lines(text) == {
        "a": 2, '"quoted key"': 5, "saw": 6, "saw.kerf": 6, "form": 7, "form.core": 7, "form.core.x": 7,
        "form.core.y": 7, "form.z": 7, "list": 8, "list.deep": 10, "lathe": 13, "lathe.swing": 13,
        "lathe.swing.d": 14, "lathe.swing.e": 15, "rows": 17, "rows.g": 18, 'rows."e=f]"': 19, "rows.h": 20,
    }  # fmt: skip


def mutations(word):
    """Words one slip of the finger away."""
    at = st.integers(0, len(word) - 1)
    letter = st.sampled_from("abcdefghijklmnopqrstuvwxyz_")
    return st.one_of(
        at.map(lambda i: word[:i] + word[i + 1 :]),
        at.map(lambda i: word[:i] + word[i : i + 2][::-1] + word[i + 2 :]),
        st.tuples(at, letter).map(lambda pair: word[: pair[0]] + pair[1] + word[pair[0] + 1 :]),
        st.tuples(at, letter).map(lambda pair: word[: pair[0]] + pair[1] + word[pair[0] :]),
    )


@given(st.data())
def test_a_misspelt_key_is_reported_at_its_line_with_the_right_one(data):
    key = data.draw(st.sampled_from(KEYS))
    name = data.draw(mutations(key.name))
    assume(name and name not in {each.name for each in KEYS} | TABLES.keys())
    blank = "\n" * data.draw(st.integers(0, 3))
    table = f"[{key.table}]\n" if key.table else ""
    text = f"{blank}{table}{name} = 1\n"
    (found,) = [each for each in findings(text) if each.code == "unknown-key"]
    assert found.line == text[: text.index(f"{name} = ")].count("\n") + 1
    assert found.remedy == f"Did you mean {key.path}?"


odd_values = ["1", "-1", "nan", "inf", "'x'", "true", "250", "'1/0 in'", "1979-05-27", "''", "'12 5/8 in'"]
values = st.recursive(
    st.sampled_from(odd_values)
    | st.integers().map(str)
    | st.floats(allow_nan=False, allow_infinity=False).map(repr),
    lambda inner: (
        st.lists(inner, max_size=3).map(lambda items: f"[{', '.join(items)}]")
        | inner.map(lambda value: f"{{a = {value}}}")
    ),
    max_leaves=4,
)
names = st.sampled_from([*(key.path for key in KEYS), *TABLES]) | st.text("ab.\"' ", max_size=6)
lines = st.tuples(names, values).map(" = ".join) | names.map(lambda name: f"[{name}]")
garbage = st.one_of(st.text(), st.text("[]{}=\"'.,#\\\n ab1"), st.lists(lines, max_size=8).map("\n".join))


@settings(max_examples=300)
@given(garbage)
def test_garbage_is_refused_and_never_crashes(text):
    for faulty in (text, SOUND + text, text + "\n" + SOUND):
        job, found = job_or_findings(faulty)
        assert not isinstance(job, TorusJob) or job.form.major_radius > job.form.tube_radius > 0
        assert all(finding.message and finding.remedy for finding in found)


def job_or_findings(text):
    try:
        return parse(text), ()
    except Refused as refused:
        return None, refused.findings


hostile = ["a = " + "[" * 5000 + "]" * 5000, "a = " + "9" * 5000, "a = '\x00'", "\ufeff\ufeff"]


@pytest.mark.parametrize("text", hostile, ids=["nested", "digits", "null", "marks"])
def test_hostile_toml_is_refused(text):
    with pytest.raises(Refused):
        parse(text)


@settings(max_examples=50)
@given(st.binary(max_size=60))
def test_random_bytes_are_refused(tmp_path_factory, raw):
    path = tmp_path_factory.getbasetemp() / "noise.toml"
    path.write_bytes(raw)
    with pytest.raises(Refused):
        load(path)


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
    code = "import sys, jigs.jobfile, jigs.schema, jigs.starter; print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert "jigs.jobfile" in run.stdout.split()
    assert not {"numpy", "scipy", "ezdxf", "cadquery", "jsonschema"} & set(run.stdout.split())


EXAMPLE_LINES = [
    ("form", "core_opening", "", "20"),
    (
        "stock",
        "boards",
        "boards = 3",
        'species = "ash", thickness = 22, width = 150, length = 1200, count = 2',
    ),
    ("layup", "plies", "plies = 3", '["maple", 3] or ["black"'),
    ("printer", "bed", "bed = 3", "[220, 220]"),
    ("gauges", "stages", "stages = 3", '[3, 1, "finished"]'),
]


@pytest.mark.parametrize(("table", "key", "line", "example"), EXAMPLE_LINES)
def test_an_example_of_a_length_is_right_as_it_stands_in_either_unit(table, key, line, example):
    """Plain numbers in a job in mm; in a job in inches each names its unit, so that nobody types 20 inches."""
    text = without("core_opening") if table == "form" else with_line(line, table)
    told = {finding.key: finding.remedy for finding in findings(text)}
    assert example in told[f"{table}.{key}"]
    told = {finding.key: finding.remedy for finding in findings('unit = "in"\n' + text)}
    named = re.sub(r"(?<= |\[)(?<!count = )(\d+)\b", r'"\1 mm"', example) if table != "form" else '"20 mm"'
    assert named in told[f"{table}.{key}"]


def test_an_example_of_a_count_is_a_plain_number_in_either_unit():
    for unit in ("mm", "in"):
        told = {
            finding.key: finding.remedy for finding in findings(f'unit = "{unit}"\n' + without("segments"))
        }
        assert "such as 8:" in told["form.segments"]


def test_a_plain_number_of_inches_past_the_keys_limit_is_asked_whether_it_is_mm():
    told = {finding.key: finding.remedy for finding in findings('unit = "in"\n' + SOUND)}
    assert told["form.outer_diameter"] == 'Give 1.181 in to 118.110 in, or did you mean mm: "250 mm"?'
    assert told["form.tube_diameter"] == 'Give 0.197 in to 39.370 in, or did you mean mm: "54 mm"?'
    assert "form.core_opening" not in told  # 20 inches are within the key's limit
    meant = 'unit = "in"\n' + SOUND.replace("= 250", '= "250 mm"').replace("= 54", '= "54 mm"')
    assert parse(meant.replace("= 20", '= "20 mm"')).form.major_radius == pytest.approx(98)


@pytest.mark.parametrize("line", ['lining = "2 in"', "lining = -1", "lining = 250"])
def test_what_states_its_unit_or_would_not_do_as_mm_is_not_asked_whether_it_is_mm(line):
    told = {finding.key: finding.remedy for finding in findings('unit = "in"\n' + with_line(line))}
    assert told["form.lining"] == "Give 0.000 in to 0.394 in"


def test_a_number_of_mm_past_the_keys_limit_is_not_asked_whether_it_is_mm():
    assert only(with_line("lining = 250")).remedy == "Give 0.0 mm to 10.0 mm"
