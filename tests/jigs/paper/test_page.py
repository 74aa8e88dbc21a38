"""Pages: their size, their margins, the lines to measure the print by."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.figures.clear import text_width
from jigs.paper.page import MARGIN, TOP, fitting, page, wrapped
from jigs.paper.tape import tape_pages
from jigs.paper.tape_labels import label_pages
from tests.jigs.paper.sheets import ALL, kept_to, labels, plan_of, sheet, tapes

A4, LETTER_SIZE = (210.0, 297.0), (215.9, 279.4)  # ISO 216 and ANSI, from memory
INCHES = {"quoit", "tumbler", "letter"}
SIZES = dict.fromkeys(("mixed", *INCHES), LETTER_SIZE)


@pytest.mark.parametrize("name", ALL)
def test_every_page_is_its_papers_size_and_keeps_its_margins(name):
    pages = [*labels(name), *tapes(name)]
    assert len(pages) >= 1 + (name != "open")  # open rings have no tape
    for one in pages:
        assert one.size == pytest.approx(SIZES.get(name, A4), abs=0.01)
        assert kept_to(one), one.title


@pytest.mark.parametrize("name", ALL)
def test_two_lines_of_100_mm_or_4_in_measure_the_print_by(name):
    for one in [*labels(name), *tapes(name)]:
        across = [x1 - x0 for x0, y0, x1, y1 in one.lines if y0 == y1 and one.size[1] - y0 <= MARGIN + 0.01]
        upright = [y1 - y0 for x0, y0, x1, y1 in one.lines if x0 == x1 and one.size[0] - x0 <= MARGIN + 0.01]
        long, told = (101.6, "4 in") if name in INCHES else (100.0, "100 mm")
        assert across == [pytest.approx(long, abs=0.01)]
        assert upright == [pytest.approx(long, abs=0.01)]
        assert sum("100 %" in text and told in text for text in one.texts) == 1


@pytest.mark.parametrize("name", ALL)
def test_nothing_is_too_small_to_read_or_written_over_something_else(name):
    for one in [*labels(name), *tapes(name)]:
        for k, word in enumerate(one.words):
            assert word.size >= 2.5, word
            for other in one.words[:k]:
                apart = abs(word.base - other.base) >= 0.7 * min(word.size, other.size)
                beside = word.left >= other.right - 0.01 or other.left >= word.right - 0.01
                assert apart or beside, (word, other)


@pytest.mark.parametrize("name", ALL)
def test_pages_have_titles_of_their_own(name):
    titles = [one.title for one in [*labels(name), *tapes(name)]]
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("name", ["garland", "sorrel", "trellis"])
def test_the_same_plan_gives_the_same_text(name):
    plan = plan_of(name)
    assert label_pages(plan) == label_pages(plan)
    assert tape_pages(plan) == tape_pages(plan)


@pytest.mark.parametrize("name", ["quoit", "tumbler", "letter"])
def test_a_job_in_inches_tells_its_lengths_in_inches(name):
    told = [text for one in [*labels(name), *tapes(name)] for text in one.texts if "Print at" not in text]
    assert any(" in " in text for text in told)
    assert not any(re.search(r"[0-9] mm", text) for text in told)


@given(st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1), st.integers(5, 190))
def test_text_that_fits_is_no_wider_than_its_room(text, width):
    size = fitting([text], width, 4.0)
    assert size <= 4.0
    assert text_width(text, size) <= width + 1e-9


@given(st.lists(st.text("abcdefg", min_size=1, max_size=30), max_size=90).map(" ".join))
def test_long_words_below_the_heading_keep_to_their_lines(told):
    one = sheet(page("A4", "mm", "Heading", told, []))
    said = one.words[1:-1]
    assert all(word.base < TOP for word in said)
    assert "".join(word.text for word in said).replace(" ", "") == told.replace(" ", "")
    assert kept_to(one)


def test_wrapped_lines_hold_all_words():
    assert " ".join(wrapped("one two three four five", 10.0, 2.0)) == "one two three four five"
