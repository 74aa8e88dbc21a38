"""book.html: whole, for itself, and every operation of a work in it."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from jigs.render.html.page import book_html
from jigs.render.lines import lines
from jigs.work.model import Work
from tests.render.sample import PICTURE, pictures_of, sample
from tests.work.test_every_work import work_of

VOID = {"meta", "img", "input", "br"}
LOADS = {"src", "href", "action", "data", "srcset", "poster", "xlink:href"}
HOSTILE = '</title><script>alert("x")</script>{{ 7 * 7 }}'


class Page(HTMLParser):
    """Its elements in order, its words, and whether its tags close as they opened."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.words: list[str] = []
        self.open: list[str] = []
        self.feed(page.decode())
        self.close()

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {name: value or "" for name, value in attributes}))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open[-1:] not in (["script"], ["style"]):
            self.words.append(data)

    def all(self, attribute: str) -> list[str]:
        return [found[attribute] for _, found in self.elements if attribute in found]

    @property
    def text(self) -> str:
        return plain(" ".join(self.words))


def plain(text: str) -> str:
    return " ".join(text.split())


@cache
def page_of(name: str) -> Page:
    return Page(book_html(_work(name), pictures_of(_work(name))))


def _work(name: str) -> Work:
    return sample() if name == "sample" else work_of(name)


each = pytest.mark.parametrize("name", ["sample", "garland", "tumbler"])


def test_a_fraction_goes_whole_to_the_next_line_where_a_phone_has_no_room() -> None:
    page = book_html(_work("tumbler"), pictures_of(_work("tumbler"))).decode()
    assert "<small>(" in page.partition('id="table-cut-list"')[2].partition("</section>")[0]
    assert not re.search(r"<(td|dd)>[\d.]+\u00a0in\u00a0\(", page)


@each
def test_the_page_closes_what_it_opens_and_no_two_things_have_one_id(name: str) -> None:
    page = page_of(name)
    assert not page.open
    assert max(Counter(page.all("id")).values()) == 1
    assert sum(tag == "h1" for tag, _ in page.elements) == 1


@each
def test_headings_go_down_one_level_at_a_time(name: str) -> None:
    levels = [int(tag[1]) for tag, _ in page_of(name).elements if re.fullmatch("h[1-6]", tag)]
    assert all(after <= before + 1 for before, after in pairwise(levels))


@each
def test_every_operation_is_a_card_of_its_own_with_a_box_to_tick(name: str) -> None:
    page, work = page_of(name), _work(name)
    assert page.all("data-step") == [operation.id for operation in work.operations]
    assert page.all("data-keep").count("done") == len(work.operations)


@each
def test_everything_that_an_operation_says_is_on_the_page(name: str) -> None:
    text, work = page_of(name).text, _work(name)
    for operation in work.operations:
        notes = [note for use in operation.jigs for note in (use.for_what, *use.notes)]
        checks = [said for check in operation.checks for said in (check.how, check.if_not)]
        cautions = [work.caution(id).text for id in operation.cautions]
        told = [*lines(operation.settings, work.unit), *lines(operation.known, work.unit)]
        labels = [*(label for label, _ in told), *(one.label for one in operation.readings)]
        for said in (operation.does, *operation.how, operation.trial, *notes, *checks, *cautions, *labels):
            assert plain(said) in text
    for caution in work.cautions:
        assert plain(caution.text) in text


@each
def test_nothing_is_asked_of_any_other_place(name: str) -> None:
    page = page_of(name)
    assert not {"link", "iframe", "object", "embed", "base", "form"} & {tag for tag, _ in page.elements}
    for tag, attributes in page.elements:
        for name_ in LOADS & set(attributes):
            assert attributes[name_].startswith(("data:image/svg+xml;", "#")), (tag, attributes)
        assert not [a for a in attributes if a.startswith("on") or a == "style"]


@each
def test_every_link_leads_somewhere_and_every_field_has_a_name(name: str) -> None:
    page = page_of(name)
    assert {link[1:] for link in page.all("href")} <= set(page.all("id"))
    for tag, attributes in page.elements:
        if tag == "input" and attributes["type"] == "text":
            assert attributes["aria-label"]
        if tag == "img" and attributes.get("id") != "shown":
            assert attributes["alt"]


def test_a_title_is_words_whatever_it_looks_like() -> None:
    page = Page(book_html(sample(HOSTILE)))
    assert HOSTILE in page.text
    assert sum(tag == "script" for tag, _ in page.elements) == 1


def test_a_script_in_a_picture_stays_in_an_image() -> None:
    page = book_html(sample(), {"job": PICTURE.replace("</svg>", "<script>alert(1)</script></svg>")})
    assert b"alert(1)" not in page


def test_a_step_has_its_boxes_for_readings() -> None:
    assert [keep for keep in page_of("sample").all("data-keep") if keep != "done"] == [
        "edge-1",
        "edge-2",
        "edge-3",
        "tilt-1",
    ]


def test_the_same_work_gives_the_same_bytes() -> None:
    assert book_html(sample(), pictures_of(sample())) == book_html(sample(), pictures_of(sample()))
