from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.asked.jobfile import load, parse
from jigs.asked.keys import KEYS
from jigs.asked.questions import QUESTIONS, answer, example_of, options, plain
from jigs.asked.starter import starter
from jigs.cli import main
from jigs.words.findings import Refused
from jigs.words.lengths import parse_length, show_length
from tests.metric import metric

ASKED = {question.option: question for question in QUESTIONS["vessel"]}


@pytest.mark.parametrize(
    ("text", "pairs"),
    [
        ("0 70, 40 110, 90 80", [[0, 70], [40, 110], [90, 80]]),
        ("0 70,40 110;90 80,", [[0, 70], [40, 110], [90, 80]]),
        ("0 2 3/4, 1 1/2 4 1/4", [[0, "2 3/4"], ["1 1/2", "4 1/4"]]),
        ("1/2 3/4, 1-1/2 4", [["1/2", "3/4"], ["1-1/2", 4]]),
        ("0 3/4", [[0, "3/4"]]),
        ("0mm 70 mm, 1 1/2 in 4.25 in", [["0mm", "70 mm"], ["1 1/2 in", "4.25 in"]]),
        ('0 2 3/4", .5 3', [[0, '2 3/4"'], [0.5, 3]]),
    ],
)
def test_stations_are_read_as_pairs(text, pairs):
    assert answer(ASKED["stations"], text) == pairs


@pytest.mark.parametrize(
    "text", ["", "0", "0 70 40", "0, 70", "0 70, 40", "a b", "0 70 ells", "0 -70", "1 2 3 4"]
)
def test_what_is_no_pair_is_refused_with_an_example(text):
    with pytest.raises(Refused) as caught:
        answer(ASKED["stations"], text)
    (finding,) = caught.value.findings
    assert (finding.key, finding.code) == ("profile.stations", "bad-stations")
    assert "0 70, 40 110, 90 80" in finding.remedy


@given(
    st.lists(st.tuples(st.integers(0, 2000), st.integers(1, 2000)), min_size=1, max_size=5),
    st.sampled_from(["mm", "in"]),
)
def test_any_stations_as_this_tool_writes_lengths_are_read_back(sizes, unit):
    """In 64ths of an inch or in mm, with their units."""
    mm = [[size * (25.4 / 64 if unit == "in" else 1) for size in pair] for pair in sizes]
    text = ", ".join(f"{show_length(height, unit)} {show_length(across, unit)}" for height, across in mm)
    read = answer(ASKED["stations"], text)
    assert [[parse_length(length, "mm") for length in pair] for pair in read] == [
        pytest.approx(pair) for pair in mm
    ]


def test_one_value_for_all_rings_or_a_list_for_each():
    assert answer(ASKED["segments"], "12") == 12
    assert answer(ASKED["segments"], "8, 12,16") == [8, 12, 16]
    assert answer(ASKED["species"], "maple, walnut") == ["maple", "walnut"]
    assert answer(ASKED["ring-height"], "3/4, 1") == ["3/4", 1]
    assert answer(ASKED["wall"], "6 mm") == "6 mm"


def test_numbers_are_numbers_and_the_rest_is_text():
    assert [plain(text) for text in ("12", "1.5", "12 5/8 in")] == [12, 1.5, "12 5/8 in"]


def test_every_question_asks_for_a_key_and_options_serve_each_form_once():
    for places in options().values():
        forms = [form for form, _ in places]
        assert len(set(forms)) == len(forms)
        assert {question.key for _, question in places} <= {key.path for key in KEYS}


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("form", ["torus", "vessel"])
def test_the_examples_make_a_job(form, unit):
    answers = {question.key: answer(question, example_of(question, unit)) for question in QUESTIONS[form]}
    job = parse(starter({**answers, "unit": unit}, form))
    assert job.unit == unit
    if form == "vessel":
        assert 80 < job.outside.profile.top < 100


