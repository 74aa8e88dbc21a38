"""book.pdf read back: its pages, its words, its fonts."""

from __future__ import annotations

import io
import itertools
import re
from dataclasses import replace
from functools import cache

import pytest
from fontTools.ttLib import TTFont
from pypdf import PdfReader
from pypdfium2 import PdfDocument, raw

from jigs.render.book.content import Step
from jigs.render.book.gather import book_of
from jigs.render.pdf.letters import CAPITAL
from jigs.render.pdf.paper import book_pdf, content
from jigs.render.pdf.typeset import CHILD, LACKING
from jigs.work.model import Operation, Work
from tests.render.drawn_pdf import read_pages
from tests.render.drawn_pdf import reader as reader_of
from tests.render.sample import pictures_of, sample
from tests.work.test_every_work import work_of

BOOKS = ("sample", "garland", "tumbler")  # a ring in mm, a vessel in inches
POINTS = 72 / 25.4
SMALLEST = 10.0  # points: capitals 2.5 mm high
IN_PICTURES = 2.2 / CAPITAL * POINTS  # and 2.2 mm


@cache
def pdf_of(name: str) -> bytes:
    return book_pdf(_work(name), pictures_of(_work(name)))


@cache
def pages_of(name: str) -> tuple[str, ...]:
    """The words of each page, without any space: a line may break anywhere."""
    return tuple(bare(page) for page in read_pages(pdf_of(name)))


def _work(name: str) -> Work:
    return sample() if name == "sample" else work_of(name)


def bare(text: str) -> str:
    return "".join(text.split())


each = pytest.mark.parametrize("name", BOOKS)


@each
def test_every_operation_has_one_page_that_says_all_of_it(name: str) -> None:
    pages, work = pages_of(name), _work(name)
    for number, operation in enumerate(work.operations, 1):
        head = rf"(?<!\d){number}{bare(operation.place.upper())}done"
        own = [page for page in pages if re.search(head, page)]
        assert len(own) == 1
        for said in _said(operation, _steps(name)[operation.id]):
            assert bare(said) in own[0], operation.id


@cache
def _steps(name: str) -> dict[str, Step]:
    book = book_of(_work(name), ())
    return {step.id: step for chapter in book.chapters for step in chapter.steps}


def _said(operation: Operation, step: Step) -> list[str]:
    cautions = [*step.cautions, step.reminder]
    checks = [said for check in operation.checks for said in (check.how, check.if_not)]
    return [operation.does, *operation.how, operation.trial, *checks, *cautions]


def test_a_step_that_is_as_full_as_may_be_keeps_to_its_page_and_its_picture_follows() -> None:
    operation = sample().operations[1]
    for said in _said(operation, _steps("sample")[operation.id]):
        assert bare(said) in pages_of("sample")[4]
    assert "Pictureforstep2" in pages_of("sample")[5]
    assert "3BENCHdone" in pages_of("sample")[6]


def test_every_standing_caution_is_told_at_the_front() -> None:
    for caution in sample().cautions:
        assert not caution.standing or bare(caution.text) in pages_of("sample")[1]


@pytest.mark.parametrize(("paper", "size"), [("A4", (210.0, 297.0)), ("Letter", (215.9, 279.4))])
def test_pages_are_of_the_paper_and_no_viewer_scales_them(paper: str, size: tuple[float, float]) -> None:
    reader = PdfReader(io.BytesIO(book_pdf(sample(), paper=paper)))
    for page in reader.pages:
        assert (page.mediabox.width / POINTS, page.mediabox.height / POINTS) == pytest.approx(size, abs=0.01)
    assert reader.root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.root_object["/ViewerPreferences"]["/DisplayDocTitle"]
    assert reader.metadata
    assert reader.metadata.title == "Loop: shop book"


