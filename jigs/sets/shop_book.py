"""The shop book of a job as files of its set."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager

from jigs.forms.plan import Plan
from jigs.parts.part import Part
from jigs.words.findings import Finding, Refused
from jigs.work.model import Work

PAGE, PAPER = "book.html", "paper/book.pdf"
PURPOSES = {
    PAGE: "the shop book, every step with its boxes to tick: open it by a double-click, on a phone too",
    PAPER: "the shop book on paper, a page for each step, labels and tapes: print it at 100 %",
}
Files = dict[str, bytes]


def shop_book(plan: Plan, parts: Sequence[Part], work: Work) -> Files:
    """File name to content: the page and the paper. Raises Refused when it cannot be set."""
    from jigs.render.html.page import book_html
    from jigs.render.pdf.paper import book_pdf
    from jigs.sets.book_pictures import book_pictures, book_sheets

    pictures, paper = book_pictures(plan, parts), plan.job.workshop.paper.size
    try:
        pdf = book_pdf(work, pictures, book_sheets(plan), paper)
    except (RuntimeError, ValueError) as error:  # what the typesetter raises
        message = f"{PAPER}: {error}"
        raise Refused([Finding("no-book", message, "report this: it is the tool's fault")]) from error
    return {PAGE: book_html(work, pictures), PAPER: pdf}


@contextmanager
def beside(plan: Plan, parts: Sequence[Part], work: Work) -> Iterator[Future[Files]]:
    """The book, made while the caller goes on: its typesetter lets other threads run."""
    with ThreadPoolExecutor(1) as own:
        yield own.submit(shop_book, plan, parts, work)
