"""Examples and remedies in the unit of the job."""

from __future__ import annotations

import re

import pytest

from jigs.asked.jobfile import parse
from jigs.words.lengths import example_length
from tests.jigs.job_texts import SOUND, findings, only, with_line, without
from tests.metric import metric

EXAMPLE_LINES = [
    ("form", "core_opening", "", "20"),
    (
        "stock",
        "boards",
        "boards = 3",
        'species = "ash", thickness = 22, width = 150, length = 1200, count = 2',
    ),
    ("layup", "plies", "plies = 3", '[["maple", 3], ["black"'),
    ("printer", "bed", "bed = 3", "[220, 220]"),
    ("gauges", "stages", "stages = 3", '[3, 1, "finished"]'),
]


@pytest.mark.parametrize(("table", "key", "line", "example"), EXAMPLE_LINES)
def test_an_example_of_a_length_is_right_as_it_stands_in_either_unit(table, key, line, example):
    """Plain numbers in a job in mm; in a job in inches sizes that are sold there, each with its unit."""
    text = without("core_opening") if table == "form" else with_line(line, table)
    told = {finding.key: finding.remedy for finding in findings(text)}
    assert example in told[f"{table}.{key}"]
    told = {finding.key: finding.remedy for finding in findings('unit = "in"\n' + text)}
    named = re.sub(
        r"(?<= |\[)(?<!count = )(\d+)\b", lambda number: example_length(float(number[1]), "in"), example
    )
    assert (named if table != "form" else '"3/4 in"') in told[f"{table}.{key}"]
    assert not metric(told[f"{table}.{key}"])


def test_an_example_of_a_count_is_a_plain_number_in_either_unit():
    for unit in ("mm", "in"):
        told = {
            finding.key: finding.remedy for finding in findings(f'unit = "{unit}"\n' + without("segments"))
        }
        assert "such as 10:" in told["form.segments"]


def test_a_plain_number_of_inches_past_the_keys_limit_is_asked_whether_it_is_mm():
    told = {finding.key: finding.remedy for finding in findings('unit = "in"\n' + SOUND)}
    assert told["form.outer_diameter"] == 'Give 1.2 in to 118 in, or did you mean "250 mm"?'
    assert told["form.tube_diameter"] == 'Give 0.2 in to 39 in, or did you mean "54 mm"?'
    assert "form.core_opening" not in told  # 20 inches are within the key's limit
    meant = 'unit = "in"\n' + SOUND.replace("= 250", '= "250 mm"').replace("= 54", '= "54 mm"')
    assert parse(meant.replace("= 20", '= "20 mm"')).form.major_radius == pytest.approx(98)


@pytest.mark.parametrize("line", ['lining = "2 in"', "lining = -1", "lining = 250"])
def test_what_states_its_unit_or_would_not_do_as_mm_is_not_asked_whether_it_is_mm(line):
    told = {finding.key: finding.remedy for finding in findings('unit = "in"\n' + with_line(line))}
    assert told["form.lining"] == "Give 0 in to 0.39 in"


def test_a_count_is_asked_for_without_quotes_only_where_it_has_some():
    quoted, worded = (only(without("segments") + f"segments = {raw}\n") for raw in ('"12"', '"ten"'))
    assert quoted.remedy.endswith("without quotes")
    assert worded.remedy == quoted.remedy.removesuffix(", without quotes")


def test_a_number_of_mm_past_the_keys_limit_is_not_asked_whether_it_is_mm():
    assert only(with_line("lining = 250")).remedy == "Give 0.0 mm to 10.0 mm"
