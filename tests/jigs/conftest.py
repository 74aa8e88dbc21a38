"""Sets are made here without setting their shop book, which takes as long as all the rest; tests/render has its own."""

from __future__ import annotations

from collections.abc import Iterator
from unittest import mock

import pytest

from jigs.sets.shop_book import PAGE, PAPER

WHOLE = (
    "tests.jigs.making",
    "tests.jigs.test_cli",
    "tests.jigs.test_extras",
)  # what a set holds, byte for byte


@pytest.fixture(scope="module", autouse=True)
def blank_book(request: pytest.FixtureRequest) -> Iterator[None]:
    """A book with nothing in it, but in modules that ask for whole sets."""
    if request.module.__name__.startswith(WHOLE) or "/making/" in request.module.__file__:
        yield
        return
    blank = mock.patch.multiple(
        "jigs.sets.shop_book",
        shop_book=lambda plan, parts, work: {PAGE: b"", PAPER: b""},
        paper_files=lambda plan, parts: {},
    )
    with blank:
        yield
