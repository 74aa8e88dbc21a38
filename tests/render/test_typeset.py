"""The typesetter works in a process of its own: what it keeps is gone with that, what it refuses is told."""

from __future__ import annotations

import sys

import pytest

from jigs.render.pdf.full_size import FullSize, sheets_document
from jigs.render.pdf.typeset import Document, typeset

SQUARE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm" viewBox="0 0 210 297">'
    '<rect x="10" y="10" width="50" height="50" fill="none" stroke="black"/></svg>'
)


def test_a_page_is_set_without_loading_the_typesetter_here(monkeypatch):
    monkeypatch.delitem(sys.modules, "typst", raising=False)  # another test may have loaded it
    document = sheets_document("Größe “A” − ½", (210.0, 297.0), [FullSize("a square", SQUARE)])
    (pdf,) = typeset(document)
    assert pdf.startswith(b"%PDF-")
    assert typeset(document, document) == [pdf, pdf]
    assert "typst" not in sys.modules


def test_what_cannot_be_set_is_told_in_the_typesetters_words():
    with pytest.raises(RuntimeError, match="expected content"):
        typeset(Document("sheets.typ", {"title": 3}))
