"""The work for scripts: mm, radians, g, minutes as in the model, every number a number."""

from __future__ import annotations

from dataclasses import asdict

from jigs.words.quantity import Quantity
from jigs.work.model import Operation, Table, Work
from jigs.work.shown import shown_by


def work_json(work: Work) -> dict[str, object]:
    """Ids throughout; words only where a person would read them."""
    return {
        "job": work.job,
        "title": work.title,
        "form": work.form,
        "verdict": work.verdict,
        "facts": [asdict(fact) for fact in work.facts],
        "notes": [_finding(note) for note in (*work.assumed, *work.notes)],
        "operations": [_operation(one) for one in work.operations],
        "cautions": {one.id: one.text for one in work.cautions},
        "tables": [_table(table) for table in work.tables],
        "jigs": [
            {k: v for k, v in asdict(entry).items() if v is not None} for entry in work.rack
        ],
        "goods": [asdict(goods) for goods in work.goods],
        "currency": work.currency,
    }  # fmt: skip


def _finding(note: object) -> dict[str, object]:
    return {name: getattr(note, name) for name in ("severity", "code", "key", "message", "remedy")}


def _operation(one: Operation) -> dict[str, object]:
    (pieces, comes), more = one.makes, asdict(one) | {"figure": shown_by(one)}
    head = {"id": one.id, "stage": one.stage, "place": one.place, "does": one.does, "how": one.how}
    told = head | {"pieces": pieces, "comes": comes} | more
    return {name: value for name, value in told.items() if name != "makes" and value not in ((), "", 0, 0.0)}


def _table(table: Table) -> dict[str, object]:
    return {
        "id": table.id,
        "title": table.title,
        "columns": [asdict(column) for column in table.columns],
        "rows": [
            [asdict(cell) if isinstance(cell, Quantity) else cell for cell in row] for row in table.rows
        ],
    }
