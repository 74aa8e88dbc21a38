"""What is found about the wood of either form: its boards, its grain, names that look misspelt."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from geometry.grouping import grouped
from jigs.asked.job import Job
from jigs.asked.job_wood import Board
from jigs.asked.keys import KEYS
from jigs.asked.woods import SPECIES, is_metal, kind_of, nearest_species
from jigs.stages.boards.at_hand import MEASURED, TINY, InStock, most_over, sized, suitable, suits
from jigs.stages.boards.plan import BoardsTaken, Lot, Shortage, WoodClass, WoodPlan
from jigs.stages.grain.check import grain_findings
from jigs.words.findings import Finding, near_names
from jigs.words.quantity import count_text

ASSUMED = (
    "weights leave it out; at the lathe, speeds and pulls allow for the heaviest wood there is, and its strength is "
    "taken as basswood's"
)
KIND = (
    "weights leave it out; at the lathe, speeds and pulls allow for the heaviest and the weakest of its kind"
)


def wood_findings(job: Job, wood: WoodPlan) -> Iterator[Finding]:
    """What the boards do not give, and joints that will not hold."""
    yield from stock_findings(job, wood.lots, wood.classes, wood.shortages)
    yield from metal_findings(job, wood)
    yield from name_findings(job, wood)
    yield from grain_findings(job, wood.grain, wood.glue)


def metal_findings(job: Job, wood: WoodPlan) -> Iterator[Finding]:
    """Strips of brass look well, and are planed, sawn and turned as wood in every step. Of plies, which a colour
    may name, there are no lots.
    """
    for name in dict.fromkeys(lot.species for lot in wood.lots):
        if is_metal(name):
            message = (
                f"{name} is a metal: in a planer, at a saw or under a turning tool set up for wood it catches, breaks "
                "teeth and is thrown"
            )
            yield job.finding("metal", message, key=_named_in(job, name), remedy="name a wood")


def _named_in(job: Job, species: str) -> str:
    """The key of some pieces that names it, else that of the rings."""
    for path in job.places:
        table, _, key = path.partition(".")
        if key.endswith("species") and species in str(getattr(getattr(job, table, None), key, "")):
            return path
    return _species_key(job)


def name_findings(job: Job, wood: WoodPlan) -> Iterator[Finding]:
    """A note for each wood that is not known, and for keys that do nothing here."""
    plies = {ply.name for ply in job.layup.plies} if job.layup else set()
    for weight in wood.finish.weights:
        if weight.species in SPECIES:
            continue
        near = nearest_species(weight.species)
        if weight.species in plies and not near:
            continue
        key = "layup.plies" if weight.species in plies else _species_key(job)
        remedy = f'did you mean "{near}"?' if near else f"known are {', '.join(SPECIES)}"
        message = (
            f"the weight of {weight.species} is not known: {KIND if kind_of(weight.species) else ASSUMED}"
        )
        yield job.note("unknown-wood", message, key=key, remedy=remedy)
    if job.layup and "form.species" in job.places:
        message = "is not used: all segments come from the layup"
        yield job.note("unused-key", message, key="form.species", remedy="leave it out, or [layup]")
    if "layup.rings" in job.places and _species_key(job) == "form.species":
        message = "is not used: all rings of a torus have the layup"
        yield job.note("unused-key", message, key="layup.rings", remedy="leave it out")


def _species_key(job: Job) -> str:
    return "form.species" if "form" in vars(job) else "rings.species"


MOST = {key.path: key.most for key in KEYS if key.path.startswith("stock.bought_")}  # that can be asked for
LITTLE = 0.1  # of a board to buy, up to which a piece that would do is named


def stock_findings(
    job: Job, lots: Sequence[Lot], classes: Sequence[WoodClass], shortages: Sequence[Shortage]
) -> Iterator[Finding]:
    """Refusals for pieces that no board gives, notes on boards that are not used, on what is bought besides, and on
    boards that are planed down."""
    for lacking in dict.fromkeys(shortage.lacking for shortage in shortages):
        yield _too_small(job, [shortage for shortage in shortages if shortage.lacking == lacking])
    yield from unused_findings(job, lots)
    for found in classes:
        yield from _not_enough(job, found)
        yield from _whole_board(job, found)
        yield from _thicker(job, found)


def _too_small(job: Job, alike: Sequence[Shortage]) -> Finding:
    """No board at hand gives these pieces, or too few do, and none that can be bought; a size that gives them all."""
    shortage, others = max(alike, key=lambda one: one.needed), len(alike) - 1
    key, wide = f"stock.bought_{shortage.lacking}", shortage.lacking == "width"
    have = job.workshop.stock.bought_width if wide else job.workshop.stock.bought_length
    needed = job.at_least(shortage.needed)
    message = (
        f"{shortage.lot}: a board has to be {needed} {'wide' if wide else 'long'}; bought boards are "
        f"{job.show(have)}"
        + (f", nor do they give {others} other {'size' if others == 1 else 'sizes'}" if others else "")
    )
    remedy = f"set {key} to at least {needed}, or list such boards under boards in [stock]"
    if shortage.needed > MOST[key]:
        remedy = "use pieces that are smaller: no board is that large"
    return job.finding(f"board-too-{'narrow' if wide else 'short'}", message, key=key, remedy=remedy)


def _not_enough(job: Job, found: WoodClass) -> Iterator[Finding]:
    """Only where some are at hand: with none, all are bought."""
    bought = [board for board in found.taken if board.bought]
    if bought and suitable(job, found.species, found.thickness):
        yield job.note(
            "not-enough-boards",
            f"the boards of {found.species} at hand are not enough for what is {job.show(found.thickness)} thick",
            key="stock.boards",
            remedy=f"buy {sum(board.count for board in bought)} of at least {_size(job, bought[0])}",
        )


def _whole_board(job: Job, found: WoodClass) -> Iterator[Finding]:
    """A whole board bought for hardly any wood."""
    bought = [board for board in found.taken if board.bought]
    if found.would_do and len(bought) == 1 and _little(found, bought[0]):
        rough = bought[0].thickness
        size = " × ".join(map(job.show, (rough, *found.would_do)))
        planed = f", planed to {job.show(found.thickness)}" if found.thickness < rough else ""
        yield job.note(
            "little-wood",
            f"a whole board of {found.species}, {job.show(rough)} thick, is bought for a few pieces{planed}",
            key="stock.boards",
            remedy=f"ask for an offcut of at least {size}, which gives all of them",
        )


def _little(found: WoodClass, board: BoardsTaken) -> bool:
    wide, long = found.would_do or (board.width, board.length)
    return wide * long <= LITTLE * board.width * board.length


def _thicker(job: Job, found: WoodClass) -> Iterator[Finding]:
    for board in found.taken:
        if not board.bought and board.thickness > found.thickness + MEASURED:
            yield job.note(
                "thicker-boards",
                f"{board.count} of {_size(job, board)} {found.species} planed to {job.show(found.thickness)}",
                key="stock.boards",
            )


def _size(job: Job, board: BoardsTaken | InStock) -> str:
    return " × ".join(job.show(size) for size in (board.thickness, board.width, board.length))


def unused_findings(job: Job, lots: Sequence[Lot]) -> Iterator[Finding]:
    """Alike boards once, however often they are listed; nothing of boards that fit and were not needed."""
    woods = list(dict.fromkeys(lot.species for lot in lots))
    for board in dict.fromkeys(job.workshop.stock.boards):
        own = [lot for lot in lots if lot.species == board.species]
        alike = [lot for lot in own if suits(job, board, lot.species, lot.thickness)]
        if not own:
            yield _of_no_piece(job, board, woods)
        elif alike and not sized([board]):
            yield _without_size(job, board)
        elif not any(_gives(job, board, lot) for lot in alike):
            yield _not_used(job, board, own)


def _of_no_piece(job: Job, board: Board, woods: Sequence[str]) -> Finding:
    """The likeliest cause is a name that is misspelt."""
    near = near_names(board.species, woods)
    remedy = f"pieces are of {', '.join(woods)}" if woods else "no piece is sawn from boards"
    if near:
        remedy = f'did you mean "{near[0]}"?'
    message = f"{_named(job, board)}: not used, since no piece is of this wood"
    return job.note("board-of-no-piece", message, key="stock.boards", remedy=remedy)


def _without_size(job: Job, board: Board) -> Finding:
    lacking = " and ".join(name for name in ("width", "length") if getattr(board, name) is None)
    return job.warning(
        "board-without-size",
        f"{_named(job, board)}: left out, since without {lacking} no strips can be planned",
        key="stock.boards",
        remedy=f"give their {lacking}",
    )


def _not_used(job: Job, board: Board, lots: Sequence[Lot]) -> Finding:
    message = f"{_named(job, board)}: not used, since no strip of this job comes out of one"
    remedy = "; ".join(_would_do(job, own) for own in grouped(lots, lambda lot: lot.thickness).values())
    return job.note("board-not-used", message, key="stock.boards", remedy=remedy)


def _would_do(job: Job, lots: Sequence[Lot]) -> str:
    """The least board for any of some lots as thick as one another."""
    thick, (width, length) = lots[0].thickness, min(_needed(job, lot) for lot in lots)
    return (
        f"{job.at_least(thick)} to {job.at_most(thick + most_over(job))} thick, at least {job.at_least(width)} "
        f"wide and {job.at_least(length)} long would do"
    )


def _gives(job: Job, board: Board, lot: Lot) -> bool:
    """Whether a board of known size is one strip of a lot at least, that gives a piece."""
    width, length = _needed(job, lot)
    return (board.width or 0.0) >= width - MEASURED - TINY and (board.length or 0.0) >= length - TINY


def _needed(job: Job, lot: Lot) -> tuple[float, float]:
    """Width and length of a board that is one strip of a lot, as it is."""
    return lot.width, lot.strip_length(1) + 2 * job.workshop.stock.end_trim


def _named(job: Job, board: Board) -> str:
    sizes = {"thick": board.thickness, "wide": board.width, "long": board.length}
    known = [f"{job.show(size)} {name}" for name, size in sizes.items() if size is not None]
    return f"{count_text(board.count, 'board')} of {board.species}, {', '.join(known)}"
