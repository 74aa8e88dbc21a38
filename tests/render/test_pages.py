"""Every step keeps to one page, in odd jobs too: with much to set, many jigs, many boxes; short ones share it."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from jigs.render.book.gather import book_of
from jigs.render.pdf.paper import book_pdf, content
from tests.work.works import work_of

ODD = ("quoit", "open", "bottle", "staved", "plied vase")


@pytest.mark.parametrize("name", ODD)
def test_steps_follow_one_another_page_by_page(name: str) -> None:
    """Without pictures, which have pages of their own where they do not fit, and tables, which stand behind, on the
    lower paper; the contents name each step's page, and the first pinned sheet's behind the last."""
    work = replace(work_of(name), tables=())
    ways = content(book_of(work, {}), {}, "Letter")["ways"].values()
    begun = [not way["follows"] for way in ways]
    assert not all(begun)
    contents = list(PdfReader(io.BytesIO(book_pdf(work, paper="Letter"))).pages)[2:7]
    links = (link.get_object() for page in contents for link in page.get("/Annots", []))
    found = [int(link["/Contents"].rpartition(" ")[2]) for link in links]
    assert found[: len(begun) + 1] == [found[0] + sum(begun[1 : k + 1]) for k in range(len(begun))] + [
        found[0] + sum(begun)
    ]
