"""Boards to lengths, to thickness, to strips: the operations."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby

from geometry.grouping import gathered
from geometry.records import Record, replace
from jigs.plans.plan import Plan
from jigs.stages.boards.plan import BoardsTaken, Scrap
from jigs.stages.boards.runs import Run, batches, merged, piece_of
from jigs.stages.boards.steps.prepared import Kind, Made, prepared, ripped
from jigs.stages.boards.steps.prepared import boards as bought
from jigs.stages.boards.tables import tables
from jigs.words.file_names import RINGS, of_job
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.cautions import SHORT
from jigs.work.minutes import CROSSCUT, MARKING, PLANED, RIPPED, SETTING, each
from jigs.work.model import Check, Operation, Rack, Stage, right_if
from jigs.work.steps import nth
from jigs.work.supplies import scrap_strip
from jigs.work.woods import dusty, irritants

ID = "boards"


class Told(Record):
    """The words for one kind of run. Minutes by rule: to set up, then for each piece."""

    id: str  # of its operation within the stage
    does: str
    comes: str
    how: tuple[str, ...] = ()
    trial: str = ""
    check: str = ""
    if_not: str = ""
    cautions: tuple[str, ...] = ()
    setup: float = 0.0
    each: float = 0.0


ALONG = "Calliper along the strip, at both ends and in the middle; a square on both edges"
TOLD: Mapping[Kind, Told] = {
    "crosscut": Told(
        "crosscut",
        "Crosscut the boards to rough lengths.",
        "length",
        how=(
            "Saw by hand, or at a saw that carries the whole board.",
            "Cut past every split at the ends first.",
            "Keep the left-over length in one piece, unplaned.",
        ),
        check="Tape measure along each length: none shorter than listed",
        if_not="cut the piece from another board",
        cautions=("hand-saw",),
        setup=5,
        each=CROSSCUT,
    ),
    "mill": Told(
        "mill",
        "Plane the lengths flat on one face, then to thickness.",
        "length",
        how=(
            "Plane one face until a straight edge shows no light along it and across it.",
            "Plane the other face in light passes; stop at the thickness.",
            "Plane by hand a length that is too short for your planer.",
            "Plane the trial's scrap at the same setting.",
        ),
        trial="a scrap board",
        check="Calliper at both ends and in the middle: alike, and as set",
        if_not="take another light pass; a board that is too thin serves as scrap for the trials",
        cautions=("planer",),
        setup=SETTING,
        each=PLANED,
    ),
    "rip": Told(
        "rip",
        "Rip the strips along the grain, then plane both edges to width.",
        "strip",
        how=(
            "Set the blade upright. Straighten one edge of the board first; it runs along the rip fence.",
            "Clamp a feather board to the table, just before the blade, so that it presses the board to the fence; "
            "another on the fence keeps it down.",
            "Push with a block as long as your hand, with a heel; where it does not fit between fence and guard, with "
            "a stick.",
            "Rip by hand a length that is under {short} or shorter than it is wide: it turns on the fence.",
            "Rip every strip of one width before you move the fence.",
            "Plane both edges: take half of the extra width off each.",
        ),
        trial="a strip of scrap",
        check=ALONG,
        if_not="move the rip fence by the error; a strip that is too narrow serves as scrap for the trials",
        cautions=("table-saw.rip", "table-saw"),
        setup=SETTING,
        each=RIPPED,
    ),
    "rip at bandsaw": Told(
        "rip-bandsaw",
        "Rip the strips at the bandsaw, along the grain, then plane both edges to width.",
        "strip",
        how=(
            "The boards are thicker than the table saw's blade stands.",
            "Straighten one edge of the board first; it runs along the bandsaw's fence. Turn the fence to the blade's "
            "drift, the table square to the blade.",
            "Feed slowly, with a block for the last {short}.",
            "Plane both edges: take half of the extra width off each.",
        ),
        trial="a strip of scrap",
        check=ALONG,
        if_not="move the fence by the error; a strip that is too narrow serves as scrap for the trials",
        cautions=("bandsaw", "bandsaw.guides", "bandsaw.power"),
        setup=SETTING,
        each=2 * RIPPED,
    ),
    "rip by hand": Told(
        "rip-hand",
        "Rip the strips by hand, along the grain, then plane both edges to width.",
        "strip",
        how=(
            "The boards are thicker than your saws cut; a timber yard rips them too.",
            "Mark the line on both faces, and turn the board over often.",
            "Plane both edges down to the width.",
        ),
        trial="a strip of scrap",
        check=ALONG,
        if_not="wide: plane on; a strip that is too narrow serves as scrap for the trials",
        cautions=("hand-saw",),
        setup=SETTING,
        each=10 * RIPPED,
    ),
    "thin": Told(
        "thin",
        "Plane the thin lengths to thickness on a carrier.",
        "length",
        how=(
            "Stick each to a flat carrier board by double-sided tape all along; the carrier reaches past both ends.",
            "Take light passes; lift it off with a thin blade. Where the planer's maker forbids so thin a piece, rub "
            "it on a flat board instead.",
            "You can buy them instead, as veneer of that thickness.",
        ),
        trial="a scrap board",
        check="Calliper at both ends, in the middle and at both edges: alike, and as set",
        if_not="thick: rub it down on a flat board; thin or tapered: it serves as scrap",
        cautions=("planer.thin", "planer"),
        setup=SETTING,
        each=PLANED,
    ),
    "knife": Told(
        "knife",
        "Cut the thin boards to strips by hand, along the grain.",
        "strip",
        how=(
            "Clamp a straight edge over the piece that you keep, the board flat on scrap.",
            "Cut with a sharp knife in many light strokes, or with a fine saw; turn it over half-way through.",
            "Plane both edges on a shooting board, several strips together.",
        ),
        trial="a strip of scrap",
        check="Calliper over width and thickness, at both ends and in the middle",
        if_not="wide: plane the edges; uneven in thickness: it serves as scrap",
        cautions=("knife", "table-saw.thin"),
        setup=SETTING,
        each=RIPPED,
    ),
    "edges": Told(
        "edges",
        "Plane the edges of the narrow boards to width.",
        "strip",
        how=("Take half of the extra width off each edge.",),
        trial="a strip of scrap",
        check=ALONG,
        if_not="take another light pass",
        cautions=("planer",),
        setup=SETTING,
        each=PLANED,
    ),
}


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """The boards, one operation for each setting of a machine, the strips of scrap.

    Where rings differ, a few lengths that are planed to other thicknesses, or strips that are ripped to other widths,
    share an operation.
    """
    return [*_picked(plan), *_prepared(plan), *_scrap(plan)]


def _prepared(plan: Plan) -> Iterator[Operation]:
    met = Counter[Kind]()
    for kind, run in _runs(plan):
        met[kind] += 1
        yield _operation(run, f"{ID}.{TOLD[kind].id}{nth(met[kind])}", TOLD[kind], SHORT[plan.job.unit])


def _operation(run: Run, id: str, told: Told, short: str) -> Operation:
    return Operation(
        id=id,
        place=run.place,
        does=told.does,
        how=tuple(line.format(short=short) for line in told.how),
        makes=(run.pieces, told.comes),
        rings=run.rings,
        settings=run.settings,
        trial=told.trial,
        checks=(Check("made", told.check, run.checks, told.if_not),),
        cautions=told.cautions,
        minutes=each(run.pieces, told.each, told.setup),
    )


def _runs(plan: Plan) -> Iterator[Made]:
    """A few that follow each other share an operation."""
    made, number = list(prepared(plan.job, plan.wood.lots, plan.wood.classes)), 1
    several = [kind for kind, _ in made].count("crosscut") > 1
    for kind, alike in groupby(made, lambda one: one[0]):
        runs = [run for _, run in alike]
        if kind == "crosscut":
            for batch in _filled(runs):
                yield kind, _all(batch, number) if several else batch[0]
                number += len(batch)
        else:
            for batch in batches(runs):
                yield kind, merged(batch, TOLD[kind].comes, [piece_of(plan, run) for run in batch])


MOST = 14  # lines of settings for boards of several sizes in one operation


def _filled(runs: Sequence[Run]) -> Iterator[list[Run]]:
    """Boards of one size after another, as many as an operation has room for."""
    batch: list[Run] = []
    for run in runs:
        if batch and sum(map(_lines, [*batch, run])) > MOST:
            yield batch
            batch = []
        batch.append(run)
    yield batch


def _lines(run: Run) -> int:
    """A board and its three sides are one."""
    return len(run.settings) - 3


def _all(runs: Sequence[Run], first: int) -> Run:
    """Boards of several sizes, each with its number, from `first`; what is cut off every end stands once."""
    ends = [one for one in runs[0].settings if one.id == "end-trim"]
    told = (
        _numbered(one, number)
        for number, run in enumerate(runs, first)
        for one in run.settings
        if one.id != "end-trim"
    )
    return replace(
        runs[0],
        rings=tuple(sorted({ring for run in runs for ring in run.rings})),
        pieces=sum(run.pieces for run in runs),
        settings=(*ends, *told),
    )


def _numbered(one: Quantity, number: int) -> Quantity:
    label = f"No. {number}: {one.label[0].lower()}{one.label[1:]}"
    return replace(one, id=f"{one.id}.{number}", label=label)


def _picked(plan: Plan) -> Iterator[Operation]:
    boards = [(of.species, board) for of in plan.wood.classes for board in of.taken]
    if not boards:
        return
    yield Operation(
        f"{ID}.pick",
        "Pick the boards, buy those that are missing, and mark each with its wood.",
        "shop",
        how=(
            "Look at both faces: plan no piece over a knot, a split or sapwood.",
            "Take straight boards; twist costs more thickness than the plan allows.",
            "Let new boards lie in the shop until their weight stays the same.",
            f"Print the ring sheets ({of_job(plan.job.name, RINGS)}): each has its ring's woods, sizes, settings and "
            "boards, to go with it from the saw to the clamps.",
        ),
        makes=(sum(board.count for _, board in boards), "board"),
        settings=(*_sizes(boards), *irritants(plan)),
        cautions=dusty(plan),
        checks=right_if(
            "size",
            "Tape and calliper over each board: no smaller than listed",
            if_not="state the board as it is under [stock] in the workshop file, and run the check again",
        ),
        minutes=each(sum(board.count for _, board in boards), MARKING, 5),
        uses_up=bought(plan),
    )


def _sizes(boards: Iterable[tuple[str, BoardsTaken]]) -> Iterator[Quantity]:
    """Boards of one wood and size stand once, however differently they are cut."""
    alike = gathered(
        ((wood, board.bought, board.thickness, board.width, board.length), board.count)
        for wood, board in boards
    )
    for number, ((wood, buy, *size), counts) in enumerate(alike.items(), 1):
        yield Quantity(
            f"boards-{number}", f"Boards of {wood}, {'to buy' if buy else 'in stock'}", sum(counts), "count"
        )
        for name, length in zip(("Thickness", "Width", "Length"), size, strict=True):
            yield ruled(f"boards-{number}.{name.lower()}", name, length)


def _scrap(plan: Plan) -> Iterator[Operation]:
    """Strips for the trials that are not cut on what a trial before has made."""
    if scraps := plan.wood.scraps:
        yield Operation(
            f"{ID}.scrap",
            "Make strips of scrap for the trials, as thick and as wide as the good ones.",
            "planer",
            how=(
                "Take wood as hard as the good wood, for the saw cuts each kind of wood differently.",
                "Rip them as the good ones are ripped.",
                "Write SCRAP on every strip.",
            ),
            makes=(sum(scrap.strips for scrap in scraps), "strip"),
            settings=_strips(scraps),
            checks=(Check("size", ALONG, if_not="make the strip again at the settings of the good ones"),),
            cautions=(
                "planer",
                *dict.fromkeys(c for one in scraps for c in TOLD[ripped(plan.job, one)].cautions),
            ),
            minutes=sum(each(one.strips, PLANED + TOLD[ripped(plan.job, one)].each) for one in scraps),
            uses_up=tuple(
                scrap_strip(WHAT[one.of], one.strips, one.thickness, one.width, one.strip) for one in scraps
            ),
        )


WHAT = {"ring": "a trial ring", "quarter": "trial wedge rings", "staves": "trial staves"}


def _strips(scraps: Sequence[Scrap]) -> tuple[Quantity, ...]:
    return tuple(
        size
        for number, scrap in enumerate(scraps, 1)
        for size in (
            Quantity(f"scrap-{number}", f"Strips for {WHAT[scrap.of]}", scrap.strips, "count"),
            calliper(f"scrap-{number}.thickness", "Thickness", scrap.thickness),
            calliper(f"scrap-{number}.width", "Width", scrap.width),
            ruled(f"scrap-{number}.length", "Length", scrap.strip),
        )
    )


STAGE: Stage[Plan] = Stage(ID, "Prepare the boards", operations, in_a_run=True, tables=(tables,))
