"""From the work to its book: quantities become text, ids become what they stand for."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from jigs.render.book import content
from jigs.render.lines import amount_text, by_group, lines, minutes_text, shown, sizes, table_text, unbroken
from jigs.words.findings import Finding
from jigs.words.quantity import Quantity, count_text, ring_list
from jigs.work.model import Goods, JigEntry, JigUse, Operation, Place, Reading, Table, Work
from jigs.work.shown import shown_by

JOB_PICTURE = "job"  # ids of pictures that no operation names: the finished work,
# and before its name: a part, small, and with its sizes; those of a table are its id and what begins with it and a dot
PART_PICTURE, DRAWING = "part.", "drawing."
BESIDE = 6  # columns that a page is wide enough for
OWN_PAGE = {"tolerance", "lathe"}  # tables that are pages to hang up
AT_PLACE: Mapping[Place, tuple[str, ...]] = {  # standing cautions that hang at a machine too
    "table saw": ("manual", "saw.power"),
    "bandsaw": ("manual", "saw.power"),
    "planer": ("manual", "machines.wear"),
    "lathe": ("manual", "lathe.clothes"),
    "cutter": ("manual", "machines.wear"),
}


def book_of(work: Work, pictures: Collection[str]) -> content.Book:
    """The book of a work. `pictures` are the ids of those that there are."""
    teller = _Teller(work, pictures)
    chapters = tuple(
        content.Chapter(stage.id, stage.title, tuple(teller.steps(work.of_stage(stage.id))))
        for stage in work.stages
    )
    return content.Book(
        job=work.job,
        title=work.title,
        verdict=f"It {work.verdict}.",
        picture=teller.picture(JOB_PICTURE),
        facts=teller.lines(work.facts),
        assumed=tuple(content.Line(finding.key, finding.message) for finding in work.assumed),
        notes=tuple(_note(finding) for finding in work.notes),
        cautions=tuple(caution.text for caution in work.cautions if caution.standing),
        chapters=chapters,
        sheets=tuple(teller.sheets(chapters)),
        goods=tuple(teller.goods()),
        tables=tuple(teller.table(table) for table in work.tables),
        rack=tuple(teller.racked(entry) for entry in work.rack),
    )


def _note(finding: Finding) -> str:
    """Without its place in a file."""
    said = finding.said[0].upper() + finding.said[1:]
    return said if said.endswith("?") else f"{said}."


def _drawings(work: Work, pictures: Collection[str]) -> dict[str, tuple[str, ...]]:
    """By operation: of the parts that are made in it, each where it is met first."""
    found: dict[str, tuple[str, ...]] = {}
    met: set[str] = set()
    making = {stage.id for stage in work.stages if stage.sort == "making"}
    for operation in work.operations:
        uses = operation.jigs if operation.stage in making else ()
        own = [id for use in uses if (id := DRAWING + use.part) in pictures and id not in met]
        met.update(own)
        found[operation.id] = tuple(own)
    return found


def _reminder(numbers: Sequence[int]) -> str:
    if not numbers:
        return ""
    *others, last = map(str, numbers)
    steps = f"steps {', '.join(others)} and {last}" if others else f"step {last}"
    return f"The cautions of {steps} hold here too."


class _Teller:
    """Tells a work's things in its unit."""

    def __init__(self, work: Work, pictures: Collection[str]) -> None:
        self.work, self.pictures = work, pictures
        self.entries = {entry.name: entry for entry in work.rack}
        self.numbers = {operation.id: k for k, operation in enumerate(work.operations, 1)}
        self.drawings = _drawings(work, pictures)

    def picture(self, id: str) -> str:
        return id if id in self.pictures else ""

    def lines(self, quantities: Sequence[Quantity]) -> tuple[content.Line, ...]:
        return tuple(
            content.Line(label, unbroken(value)) for label, value in lines(quantities, self.work.unit)
        )

    def steps(self, operations: Iterable[Operation]) -> Iterator[content.Step]:
        """Of a stage. A caution stands once at each place; later steps there name the step that has it."""
        met: dict[tuple[Place, str], int] = {}
        for operation in operations:
            number, place = self.numbers[operation.id], operation.place
            firsts = [met.setdefault((place, id), number) for id in operation.cautions]
            new = [id for id, first in zip(operation.cautions, firsts, strict=True) if first == number]
            yield content.Step(
                id=operation.id,
                number=number,
                does=operation.does,
                place=place,
                made=tuple(self._made(operation)),
                how=operation.how,
                settings=self.lines(operation.settings),
                known=self.lines(operation.known),
                jigs=tuple(self._jig(use, operation) for use in operation.jigs),
                trial=operation.trial,
                checks=tuple(
                    content.Proof(one.how, self.lines(one.sizes), one.if_not) for one in operation.checks
                ),
                cautions=tuple(self.work.caution(id).text for id in new),
                reminder=_reminder(sorted({first for first in firsts if first != number})),
                readings=tuple(self._box(reading) for reading in operation.readings),
                picture=self.picture(shown_by(operation)),
                drawings=self.drawings[operation.id],
            )

    def _made(self, operation: Operation) -> Iterator[str]:
        if operation.pieces:
            yield count_text(*operation.makes)
        if operation.rings:
            yield ring_list(operation.rings)
        if operation.minutes:
            yield f"about {minutes_text(operation.minutes)}"
        if operation.hours:
            yield f"then wait {operation.hours:g} h"

    def _jig(self, use: JigUse, operation: Operation) -> content.Jig:
        code, picture = self.entries[use.part].code, self.picture(PART_PICTURE + use.part)
        notes = (*use.notes, *(self._printed(use) if operation.place == "printer" else ()))
        return content.Jig(code, use.part, use.quantity, use.for_what, notes, picture)

    def _printed(self, use: JigUse) -> Iterator[str]:
        """How long one piece takes, and how much plastic."""
        entry = self.entries[use.part]
        if entry.hours is not None and entry.grams is not None:
            hours = Quantity("hours", "", entry.hours / entry.quantity, "hours")
            grams = Quantity("plastic", "", entry.grams / entry.quantity, "weight")
            each = " each" if entry.quantity > 1 else ""
            told = (unbroken(shown(one, self.work.unit)) for one in (hours, grams))
            yield f"About {' and '.join(told)} of plastic{each}."

    def _box(self, reading: Reading) -> content.Box:
        planned = unbroken(shown(reading.planned, self.work.unit)) if reading.planned else ""
        return content.Box(reading.id, reading.label, planned, reading.count, reading.least)

    def sheets(self, chapters: Sequence[content.Chapter]) -> Iterator[content.Sheet]:
        """One for each machine and the bench, where anything is set, in the order in which they are met."""
        set_ = [step for chapter in chapters for step in chapter.steps if step.settings]
        standing = {caution.id: caution.text for caution in self.work.cautions if caution.standing}
        met = [o.place for o in self.work.operations if o.settings and o.place != "shop"]
        places: dict[Place, None] = dict.fromkeys(met)
        for place in places:
            told = tuple(standing[id] for id in AT_PLACE.get(place, ()) if id in standing)
            yield content.Sheet(place, told, tuple(step for step in set_ if step.place == place))

    def goods(self) -> Iterator[content.Listed]:
        for group, goods in by_group(self.work.goods):
            yield content.Listed(group, tuple(self._good(good) for good in goods))

    def _good(self, good: Goods) -> content.Line:
        cost = [f"{good.cost:.2f} {self.work.currency}".strip()] if good.cost is not None else []
        return content.Line(
            good.what, "; ".join([*map(unbroken, amount_text(good, self.work.unit).split("; ")), *cost])
        )

    def table(self, table: Table) -> content.Reference:
        own = tuple(id for id in self.pictures if id == table.id or id.startswith(f"{table.id}."))
        columns, rows = table_text(table, self.work.unit)
        told = tuple(columns) if any(columns) else ()
        return content.Reference(
            table.id,
            table.title,
            told,
            tuple(tuple(map(unbroken, row)) for row in rows),
            own,
            by_row=len(columns) > BESIDE,
            own_page=table.id in OWN_PAGE,
        )

    def racked(self, entry: JigEntry) -> content.Racked:
        size = sizes((Quantity("", "", mm) for mm in entry.size), self.work.unit)
        how_many = f"{entry.quantity} × {entry.process}, {entry.material}"
        picture = self.picture(PART_PICTURE + entry.name)
        return content.Racked(entry.code, entry.name, how_many, unbroken(size), entry.purpose, picture)
