"""What a set holds besides its jigs: listing, tables, pictures, whole sheets, drawings for lasers, what is typeset."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path

from geometry.records import Record
from jigs.asked.job import Job
from jigs.figures.svg import figure_svg
from jigs.files.dxf import write_lines_and_arcs
from jigs.files.formats import FORMATS
from jigs.files.manifest import sha256
from jigs.files.sheet_dxf import write_sheet
from jigs.files.sheets.bed_loads import bed_loads
from jigs.files.sheets.nesting import Sheet, nest
from jigs.files.svg import Colours, write_svg
from jigs.files.three_mf import three_mf
from jigs.files.written import as_drawn, drawn_for, kerf_for
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.render.listing import listing_text
from jigs.render.tables_csv import csv_tables
from jigs.sets.shop_book import PURPOSES, Files, table_figure
from jigs.words.file_names import of_job
from jigs.words.findings import Finding, Refused
from jigs.work.model import Work

STACK = ("stack", "the section in its rings: heights, joints, what is turned away")
HOLDING = (
    "holding",
    "the holding plan round the tube: what each mounting turns, what holds it there, where they overlap",
)
SETTINGS = "every setting in the order of the work, by its id"


class Extra(Record):
    """A file that is no jig; its name is relative to the set, with forward slashes, as yet without the job's."""

    file: str
    purpose: str
    content: bytes


def write_extras(extras: Iterable[Extra], job: Job, folder: Path) -> list[dict[str, str]]:
    """Write them into a set's folder; return their rows of the manifest: file, purpose, sha256."""
    rows = []
    for extra in extras:
        name = of_job(job.name, extra.file)
        file = folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(extra.content)
        rows.append({"file": name, "purpose": extra.purpose, "sha256": sha256(extra.content)})
    return rows


def extras(plan: Plan, parts: Sequence[Part], work: Work) -> Iterator[Extra]:
    """All that is not typeset. Raises Refused when a sheet does not measure what its parts do."""
    sheets = nest(parts, plan.job.workshop, plan.job.unit)
    titles = {table.id: table.title for table in work.tables}
    yield _picture(plan)
    yield Extra(
        "listing.txt",
        "the work in short: cautions, then every step with its settings",
        listing_text(work).encode(),
    )
    for name, text in csv_tables(work).items():
        yield Extra(f"tables/{name}", titles.get(name.removesuffix(".csv"), SETTINGS), text.encode())
    for sheet in sheets:
        yield Extra(
            sheet.file, f"a sheet to cut: {sheet.contents}", _dxf(sheet, plan.job.workshop.cutter.kerf)
        )
    yield from _lines_and_arcs(parts, plan.job)
    drawn = [as_drawn(part, drawn_for(part, plan.job)) for part in parts]
    for load in bed_loads(drawn, plan.job.workshop.printer):
        purpose = f"a bed-load to print: {load.contents}"
        yield Extra(load.file, purpose, three_mf(load, f"{plan.job.title}: {load.name}", load.contents))
    yield from _for_lasers(parts, plan.job)


def typeset_extras(files: Callable[[], Files]) -> Iterator[Extra]:
    """What is, as `jigs.sets.shop_book` gives it; asked for when the first of it is."""
    for file, content in files().items():
        yield Extra(file, PURPOSES[file], content)


def _picture(plan: Plan) -> Extra:
    name, purpose = by_form(plan, torus=lambda _: HOLDING, vessel=lambda _: STACK)
    return Extra(f"pictures/{name}.svg", purpose, figure_svg(table_figure(plan)).encode())


def _dxf(sheet: Sheet, kerf: float) -> bytes:
    stream = io.BytesIO()
    try:
        write_sheet(sheet, stream, kerf)
    except ValueError as error:
        message = f"{sheet.file}: {error}"
        raise Refused(
            [Finding("does-not-measure", message, "report this: it is the tool's fault")]
        ) from error
    return stream.getvalue()


def _lines_and_arcs(parts: Sequence[Part], job: Job) -> Iterator[Extra]:
    """Again, for programs that take arcs of a polyline for straight, what has any."""
    for part in parts:
        form, stream = FORMATS[part.process], io.BytesIO()
        if form.suffix == "dxf" and write_lines_and_arcs(part, stream, kerf_for(part, job)):
            purpose = f"{part.code} {part.name} again, its outline in single lines and arcs"
            yield Extra(
                f"{form.folder}/lines-and-arcs/{part.name}-lines-and-arcs.dxf", purpose, stream.getvalue()
            )


def _for_lasers(parts: Sequence[Part], job: Job) -> Iterator[Extra]:
    """Each cut part for programs that take no DXF, in the colours that the turner's goes by."""
    cutter = job.workshop.cutter
    colours: Colours = {
        "engrave": cutter.engrave_colour,
        "drill": cutter.drill_colour,
        "cut": cutter.cut_colour,
    }
    for part in parts:
        if part.process == "cut":
            stream = io.BytesIO()
            write_svg(part, stream, cutter.kerf, colours)
            yield Extra(f"laser/{part.name}.svg", f"{part.purpose}; for a laser", stream.getvalue())
