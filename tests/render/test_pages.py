"""Every step keeps to one page, in odd jobs too: with much to set, many jigs, many boxes."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from jigs.render.pdf.paper import book_pdf
from tests.work.works import work_of

ODD = ("quoit", "open", "bottle", "staved", "plied vase")


@pytest.mark.parametrize("name", ODD)
def test_steps_follow_one_another_page_by_page(name: str) -> None:
    """Without pictures, which have pages of their own where they do not fit, on the lower paper; the contents link to
    each step's page, and to the first pinned sheet's behind the last."""
    contents = list(PdfReader(io.BytesIO(book_pdf(work_of(name), paper="Letter"))).pages)[2:7]
    links = (link.get_object() for page in contents for link in page.get("/Annots", []))
    found = list(dict.fromkeys(int(link["/Contents"].rpartition(" ")[2]) for link in links))
    steps = len(work_of(name).operations)
    assert found[: steps + 1] == list(range(found[0], found[0] + steps + 1))
