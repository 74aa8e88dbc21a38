from __future__ import annotations

import re
import tomllib

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.findings import Refused
from jigs.jobfile import parse
from jigs.keys import DIAMETERS, KEYS
from jigs.schema import json_schema
from jigs.starter import starter, suggested_core

ANSWERS = {
    "form.outer_diameter": 250,
    "form.tube_diameter": 54,
    "form.wedge_rings": 16,
    "form.segments": 8,
}


def uncommented(text):
    """Take the "# " away from every key that only shows what holds without it."""
    return re.sub(r"^# (?!workshop_file)([a-z_]+ = )", r"\1", text, flags=re.MULTILINE)


def test_a_starter_is_a_valid_job_of_what_was_answered():
    text = starter(ANSWERS)
    job = parse(text, "hoop.toml")
    assert (job.form.outer_diameter, job.form.wedge_rings) == (250, 16)
    jsonschema.Draft7Validator(json_schema()).validate(tomllib.loads(text))


def test_every_key_stands_in_it_with_its_meaning():
    text = starter(ANSWERS)
    for key in KEYS:
        assert re.search(rf"^(# )?{key.name}\b", text, re.MULTILINE), key.path
        assert key.help in text or key.path in DIAMETERS


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_commented_keys_say_what_holds_without_them(unit):
    answers = {**ANSWERS, "unit": unit, "form.outer_diameter": "250 mm", "form.tube_diameter": "54 mm"}
    plain, spelt_out = (parse(change(starter(answers)), "hoop.toml") for change in (str, uncommented))
    assert spelt_out.workshop.saw == plain.workshop.saw
    assert spelt_out.workshop.printer == plain.workshop.printer
    assert spelt_out.gauges.stages == plain.gauges.stages
    assert spelt_out.form.turning_allowance == plain.form.turning_allowance
    assert spelt_out.title == "Hoop"


def test_answers_may_be_text_with_quotes_and_lists():
    job = parse(starter({**ANSWERS, "title": 'A "round"\\', "printer.bed": [180, "7 in"], "unit": "mm"}))
    assert job.title == 'A "round"\\'
    assert job.workshop.printer.bed == (180, pytest.approx(177.8))


def test_a_workshop_file_is_named_without_being_looked_for():
    assert 'workshop_file = "shed"' in starter({**ANSWERS, "workshop_file": "shed"})


def test_wrong_answers_are_refused_by_key_without_a_line():
    with pytest.raises(Refused) as caught:
        starter({**ANSWERS, "form.segments": 7, "form.tube_diameter": "2 ells"})
    assert {(each.key, each.line, each.file) for each in caught.value.findings} == {
        ("form.segments", 0, ""),
        ("form.tube_diameter", 0, ""),
    }
    with pytest.raises(Refused, match=r"form\.segmnets: is not a known key"):
        starter({**ANSWERS, "form.segmnets": 8})


def test_an_answered_core_opening_is_kept_and_a_missing_one_suggested_in_round_numbers():
    assert parse(starter({**ANSWERS, "form.core_opening": "17.5 mm"})).form.core_opening == 17.5
    assert "\ncore_opening = 20 " in starter(ANSWERS)
    inches = {"unit": "in", **ANSWERS, "form.outer_diameter": "7 1/2", "form.tube_diameter": "1 5/8"}
    inches["form.wedge_rings"] = 12
    assert '\ncore_opening = "1/2 in" ' in starter(inches)


@settings(max_examples=60)
@given(
    st.integers(80, 900),
    st.floats(0.12, 0.4),
    st.sampled_from([8, 12, 16, 24, 64]),
    st.sampled_from([6, 8, 10, 12]),
    st.sampled_from(["mm", "in"]),
)
def test_any_starter_loads_and_its_core_lies_inside_the_tube(outer, share, wedge_rings, segments, unit):
    tube = round(outer * share, 1)
    answers = {"unit": unit, "form.outer_diameter": f"{outer} mm", "form.tube_diameter": f"{tube} mm"}
    job = parse(starter({**answers, "form.wedge_rings": wedge_rings, "form.segments": segments}))
    assert job.form.core_opening == pytest.approx(suggested_core(job.form, job.unit))
    assert 2 <= job.form.core_opening <= max(tube / 2, 6.36)
