from __future__ import annotations

import math
import re
import tomllib
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.words.lengths import (
    LENGTH_PATTERN,
    BadLength,
    example_length,
    force_texts,
    parse_length,
    show_length,
    typed_length,
)

lengths = st.floats(-5000, 5000)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("12 5/8 in", 320.675),
        ('12-5/8"', 320.675),
        ("12 5/8″", 320.675),
        ("38 mm", 38.0),
        ("38mm", 38.0),
        ("5.5 cm", 55.0),
        ("1/2 in", 12.7),
        ("9/8 inch", 28.575),
        (".5 inches", 12.7),
        ("  7. mm ", 7.0),
        ("-3 mm", -3.0),
    ],
)
def test_text_with_a_unit_reads_the_same_in_any_job(text, mm):
    assert parse_length(text, "mm") == pytest.approx(mm, abs=1e-12)
    assert parse_length(text, "in") == pytest.approx(mm, abs=1e-12)


def test_plain_numbers_and_text_without_a_unit_are_in_the_jobs_unit():
    assert parse_length(3, "mm") == parse_length("3", "mm") == 3.0
    assert parse_length(3, "in") == parse_length("3", "in") == pytest.approx(76.2)
    assert parse_length("2 1/4", "in") == pytest.approx(57.15)


@pytest.mark.parametrize(
    ("value", "says"),
    [
        ("1/0 in", "divides by nothing"),
        ("12 9/8 in", "not less than one"),
        ("3 furlong", '"furlong" is not a known unit'),
        ("5,5 mm", "is not a length"),
        ("", "is not a length"),
        ("mm", "is not a length"),
        ("1" * 5000, "is not a length"),
        (True, "true is not a length"),
        (None, "is not a length"),
        ([3], "a list is not a length"),
        ({"mm": 3}, "what stands in { } is not a length"),
        (math.nan, "not a possible number"),
        (-math.inf, "not a possible number"),
        pytest.param(10**5000, "an enormous number", id="enormous"),
    ],
)
def test_what_is_no_length_is_refused_in_plain_words(value, says):
    with pytest.raises(BadLength, match=re.escape(says)) as caught:
        parse_length(value, "mm")
    assert caught.value.remedy


@given(lengths)
def test_typed_lengths_read_back(mm):
    assert parse_length(typed_length(mm, "mm"), "in") == pytest.approx(mm, abs=0.00501)
    assert parse_length(typed_length(mm, "in"), "mm") == pytest.approx(mm, abs=0.000501 * 25.4)


@given(lengths)
def test_shown_mm_read_back_within_half_a_hundredth(mm):
    for exact in (False, True):
        assert parse_length(show_length(mm, "mm", exact), "in") == pytest.approx(mm, abs=0.00501)


@given(lengths)
def test_shown_inches_are_right_to_half_a_thousandth_and_by_rule_to_half_a_64th(mm):
    shown, _, by_rule = show_length(mm, "in").partition(" (")
    for text in (shown, show_length(mm, "in", exact=True)):
        assert parse_length(text, "mm") == pytest.approx(mm, abs=0.000501 * 25.4)
    assert "+" not in shown
    if by_rule:
        assert parse_length(by_rule.removesuffix(")"), "in") == pytest.approx(abs(mm), abs=25.4 / 128)


@given(st.integers(0, 200), st.integers(0, 63))
def test_a_fraction_of_an_inch_comes_back_as_it_was_written(whole, part):
    shown = show_length((whole + part / 64) * 25.4, "in")
    assert "+" not in shown
    assert sum(Fraction(word) for word in shown.removesuffix(" in").split()) == whole + Fraction(part, 64)


amounts = ["12 5/8", "1/2", ".5", "3.", "-3", "1 9/8", "1-1/2", "1,5", "5/0", "1/", "+3"]
units = ["", "mm", " mm", " cm", '"', " in", "inch", " inches", "inc", "MM", " ft", " mm x"]
written = st.tuples(st.sampled_from(amounts), st.sampled_from(units)).map("".join)


@given(written | st.text("0123456789 /-.+inm", max_size=9), st.sampled_from(["mm", "in"]))
def test_the_pattern_of_the_schema_takes_just_what_the_reader_takes(text, unit):
    try:
        parse_length(text, unit)
        reads = True
    except BadLength as bad:
        reads = "fraction" in str(bad)  # arithmetic is beyond a pattern
    assert reads == (re.search(LENGTH_PATTERN, text) is not None)


@pytest.mark.parametrize(
    ("mm", "unit", "exact", "text"),
    [
        (12.0, "mm", False, "12.0 mm"),
        (12.25, "mm", False, "12.25 mm"),
        (12.0, "mm", True, "12.00 mm"),
        (-0.001, "mm", False, "0.0 mm"),
        (-1.5, "mm", False, "-1.5 mm"),
        (320.675, "in", False, "12 5/8 in"),
        (320.75, "in", False, "12.628 in (12 5/8)"),
        (320.6, "in", False, "12.622 in (12 5/8)"),
        (-320.6, "in", False, "-12.622 in (12 5/8)"),
        (2.0, "in", False, "0.079 in"),
        (320.675, "in", True, "12.625 in"),
        (0.1, "in", False, "0.004 in"),
        (25.4, "in", False, "1 in"),
        (0.0, "in", False, "0 in"),
    ],
)
def test_lengths_are_shown_as_a_person_writes_them(mm, unit, exact, text):
    assert show_length(mm, unit, exact) == text


@given(st.integers(0, 5000), st.sampled_from(["mm", "in"]))
def test_an_example_says_about_the_same_length_as_it_is_sold_in_its_unit(mm, unit):
    value = tomllib.loads(f"x = {example_length(float(mm), unit)}")["x"]
    read = parse_length(value, unit)
    assert read == mm if unit == "mm" else abs(read - mm) <= 0.4 + mm / 8
    assert (read > 0) == (mm > 0)


@pytest.mark.parametrize(
    ("stands", "takes", "unit", "texts"),
    [
        (66.8, 67.2, "mm", ("66 N", "68 N")),
        (297.5, 298.3, "in", ("66 lbf", "68 lbf")),  # 66.9 and 67.1 of 4.448 N each
        (90.0, 90.0000001, "mm", ("90 N", "90 N")),
    ],
)
def test_a_force_that_is_too_little_never_reads_as_much_as_it_takes(stands, takes, unit, texts):
    assert force_texts(stands, takes, unit) == texts
