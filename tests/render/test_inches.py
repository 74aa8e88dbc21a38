"""Jobs in inches say nothing in millimetres, wherever a turner reads."""

from __future__ import annotations

import re
from dataclasses import asdict

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.paper.tape import tape_pages
from jigs.paper.tape_labels import label_pages
from jigs.render.book.gather import book_of
from jigs.render.lines import shown
from jigs.render.listing import listing_text
from jigs.sets.shop_book import as_printed, book_pictures
from jigs.words.lengths import Bound, parse_length
from jigs.words.quantity import Kind, Quantity, calliper, ruled
from tests.metric import metric, strings
from tests.work.works import proof_of, work_of


@pytest.mark.parametrize("name", ["quoit", "tumbler"])
def test_book_listing_pictures_labels_and_lettering_are_in_inches(name: str) -> None:
    work, proof = work_of(name), proof_of(name)
    pictures = book_pictures(proof.plan, proof.parts)
    assert not metric(asdict(book_of(work, pictures)))
    assert not metric(listing_text(work).splitlines())
    sheets = [sheet.svg for sheet in as_printed([*label_pages(proof.plan), *tape_pages(proof.plan)])]
    assert not metric([re.findall(r">([^<>]+)<", svg) for svg in (*pictures.values(), *sheets)])
    lettered = [getattr(mark, "text", "") for part in proof.parts for mark in part.marks]
    assert len(list(strings(lettered))) > len(proof.parts)
    assert not metric(lettered)
    assert not metric([part.beside for part in proof.parts])


@given(st.floats(0.5, 3000), st.sampled_from(["least", "most"]))
def test_no_fraction_breaks_a_limit_and_none_is_farther_from_it_than_a_sixty_fourth(
    mm: float, bound: Bound
) -> None:
    told = shown(ruled("limit", "", mm, bound), "in")
    text = told.partition("(")[2].rstrip(")") or told
    off = parse_length(text.removesuffix(" in"), "in") - mm
    assert abs(off) < 25.4 / 64
    if "(" in told:
        assert off >= -1e-6 if bound == "least" else off <= 1e-6


@pytest.mark.parametrize(
    ("mm", "told"),
    [
        (4.7625, "0.188 in (3/16)"),  # a half, told as the larger, whatever its binary fraction
        (7.9375, "0.313 in (5/16)"),
        (25.4, "1.000 in"),
        (30.0, "1.181 in"),
        (0.0127, "0.0005 in"),
        (0.0, "0.000 in"),
    ],
)
def test_a_callipers_size_has_the_fraction_that_it_is(mm: float, told: str) -> None:
    assert shown(calliper("size", "", mm), "in") == told


@pytest.mark.parametrize(
    ("kind", "value", "told"),
    [
        ("weight", 0.9, "0.03 oz"),
        ("weight", 50.0, "1.8 oz"),
        ("weight", 791.0, "1.74 lb"),
        ("torque", 1.5, "13.3 in-lbf"),
    ],
)
def test_weights_and_torque_are_told_as_they_are_sold_and_set(kind: Kind, value: float, told: str) -> None:
    assert shown(Quantity("one", "", value, kind), "in") == told


@pytest.mark.parametrize(
    ("kind", "value", "bound", "told"),
    [
        ("torque", 1.665, "most", "1.66 N m"),
        ("torque", 0.142, "least", "0.15 N m"),
        ("force", 16.65, "most", "16.6 N"),
        ("force", 16.42, "least", "16.5 N"),
        ("force", 1033.4, "most", "1033 N"),
        ("force", 590.0, "least", "590 N"),
    ],
)
def test_a_limit_in_newtons_is_not_rounded_past_itself(
    kind: Kind, value: float, bound: Bound, told: str
) -> None:
    assert shown(Quantity("one", "", value, kind, bound), "mm") == told


@pytest.mark.parametrize(("grams", "told"), [(9999.4, "9999 g"), (9999.6, "10.0 kg"), (39366.6, "39.4 kg")])
def test_what_needs_two_to_lift_is_told_in_kilograms(grams: float, told: str) -> None:
    assert shown(Quantity("one", "", grams, "weight"), "mm") == told
