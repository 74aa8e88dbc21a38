"""The shop book where it is read: Chromium on a phone's screen, poppler for paper."""

import re

import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe

from jigs.render.html.page import book_html
from jigs.render.pdf.full_size import FullSize, sheets_document
from jigs.render.pdf.paper import book_pdf
from jigs.render.pdf.typeset import typeset
from tests.clients.test_librecad import grey, longest_run
from tests.render.sample import pictures_of, sample
from tests.work.test_every_work import work_of

PHONE = {"width": 390, "height": 844}
DPI = 254  # 0.1 mm a pixel
LABELS = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm" viewBox="0 0 210 297">'
    '<rect x="30" y="40" width="100" height="150" fill="#000000"/></svg>'
)
STEP = "saw.mitre"
TITLE = 80  # characters of a chapter's title, at most


@pytest.fixture(scope="module", params=["sample", "garland", "sorrel", "tumbler"])
def file(request, tmp_path_factory):
    """A book as a file on disk."""
    work = sample() if request.param == "sample" else work_of(request.param)
    file = tmp_path_factory.mktemp("book") / "book.html"
    file.write_bytes(book_html(work, pictures_of(work)))
    return file


@pytest.fixture
def page(chromium, file):
    """The book on a phone, and all that it says to the console or asks for."""
    context = chromium.new_context(viewport=PHONE, bypass_csp=False)
    page = context.new_page()
    page.heard = []
    page.on("console", lambda message: page.heard.append(message.text))
    page.on("pageerror", lambda error: page.heard.append(str(error)))
    page.on("request", lambda request: page.heard.append(request.url))
    page.goto(file.as_uri())
    yield page
    context.close()


def test_a_phone_shows_the_whole_width_and_asks_for_nothing_else(page, file):
    wide = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert wide == [PHONE["width"], PHONE["width"]]
    assert [heard for heard in page.heard if not heard.startswith("data:image/svg+xml;")] == [file.as_uri()]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_to_mend(chromium, tmp_path, scheme):
    file = tmp_path / "book.html"
    file.write_bytes(book_html(sample(), pictures_of(sample())))
    context = chromium.new_context(viewport=PHONE, color_scheme=scheme, bypass_csp=True)
    page = context.new_page()
    page.goto(file.as_uri())
    found = Axe().run(page)
    assert [(one["id"], one["impact"]) for one in found.response["violations"]] == []
    context.close()


def test_ticks_and_readings_are_there_when_the_page_is_opened_again(chromium, tmp_path):
    file = tmp_path / "book.html"
    file.write_bytes(book_html(sample()))
    context = chromium.new_context(viewport=PHONE)
    page = context.new_page()
    page.goto(file.as_uri())
    page.locator(f'[data-step="{STEP}"] [data-keep=done]').check()
    page.locator(f'[data-step="{STEP}"] [data-keep=edge-2]').fill("31.40")
    assert page.locator("#progress").inner_text() == "1 of 3 steps done"
    file.write_bytes(book_html(sample("Another title")))  # the same job, told otherwise
    page.close()  # two pages open at once hear of one another's ticks a moment later
    again = context.new_page()
    again.goto(file.as_uri())
    assert again.locator(f'[data-step="{STEP}"] [data-keep=done]').is_checked()
    assert again.locator(f'[data-step="{STEP}"] [data-keep=edge-2]').input_value() == "31.40"
    assert again.locator("#next").get_attribute("href") == "#boards.rip"
    again.on("dialog", lambda dialog: dialog.accept())
    again.locator("#clear").click()
    again.reload()
    assert not again.locator(f'[data-step="{STEP}"] [data-keep=done]').is_checked()
    context.close()


