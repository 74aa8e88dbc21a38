"""Sets made without what takes longest in them: the shop book and the typesetter's work; tests/render has both."""

from __future__ import annotations

import hashlib
import io
import pickle
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager, nullcontext
from dataclasses import fields, replace
from pathlib import Path
from typing import Any
from unittest import mock

from geometry.records import Record
from jigs.asked.job import Job
from jigs.files.three_mf import three_mf
from jigs.files.written import _unlettered as unlettered
from jigs.files.written import drawn_for, kerf_for, written_back
from jigs.parts.part import Part
from jigs.sets.extras import Extra
from jigs.sets.extras import _dxf as sheet_content
from jigs.sets.shop_book import PAGE, PAPER


def blank_book() -> AbstractContextManager[object]:
    """A book with nothing in it, and nothing at full size."""
    return mock.patch.multiple(
        "jigs.sets.shop_book",
        shop_book=lambda plan, parts, work, own: lambda: {PAGE: b"", PAPER: b""},
        paper_files=lambda plan, parts: {},
    )


@contextmanager
def jigs_alone() -> Iterator[None]:
    """No book, and nothing else beside the jigs: no listing, tables, whole sheets, plates to print."""
    with blank_book(), mock.patch("jigs.sets.extras.extras", return_value=()):
        yield


def jigs_and_sheets() -> AbstractContextManager[object]:
    """No book, and beside the jigs nothing but whole sheets."""
    stack = ExitStack()
    stack.enter_context(blank_book())
    stack.enter_context(
        mock.patch.multiple(
            "jigs.sets.extras",
            _picture=lambda plan: Extra("listing.txt", "", b""),
            listing_text=lambda work: "",
            csv_tables=lambda work: {},
            bed_loads=lambda parts, printer: (),
            _lines_and_arcs=lambda parts, job: (),
            _for_lasers=lambda parts, job: (),
        )
    )
    return stack


def old_sleds_untried() -> AbstractContextManager[object]:
    """No sled that stands there is tried in the new set, which takes more than half of a make after a change."""
    return mock.patch("jigs.sets.make.serving", return_value={})


def jigs_made(job: Job, root: Path, lettered: bool = False) -> Path:
    """The folder of a job's set, made with its jigs alone.

    Unlettered, which is half the work, unless the set is made anew over it or letters are looked at.
    """
    from jigs.sets.make import make

    with jigs_alone(), nullcontext() if lettered else letters_unplaced():
        return make(job, root).folder


@contextmanager
def letters_unplaced() -> Iterator[None]:
    """A rack's parts with no lettering but their lines; to find room for it takes a third of a rack."""
    with mock.patch("jigs.sets.rack.settled", _bare), mock.patch("jigs.sets.rack.facts_of", return_value=()):
        yield


def _bare(part: Part, title: str) -> Part:
    return replace(unlettered(part), words=())


@contextmanager
def written_once() -> Iterator[None]:
    """What a make of this process has written before, it has again: a part's file and its sizes, a sheet, a bed."""
    known: dict[bytes, tuple[bytes, list[dict[str, object]]]] = {}

    def written(part, file, job):
        drawn_so = _print((part, kerf_for(part, job), drawn_for(part, job)))
        if drawn_so in known:
            file.write_bytes(known[drawn_so][0])
        else:
            sizes = written_back(part, file, job)
            known[drawn_so] = file.read_bytes(), sizes
        return [dict(size) for size in known[drawn_so][1]]

    with (
        mock.patch("jigs.sets.make.written_back", written),
        mock.patch("jigs.sets.extras._dxf", _once(sheet_content)),
        mock.patch("jigs.sets.extras.three_mf", _once(three_mf)),
    ):
        yield


def _once(worked_out: Callable[..., bytes]) -> Callable[..., bytes]:
    known: dict[bytes, bytes] = {}

    def content(*given: object) -> bytes:
        asked = _print(given)
        if asked not in known:
            known[asked] = worked_out(*given)
        return known[asked]

    return content


def _print(what: object) -> bytes:
    stream = io.BytesIO()
    _Bare(stream).dump(what)
    return hashlib.sha256(stream.getvalue()).digest()


class _Bare(pickle.Pickler):
    """Of a record what it is made of, not what it has worked out since."""

    def reducer_override(self, one: object) -> Any:
        if isinstance(one, Record):
            return type(one), tuple(getattr(one, field.name) for field in fields(one))
        return NotImplemented


def unset_paper() -> AbstractContextManager[object]:
    """In place of each PDF a print of its content: the same for the same, another for any other."""
    return mock.patch.multiple(
        "jigs.render.pdf.typeset",
        _set=lambda templates, contents: [
            hashlib.sha256(template.encode() + content).digest()
            for template, content in zip(templates, contents, strict=True)
        ],
        unscaled=bytes,
    )


if __name__ == "__main__":
    from jigs.cli import main

    with unset_paper():
        raise SystemExit(main())
