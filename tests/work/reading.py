"""What a work tells, by id."""

from __future__ import annotations

from jigs.forms.work import work
from jigs.plans.plan import Plan
from jigs.sets.rack import draw
from jigs.words.quantity import Quantity
from jigs.work.model import Cell, Operation, Table, Work
from tests.unset import letters_unplaced


def work_for(plan: Plan) -> Work:
    """Of a plan that is none of the whole jobs; its jigs unlettered, which no step tells of."""
    with letters_unplaced():
        proof = draw(plan)
    return work(proof.plan, proof.parts, proof.notes)


def operation(told: Work, id: str) -> Operation:
    """Raises StopIteration where there is none."""
    return next(one for one in told.operations if one.id == id)


def table(told: Work, id: str) -> Table:
    """Raises StopIteration where there is none."""
    return next(one for one in told.tables if one.id == id)


def rows(found: Table) -> list[dict[str, Cell]]:
    """Each row by its columns' ids."""
    ids = [column.id for column in found.columns]
    return [dict(zip(ids, row, strict=True)) for row in found.rows]


def values(found: Table) -> dict[str, float | int | str]:
    """Of a table of names and values: each value by its id."""
    return {cell.id: cell.value for row in found.rows for cell in row if isinstance(cell, Quantity)}


def numbers(operation: Operation) -> list[Quantity]:
    """All that is set, known, checked or read in it."""
    return [
        *operation.settings,
        *operation.known,
        *(size for check in operation.checks for size in check.sizes),
        *(reading.planned for reading in operation.readings if reading.planned),
    ]


def bones(operation: Operation) -> tuple[object, ...]:
    """What no words are in."""
    values = [(q.id, q.value, q.kind) for q in numbers(operation)]
    uses = [(use.part, use.quantity) for use in operation.jigs]
    return (
        operation.id,
        operation.place,
        operation.pieces,
        values,
        uses,
        operation.cautions,
        operation.minutes,
    )