@each
def test_no_word_is_small_or_runs_over_the_edge(name: str) -> None:
    for page in PdfDocument(pdf_of(name)):
        width, height = page.get_size()
        for x, y, size, scaled in _letters(page):
            assert size > (IN_PICTURES if scaled else SMALLEST) - 0.01
            assert 0 < x < width
            assert 0 < y < height


@each
def test_a_step_is_on_the_page_of_the_one_before_where_it_was_found_to_fit(name: str) -> None:
    """With pictures and drawings, by the pages that the contents name."""
    work = _work(name)
    ways = content(book_of(work, pictures_of(work)), pictures_of(work), "A4")["ways"].values()
    links = (
        link.get_object() for page in reader_of(pdf_of(name)).pages[2:7] for link in page.get("/Annots", [])
    )
    pages = [int(link["/Contents"].rpartition(" ")[2]) for link in links]
    for (before, page), way in zip(itertools.pairwise(pages), list(ways)[1:], strict=False):
        assert page == before if way["follows"] else page > before


def _letters(page):
    """Where each letter begins, its size, and whether it is scaled, as a picture's is; by PDFium, which is quick."""
    text, matrix, found = page.get_textpage(), raw.FS_MATRIX(), []
    for k in range(text.count_chars()):
        if not chr(raw.FPDFText_GetUnicode(text, k)).isspace():
            assert raw.FPDFText_GetMatrix(text, k, matrix)
            size = raw.FPDFText_GetFontSize(text, k) * abs(matrix.d)
            found.append((matrix.e, matrix.f, size, abs(matrix.a) != 1))
    assert found
    return found


def test_fonts_are_embedded() -> None:
    reader = reader_of(pdf_of("sample"))
    fonts = {
        str(font.get_object()["/BaseFont"]): font.get_object()
        for page in reader.pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert {name.partition("+")[2] for name in fonts} == {"NotoSans-Regular", "NotoSans-Bold"}
    for font in fonts.values():
        assert "/FontFile2" in font["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        assert "/ToUnicode" in font


def test_no_row_of_the_rack_is_split_between_two_pages() -> None:
    words = "as it leans on the fence beside the blade " * 4
    rack = tuple(
        replace(sample().rack[0], name=f"jig-{k}.", purpose=f"first{k}. {words} last{k}.") for k in range(30)
    )
    work = replace(sample(), rack=rack, operations=())
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(book_pdf(work, {}))).pages]
    for k in range(30):
        assert [f"last{k}." in page for page in pages if f"first{k}." in page] == [True]


def test_a_title_is_words_whatever_it_looks_like() -> None:
    title = '#panic("x") $x$ *b* <script> \\ 日本\x07 \u2212'
    reader = PdfReader(io.BytesIO(book_pdf(sample(title))))
    assert bare('#panic("x") $x$ *b* <script> \\ \ufffd\ufffd\ufffd \u2013') in bare(
        reader.pages[0].extract_text()
    )


def test_the_fonts_have_every_character_that_is_not_known_to_be_lacking() -> None:
    had = [set(TTFont(font).getBestCmap()) for font in (CHILD.parent / "fonts").glob("*.ttf")]
    assert len(had) == 2
    wanted = {code for code in range(0x20, 0x30000) if not LACKING.match(chr(code))}
    assert wanted <= set.intersection(*had) | {0xAD}  # a soft hyphen is not drawn


def test_no_word_of_ours_is_lacking() -> None:
    for name in BOOKS:
        assert "\ufffd" not in "".join(pages_of(name))


def test_the_same_work_gives_the_same_bytes() -> None:
    assert book_pdf(sample(), pictures_of(sample())) == pdf_of("sample")


def test_the_document_is_tagged_for_readers_aloud() -> None:
    reader = reader_of(pdf_of("sample"))
    assert reader.root_object["/MarkInfo"]["/Marked"]
    assert re.search(rb"pdfuaid:part", pdf_of("sample"))
    titles = [item.title for item in itertools.chain(reader.outline) if not isinstance(item, list)]
    assert "Before you start" in titles