def test_the_page_works_where_nothing_can_be_kept(chromium, tmp_path):
    file = tmp_path / "book.html"
    file.write_bytes(book_html(sample()))
    context = chromium.new_context(viewport=PHONE)
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new Error('no storage'); }})"
    )
    page = context.new_page()
    page.on("pageerror", lambda error: pytest.fail(str(error)))
    page.goto(file.as_uri())
    page.locator(f'[data-step="{STEP}"] [data-keep=done]').check()
    assert page.locator("#progress").inner_text() == "1 of 3 steps done"
    context.close()


@pytest.mark.parametrize("file", ["sample"], indirect=True)  # one script is in every book
def test_a_tap_on_a_drawing_fills_the_screen_with_it_and_another_brings_it_nearer(page):
    page.locator(".zoom").first.click()
    box = page.locator("#shown").bounding_box()
    assert box["width"] == pytest.approx(PHONE["width"], abs=1)
    page.locator("#shown").click()
    assert page.locator("#shown").bounding_box()["width"] == pytest.approx(3 * PHONE["width"], abs=1)
    page.locator("#close").click()
    assert not page.locator("#large").is_visible()


@pytest.fixture(scope="module")
def paper(tmp_path_factory):
    work = sample()
    file = tmp_path_factory.mktemp("book") / "book.pdf"
    file.write_bytes(book_pdf(work, pictures_of(work)))
    return file


def test_poppler_finds_every_font_embedded_and_the_words_as_text(run, paper):
    rows = run("pdffonts", paper).splitlines()[2:]
    assert len(rows) == 2
    assert all(re.search(r"NotoSans-(Regular|Bold) .* yes yes yes ", row) for row in rows)
    text = " ".join(run("pdftotext", "-layout", paper, "-").split())
    for operation in sample().operations:
        assert operation.does in text


def test_a_sheet_of_labels_is_printed_at_its_own_size(run, tmp_path):
    file = tmp_path / "labels.pdf"
    (pdf,) = typeset(sheets_document("Labels", (210.0, 297.0), [FullSize("Labels", LABELS)]))
    file.write_bytes(pdf)
    run("pdftoppm", "-gray", "-r", DPI, "-singlefile", file, tmp_path / "page")
    ink = grey(tmp_path / "page.pgm") < 128
    assert max(longest_run(row) for row in ink) == pytest.approx(1000, abs=1)
    assert max(longest_run(row) for row in ink.T) == pytest.approx(1500, abs=1)


def test_the_middle_of_every_page_has_ink_and_its_edge_has_none(run, paper, tmp_path):
    run("pdftoppm", "-gray", "-r", 50, paper, tmp_path / "page")
    for file in sorted(tmp_path.glob("page-*.pgm")):
        ink = grey(file) < 250
        assert ink.any()
        edge = np.concatenate(
            [ink[:10].ravel(), ink[-10:].ravel(), ink[:, :10].ravel(), ink[:, -10:].ravel()]
        )
        assert not edge.any()


HEAD = re.compile(r"^ *\d+ [a-z ]+ Done$", re.MULTILINE)  # of a step, as it is printed


def test_printed_from_the_browser_steps_share_pages_and_only_longer_ones_go_on_over_them(
    chromium, run, file, tmp_path
):
    """A step a page made 219 pages of a book that has 145 on paper."""
    page = chromium.new_page()
    page.goto(file.as_uri())
    steps = page.locator("article.step").count()
    page.pdf(path=tmp_path / "book.pdf")
    page.close()
    texts = run("pdftotext", "-layout", tmp_path / "book.pdf", "-").split("\f")[:-1]
    heads = [len(HEAD.findall(text)) for text in texts]
    assert sum(heads) == steps
    last = max(k for k, count in enumerate(heads) if count)
    begun = next(k for k, count in enumerate(heads) if count)
    assert last + 1 - begun < 1.2 * steps
    for before, (text, count) in zip(
        heads[begun:last], list(zip(texts, heads, strict=True))[begun + 1 :], strict=False
    ):
        if before > 1 and count:
            assert len(HEAD.split(text)[0].strip()) < TITLE, (
                "a step that goes on has the page before to itself"
            )
