"""Any text is read or refused: lines found, misspelt keys, garbage, hostile files."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from jigs.asked.job import TorusJob
from jigs.asked.jobfile import load, parse
from jigs.asked.keys import KEYS, TABLES
from jigs.asked.toml_source import key_lines
from jigs.words.findings import Refused
from tests.jigs.job_texts import SOUND, findings, only


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


@settings(max_examples=100)
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


@given(st.binary(max_size=60))
def test_random_bytes_are_refused(tmp_path_factory, raw):
    path = tmp_path_factory.getbasetemp() / "noise.toml"
    path.write_bytes(raw)
    with pytest.raises(Refused):
        load(path)


@pytest.mark.parametrize(
    ("line", "value", "cure"),
    [
        ("tube_diameter = 2 3/4  # across", "2 3/4", '"2 3/4"'),
        ("tube_diameter = 54 mm", "54 mm", '"54 mm"'),
        ('tube_diameter = 2 1/8"', '2 1/8"', '"2 1/8 in"'),
        ("tube_diameter = 54,5", "54,5", "54.5"),
        ("species = red oak", "red oak", '"red oak"'),
        ('"saw.kerf" = 2,4', "2,4", "2.4"),
    ],
)
def test_a_value_without_its_quotes_is_answered_by_the_line_that_is_meant(
    line: str, value: str, cure: str
) -> None:
    found = only(f"[form]\n{line}\n")
    key, _, _ = line.partition(" ")
    assert (found.line, found.remedy) == (2, f"Write {key} = {cure}")
    assert found.message.startswith(f"{value} has ")
    assert key.strip('"') in tomllib.loads(f"{key} = {cure}")


@pytest.mark.parametrize(
    ("text", "line", "says", "cure"),
    [
        ("segments = 8\nsegments = 10", 3, "a second time", "one of its two lines"),
        ("segments = 8\n[saw]\nkerf = 3\n[form]", 5, "a second time", "under the first"),
        ('species = "ash\nsegments = 8', 2, "closing quote", "End it"),
        ("species = “ash”  # pale", 2, "curly quotes", 'straight ones: "'),
        ("segments: 8  # even", 2, "a colon", "Write segments = 8"),
        ('species = "woods\\ash"', 2, "has a \\", "Write /"),
        ("species = ['ash'\n[saw]", 3, "not closed", "[1, 2, 3]"),
        ("segments = 8 of them", 2, "cannot be read", "Fix this line"),
    ],
)
def test_a_slip_of_the_pen_is_told_without_the_words_of_a_parser(
    text: str, line: int, says: str, cure: str
) -> None:
    found = only(f"[form]\n{text}\n")
    assert found.line == line
    assert says in found.message
    assert cure in found.remedy


@pytest.mark.parametrize(
    ("key", "word", "wants"),
    [
        ("form.segments", "ten", "number"),
        ("form.segments", "12 mm", "number"),
        ("form.friction", "low", "number"),
        ("wall.through", "yes", "true or false"),
    ],
)
def test_a_word_where_quotes_would_not_do_is_asked_at_once_for_what_its_key_wants(
    key: str, word: str, wants: str
) -> None:
    table, _, name = key.partition(".")
    found = only(f"[saw]\nkerf = 3\n\n[{table}]  # here\n{name} = {word}  # so many\n")
    assert (found.key, found.line) == (key, 5)
    assert word in found.message
    assert wants in found.remedy


@pytest.mark.parametrize("woods", ["'ash, walnut'", '\'["ash", "walnut"\'', "['ash; oak']"])
def test_two_woods_in_one_name_are_refused(woods: str) -> None:
    found = only(SOUND.replace("[form]", f"[form]\nspecies = {woods}"))
    assert (found.key, found.line) == ("form.species", SOUND[: SOUND.index("[form]")].count("\n") + 2)
    assert "is not one name" in found.message
