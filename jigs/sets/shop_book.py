"""What is typeset of a job, as files of its set: the shop book with its pictures, and what is printed at full size.

Nothing else waits for it until its end: it is set in a process of its own where the system splits one off safely.
"""

from __future__ import annotations

import os
import pickle
import sys
import threading
import traceback
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, ThreadPoolExecutor
from contextlib import contextmanager
from functools import partial
from tempfile import TemporaryFile
from typing import IO, NoReturn, TypeVar, cast

from jigs.figures.every import figures_of
from jigs.figures.figure import Figure
from jigs.figures.job import job_figure
from jigs.figures.parts import drawing, thumbnail
from jigs.figures.stack import stack_figure
from jigs.figures.svg import figure_svg
from jigs.figures.turning.holding_plan import holding_plan
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.render.lines import shown
from jigs.render.pdf.full_size import FullSize
from jigs.words.file_names import FULL_SIZE, LABELS, RINGS, TAPES
from jigs.words.findings import Finding, Refused
from jigs.words.quantity import Quantity
from jigs.work.model import Work


def book_pictures(plan: Plan, parts: Sequence[Part]) -> dict[str, str]:
    """SVG texts by the ids by which the book asks for them."""

    def show(quantity: Quantity) -> str:
        return shown(quantity, plan.job.unit)

    own = (figure for part in parts for figure in (thumbnail(part), drawing(part, show)))
    figures = (table_figure(plan), job_figure(plan, show), *own, *figures_of(plan, parts, show).values())
    return {figure.id: figure_svg(figure) for figure in figures}


def table_figure(plan: Plan) -> Figure:
    """What stands beside a table, whose id it has: a vessel's section in its rings, a torus's holding plan."""
    return by_form(
        plan,
        torus=holding_plan,
        vessel=lambda own: stack_figure(own, lambda quantity: shown(quantity, own.job.unit)),
    )


def as_printed(pages: Sequence[Figure]) -> list[FullSize]:
    """Pages as they are printed."""
    return [FullSize(page.title, figure_svg(page)) for page in pages]


T = TypeVar("T")


@contextmanager
def apart(work: Callable[[], T]) -> Iterator[Callable[[], T]]:
    """Begin it; what is yielded waits for its end, and returns what it does or raises the Refused that it does.

    Two processes have two cores, two threads of Python one. On Linux a process of one thread is split in two, which
    hands all that is known over for nothing; elsewhere it is a thread.
    """
    if sys.platform != "linux" or threading.active_count() > 1:
        with ThreadPoolExecutor(1) as own:
            yield own.submit(work).result
        return
    with TemporaryFile() as told:
        child = os.fork()
        if child == 0:
            _do(work, told)
        ended: list[int] = []

        def result() -> T:
            ended.append(os.waitpid(child, 0)[1])
            return cast(T, _read(told, ended[0]))

        try:
            yield result
        finally:
            if not ended:
                os.kill(child, 9)
                os.waitpid(child, 0)


def _do(work: Callable[[], T], told: IO[bytes]) -> NoReturn:
    """In the new process: nothing of it comes back but what it writes. It holds no lock, should the other be killed."""
    try:
        os.closerange(3, told.fileno())
        os.closerange(told.fileno() + 1, os.sysconf("SC_OPEN_MAX"))
        try:
            said: tuple[str, object] = ("done", work())
        except Refused as error:
            said = ("refused", error.findings)
        except Exception:
            said = ("failed", traceback.format_exc())
        pickle.dump(said, told)
        told.flush()
        os._exit(0)
    finally:
        os._exit(1)


def _read(told: IO[bytes], status: int) -> object:
    if status:
        raise RuntimeError(f"a process of this make ended with status {status}")
    told.seek(0)
    how, what = pickle.load(told)
    if how == "refused":
        raise Refused(what)
    if how == "failed":
        raise RuntimeError(what)
    return cast(object, what)


PAGE, PAPER = "book.html", "paper/book.pdf"
PURPOSES = {
    PAGE: "the shop book, every step with its boxes to tick: open it by a double-click, on a phone too",
    PAPER: "the shop book on paper, step by step, short steps two to a page",
    FULL_SIZE: "every flat part and section at full size, with an index: print the pages you want at 100 %",
    LABELS: "labels to cut out, for each piece that could be turned the wrong way: print them at 100 %",
    RINGS: "a sheet for each ring: its woods all round, its section, sizes, settings and boards",
    TAPES: "tape layouts, pieces side by side at their developed spacing: print them at 100 %",
}
Files = dict[str, bytes]


def shop_book(plan: Plan, parts: Sequence[Part], work: Work, own: Executor) -> Callable[[], Files]:
    """The page and the paper, once they are asked for: the paper is set meanwhile. Raises Refused when it cannot be."""
    from jigs.render.html.page import book_html
    from jigs.render.pdf.paper import book_pdf

    pictures = book_pictures(plan, parts)
    paper = own.submit(book_pdf, work, pictures, plan.job.workshop.paper.size)
    page = book_html(work, pictures)

    def files() -> Files:
        with _refusing(PAPER):
            return {PAGE: page, PAPER: paper.result()}

    return files


def paper_files(plan: Plan, parts: Sequence[Part]) -> Files:
    """What is printed at full size; no file of labels or tapes where there are none. Raises Refused as above."""
    from jigs.paper.full_size import full_size
    from jigs.paper.page import SIZES
    from jigs.paper.ring_sheets import ring_pages
    from jigs.paper.tape import tape_pages
    from jigs.paper.tape_labels import label_pages
    from jigs.render.pdf.full_size import sheets_document
    from jigs.render.pdf.typeset import typeset

    title, paper = plan.job.title, SIZES[plan.job.workshop.paper.size]
    documents = {FULL_SIZE: full_size(parts, plan.job)}
    for file, what, sheets in (
        (LABELS, "labels", label_pages(plan)),
        (TAPES, "tape layouts", tape_pages(plan)),
        (RINGS, "rings", ring_pages(plan)),
    ):
        if sheets:
            documents[file] = sheets_document(f"{title}: {what}", paper, as_printed(sheets))
    with _refusing(", ".join(documents)):
        return dict(zip(documents, typeset(*documents.values()), strict=True))


@contextmanager
def _refusing(file: str) -> Iterator[None]:
    """Refused for what the typesetter raises."""
    try:
        yield
    except (RuntimeError, ValueError) as error:
        message = f"{file}: {error}"
        raise Refused([Finding("no-book", message, "report this: it is the tool's fault")]) from error


@contextmanager
def beside(
    plan: Plan, parts: Sequence[Part], work: Work, drawn: Sequence[Part]
) -> Iterator[Callable[[], Files]]:
    """All of that, with pictures of what is `drawn`, made while the caller goes on; the book takes longest."""
    with apart(partial(_book, plan, drawn, work)) as book, ThreadPoolExecutor(1) as own:
        drawings = own.submit(paper_files, plan, parts)
        yield lambda: drawings.result() | book()


def _book(plan: Plan, drawn: Sequence[Part], work: Work) -> Files:
    with ThreadPoolExecutor(1) as own:
        return shop_book(plan, drawn, work, own)()
