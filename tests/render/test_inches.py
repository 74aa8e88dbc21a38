"""Jobs in inches say nothing in millimetres, wherever a turner reads."""

from __future__ import annotations

import re
from dataclasses import asdict

import pytest

from jigs.render.book.gather import book_of
from jigs.render.listing import listing_text
from jigs.sets.book_pictures import book_pictures, book_sheets
from tests.metric import metric, strings
from tests.work.works import proof_of, work_of


@pytest.mark.parametrize("name", ["quoit", "tumbler"])
def test_book_listing_pictures_labels_and_lettering_are_in_inches(name: str) -> None:
    work, proof = work_of(name), proof_of(name)
    pictures = book_pictures(proof.plan, proof.parts)
    assert not metric(asdict(book_of(work, pictures)))
    assert not metric(listing_text(work).splitlines())
    sheets = [sheet.svg for sheet in book_sheets(proof.plan)]
    assert not metric([re.findall(r">([^<>]+)<", svg) for svg in (*pictures.values(), *sheets)])
    lettered = [getattr(mark, "text", "") for part in proof.parts for mark in part.marks]
    assert len(list(strings(lettered))) > len(proof.parts)
    assert not metric(lettered)
    assert not metric([part.beside for part in proof.parts])