def test_new_asks_for_unit_saw_sheet_and_wood_and_reads_fractions(tmp_path, monkeypatch):
    """Enter leaves out what has a common default."""
    said = iter(["in", "12 5/8", "2 5/8", "14", "8", "cherry", "3 1/8", ""])
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda prompt: next(said))
    file = tmp_path / "hoop.toml"
    assert main(["new", str(file)]) == 0
    job = load(file)
    assert job.unit == "in"
    assert job.form.outer_diameter == pytest.approx(12.625 * 25.4)
    assert job.form.species == (("cherry",),)
    assert job.workshop.saw.blade_height == pytest.approx(3.125 * 25.4)
    assert "boards.sheet" not in job.places


@pytest.mark.parametrize(
    ("bad", "why", "place"),
    [
        ("abc", '"abc" is not a length', 1),
        ("3 m", '"m" is not a known unit', 1),
        ("100000", "out of range", 1),
        ("40", 'Did you mean "40 in"?', 1),
        ("200", "the tube leaves no hole in 250.0 mm across. Make it less than 125.0 mm", 2),
        ("7", "7 is odd. Give 6 or 8", 3),
        ("ten", '"ten" is not a whole number', 4),
        ("2.5 ells", "is not a known unit. Use mm, cm or in", 6),
    ],
)
def test_an_answer_that_cannot_be_is_asked_again_at_once_with_the_reason(
    bad, why, place, tmp_path, monkeypatch, capsys
):
    good = ["mm", "250", "54", "14", "8", "ash", "80", "12"]
    said, prompts = iter([*good[:place], bad, *good[place:]]), list[str]()
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda prompt: prompts.append(prompt) or next(said))
    file = tmp_path / "hoop.toml"
    assert main(["new", str(file)]) == 0
    assert prompts[place] == prompts[place + 1]
    told = capsys.readouterr().err
    assert why in told
    assert "missing" not in told
    assert load(file).form.outer_diameter == 250


def test_a_number_out_of_range_is_asked_about_once(tmp_path, monkeypatch, capsys):
    said = iter(["mm", "17", "250", "54", "14", "8", "", "", ""])
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda prompt: next(said))
    assert main(["new", str(tmp_path / "hoop.toml")]) == 0
    told = capsys.readouterr().err
    assert told.count("17 in") == 1
    assert 'out of range. Give 30.0 mm to 3000.0 mm, or did you mean "17 in"?' in told


def test_a_unit_that_is_none_is_told(tmp_path, monkeypatch, capsys):
    said = iter(["yards", "inches", "10", "2", "14", "8", "", "", ""])
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda prompt: next(said))
    assert main(["new", str(tmp_path / "hoop.toml")]) == 0
    assert "yards is neither mm nor in" in capsys.readouterr().err
    assert 'unit = "in"' in (tmp_path / "hoop.toml").read_text("utf-8")


def test_stations_that_cannot_be_are_asked_again(tmp_path, monkeypatch, capsys):
    said = iter(["mm", "0 70, 40", "0 70, 40 110, 90 80", "6", "20", "12", "ash", "", ""])
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda prompt: next(said))
    assert main(["new", str(tmp_path / "vase.toml"), "--form", "vessel"]) == 0
    assert '"40" is not a height and a diameter' in capsys.readouterr().err


def test_new_asks_whether_a_number_is_in_the_other_unit(tmp_path, capsys):
    sizes = ["--outer-diameter", "10", "--tube-diameter", "2.125", "--wedge-rings", "18", "--segments", "8"]
    assert main(["new", str(tmp_path / "hoop.toml"), "--unit", "mm", *sizes]) == 1
    assert 'did you mean "10 in"?' in capsys.readouterr().err
    shop = ["--outer-diameter", "250", "--tube-diameter", "54", *sizes[4:], "--sheet", "0.5"]
    assert main(["new", str(tmp_path / "hoop.toml"), "--unit", "mm", *shop]) == 1
    assert 'did you mean "0.5 in"?' in capsys.readouterr().err


def test_examples_in_an_inch_file_are_in_inches():
    asked = [example_of(question, "in") for form in QUESTIONS for question in QUESTIONS[form]]
    assert len(asked) > 10
    assert not metric(asked)


def test_the_help_says_once_what_both_forms_are_asked_alike(capsys):
    with pytest.raises(SystemExit):
        main(["new", "--help"])
    told = " ".join(capsys.readouterr().out.split())
    assert told.count("Thickness of the sheet for the jigs") == 1
    assert "such as 12 mm (torus, vessel)" in told
