"""A work that says something in every place where a book may say something."""

from __future__ import annotations

from math import radians

from jigs.words.findings import Finding
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.cautions import STANDING, caution_text
from jigs.work.model import (
    Caution,
    Check,
    Column,
    Goods,
    Heading,
    JigEntry,
    JigUse,
    Operation,
    Reading,
    Table,
    Work,
    listed,
)
from jigs.work.shown import shown_by

MOVES = tuple(
    f"Move {k}: lay the piece against the fence, press it down and slide it to the stop." for k in range(8)
)
LONG = ("saw.clear", "table-saw.stop", "table-saw")
PICTURE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="160mm" height="100mm" viewBox="0 0 160 100" '
    'font-family="sans-serif"><g id="cut"><rect width="160" height="100" fill="#ffffff"/>'
    '<path d="M10 90L150 90L80 10Z" fill="none" stroke="#000000"/></g>'
    '<text x="70" y="60" font-size="3.4">45.0 mm</text></svg>'
)

WORDLESS = PICTURE.partition("<text")[0] + "</svg>"


def pictures_of(work: Work) -> dict[str, str]:
    """One of everything that may have one."""
    ids = [id for operation in work.operations if (id := shown_by(operation))]
    wordless = dict.fromkeys((f"part.{entry.name}" for entry in work.rack), WORDLESS)
    return dict.fromkeys(("job", "lathe.first", *ids), PICTURE) | wordless


def sample(title: str = "Loop", unit: Unit = "mm") -> Work:
    """Three stages: a short step, one as full as the model lets it be, one that waits."""
    operations = (
        Operation(
            "boards.rip", "Rip the strips.", "bandsaw", settings=(ruled("fence", "Fence to blade", 42.5),)
        ),
        _full(),
        Operation("glue.half", "Glue the halves.", "bench", minutes=75, hours=12),
    )
    met = dict.fromkeys([*STANDING, *(id for operation in operations for id in operation.cautions)])
    return Work(
        job="loop",
        title=title,
        unit=unit,
        form="torus",
        facts=(Quantity("across", "Across", 300.0), Quantity("weight", "Weight", 850.0, "weight")),
        notes=(Finding("thin", "the wall is 4.1 mm at its thinnest", severity="note"),),
        assumed=(Finding("not-measured", "mitre slot 19.0 mm", key="saw.slot_width", severity="warning"),),
        stages=(Heading("boards", "Rip the boards"), Heading("saw", "Saw the segments"), Heading("glue", "Glue")),
        operations=operations,
        cautions=tuple(Caution(id, caution_text(id, "mm"), id in STANDING) for id in met),
        tables=(listed("lathe", "At the lathe", (Quantity("speed", "Roughing speed, at most", 600, "speed"),)),
                _table(3), _table(8)),
        rack=tuple(
            JigEntry(f"J{k}", f"stop-{k}", 2, "cut", "12 mm plywood", (200.0, 90.0), "stops the work")
            for k in range(9)
        ),
        goods=(Goods("maple", "boards", "Maple", (Quantity("n", "", 3, "count"), ruled("l", "", 1800.0)), 42.0),),
    )  # fmt: skip


def _table(columns: int) -> Table:
    heads = (Column("what", "Piece"), *(Column(f"c{k}", f"Size {k}", "length") for k in range(columns - 1)))
    return Table(
        f"sizes-{columns}",
        f"{columns} sizes",
        heads,
        (("strip", *range(columns - 1)), ("board", *range(columns - 1))),
    )


def _full() -> Operation:
    settings = tuple(Quantity(f"set-{k}", f"Stop {k} to blade", 17.1 + 40 * k) for k in range(5))
    return Operation(
        id="saw.mitre",
        place="table saw",
        does="Cut the segments on the carrier; flip the strip after each cut.",
        how=MOVES,
        makes=(128, "segment"),
        rings=tuple(range(1, 17)),
        settings=(*settings, Quantity("tilt", "Blade tilt", radians(22.5), "angle")),
        jigs=tuple(
            JigUse(
                f"stop-{k}", 2, "sets the strip's length", ("Rub the wax into its foot.",) if k < 3 else ()
            )
            for k in range(9)
        ),
        trial="A scrap strip: two segments, then a whole ring of them.",
        checks=(
            Check(
                "edge",
                "Calliper over the outer edge of the first segment.",
                (calliper("edge", "Outer edge", 31.42),),
                "Move the stop by the difference and cut a fresh segment.",
            ),
            Check("angle", "Joint plate over both ends.", (), "Light at the outside: tilt the blade more."),
        ),
        cautions=LONG,
        readings=(
            Reading("edge", "Outer edge", calliper("edge", "", 31.42), 3),
            Reading("tilt", "Tilt as read", None, 1),
        ),
        minutes=148,
        figure="saw.mitre",
    )
