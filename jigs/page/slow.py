"""From a job file's text to what takes longer: every jig drawn, the wood, the work; or what would do instead."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from geometry.records import Record
from jigs.asked.toml_source import Source
from jigs.forms.work import work
from jigs.measured.advice import Advice as Found
from jigs.measured.blank import blank_text
from jigs.page.contract_state import Advice, Jig, Measured, PieceName, Remedy, RemedyLine, Sheet, Slow, Steps
from jigs.page.reading import read, said
from jigs.remedies.glued import as_glued
from jigs.remedies.offered import Remedy as Offered
from jigs.remedies.offered import remedies
from jigs.remedies.order import of_a_machine
from jigs.render.book.gather import book_of
from jigs.render.lines import table_text
from jigs.sets.changes_told import by_reason
from jigs.sets.measured import head, measured
from jigs.sets.rack import Proof, prove
from jigs.sets.shop_book import book_pictures
from jigs.words.findings import Finding, Refused
from jigs.work.model import Work

TABLES = ("cut-list", "wood")  # of the work, that the page shows


class Piece(Record):
    """What is too large to be told with every state: the page asks for it by its name when it shows it."""

    piece: PieceName
    content: object


def slow(text: str, path: Path, root: Path, lean: bool = False) -> Iterator[Slow | Piece | Proof]:
    """What is known, the most important first; each Slow takes the place of the one before.

    `root` is where the set lands; if `lean`, without what a turner who owns sleds leaves out. The proof is for
    whoever wants the jigs' files.
    """
    reading = read(text, path)
    if reading.job is None or reading.source is None:
        yield Slow("refused", said(reading.faults), [], [], None)
        return
    try:
        proof = prove(reading.job, lean)
        told = work(proof.plan, proof.parts, proof.notes, proof.without)
    except Refused as refused:
        found = as_glued(refused.findings, reading.job.readings)
        yield from _refused(reading.source, path, found)
        return
    yield proof
    yield _made(told, _measured(proof, root))
    pictures = book_pictures(proof.plan, proof.parts)
    yield Piece("work", _steps(told, blank_text(told, proof.plan.kind), pictures))
    yield Piece("pictures", pictures)


def _measured(proof: Proof, root: Path) -> Measured:
    found = measured(proof.plan, proof.made, root)
    advice = [Advice(one.id, _head(one), list(one.says)) for one in found.advice]
    return Measured(advice, by_reason(found.wrong))


def _head(one: Found) -> str:
    return f"{one.topic.replace('-', ' ').capitalize()}: {head(one)}"


def _steps(told: Work, blank: str, pictures: Mapping[str, str]) -> Steps:
    book = book_of(told, pictures)
    return Steps(book.job, list(book.cautions), book.chapters, blank)


def _made(told: Work, read: Measured) -> Slow:
    jigs = [
        Jig(one.code, one.name, one.quantity, one.process, one.material, one.purpose, one.hours)
        for one in told.rack
    ]
    notes = said([*told.assumed, *told.notes])
    return Slow("done", notes, jigs, _tables(told), None, read)


def _refused(source: Source, path: Path, findings: tuple[Finding, ...]) -> Iterator[Slow]:
    told = said(findings)
    yield Slow("refused", told, [], [], None)
    found = [_remedy(one) for one in remedies(source, path) or ()]
    yield Slow("refused", told, [], [], found)


def _remedy(found: Offered) -> Remedy:
    lines = [RemedyLine(one.key, one.value, f"[{one.table}] {one.line}") for one in found.changes]
    return Remedy(lines, any(of_a_machine(one.key) for one in found.changes))


def _tables(told: Work) -> list[Sheet]:
    return [
        Sheet(table.id, table.title, *table_text(table, told.unit))
        for table in told.tables
        if table.id in TABLES
    ]
