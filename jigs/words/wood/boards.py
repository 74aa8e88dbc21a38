"""Which boards are sawn into what, what is left over, and what cannot be held safely."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.job import Job, Unit
from jigs.lengths import show_length
from jigs.plan.wood.stock import BoardCut, BoardsTaken, StripCut, WoodClass
from jigs.plan.wood.whole import WoodPlan
from jigs.words.amounts import area_text, volume_text
from jigs.words.sections import Row, Section
from jigs.words.wood.numbers import count_text, ring_list, sizes


def boards_section(job: Job, wood: WoodPlan) -> Section:
    """For each wood and thickness: boards, how each is crosscut and ripped, the least that any plan takes, waste."""
    rows = [row for of in wood.classes for row in _class(wood, of, job.unit)]
    bought = sum(_boards_bought(of) for of in wood.classes)
    rows.append(Row("boards to buy, in all", bought, "count"))
    return Section(
        "Boards",
        tuple(rows),
        ("Look at every board before it is ripped: knots, checks and sapwood are not planned for.",),
    )


def _class(wood: WoodPlan, of: WoodClass, unit: Unit) -> list[Row]:
    name, volumes = _name(of, unit), of.volumes
    waste = volumes.kerf + volumes.planed + volumes.trimmed + volumes.offcuts
    share = waste / volumes.stock if volumes.stock else 0.0
    return [
        *(
            Row(f"{name}: boards {number}, {_whose(board, unit)}", _taken(board, unit), "text")
            for number, board in enumerate(of.taken, 1)
        ),
        *(
            Row(f"{name}: lengths {number}", _ripped(wood, cut, unit), "text")
            for number, cut in enumerate(of.boards, 1)
        ),
        *([Row(f"{name}: boards to buy", _bought(of), "text")] if _boards_bought(of) else []),
        *([Row(f"{name}: instead of the board", _would_do(of, unit), "text")] if of.would_do else []),
        Row(f"{name}: cut out of these boards", _area(of, unit), "text"),
        Row(f"{name}: wood", f"{volume_text(volumes.stock, unit)}: {_where(of, unit)}", "text"),
        Row(f"{name}: waste", f"{100 * share:.0f} %, offcuts worth keeping among it", "text"),
    ]


def _name(of: WoodClass, unit: Unit) -> str:
    return f"{of.species} {show_length(of.thickness, unit)}"


def _whose(board: BoardsTaken, unit: Unit) -> str:
    if board.rest_of is not None:
        return f"left over from the boards for {show_length(board.rest_of, unit)}"
    return "to buy" if board.bought else "at hand"


def _taken(board: BoardsTaken, unit: Unit) -> str:
    size = sizes((board.thickness, board.width, board.length), unit)
    lengths = ", ".join(show_length(length, unit) for length in board.lengths)
    cross = f", crosscut to {lengths}" if len(board.lengths) > 1 or board.rest else ""
    if board.rest:
        cross += (
            f"; {show_length(board.rest, unit)}{' of each' if board.count > 1 else ''} stays in one piece"
        )
    what = count_text(board.count, "board" if board.rest_of is None else "piece")
    return f"{what} of {'at least ' if board.bought else ''}{size}{cross}"


def _ripped(wood: WoodPlan, board: BoardCut, unit: Unit) -> str:
    lengths = f"{count_text(board.count, 'length')} of {sizes((board.width, board.length), unit)}"
    strips = "; ".join(_strip(wood, strip, board.ready, unit) for strip in board.strips)
    return f"{lengths}: {strips}" if strips else lengths


def _strip(wood: WoodPlan, strip: StripCut, ready: bool, unit: Unit) -> str:
    lot = wood.lot(strip.lot)
    what = (
        "as it is" if ready else f"{count_text(strip.strips, 'strip')} {show_length(strip.width, unit)} wide"
    )
    return f"{what}, {count_text(strip.pieces, 'piece')} from each ({lot.name}, {ring_list(lot.rings)})"


def _boards_bought(of: WoodClass) -> int:
    return sum(board.count for board in of.taken if board.bought)


def _bought(of: WoodClass) -> str:
    """Whether no plan buys fewer."""
    count = _boards_bought(of)
    if count <= of.least:
        return f"{count}, and no plan buys fewer"
    return f"{count}; {of.least} might do, but no such plan was found before the search reached its limit"


def _would_do(of: WoodClass, unit: Unit) -> str:
    """What to ask for."""
    (board,) = [board for board in of.taken if board.bought]
    size = sizes((board.thickness, *(of.would_do or ())), unit)
    return f"one piece of at least {size} gives all of it: ask for an offcut"


def _area(of: WoodClass, unit: Unit) -> str:
    return f"{area_text(of.area, unit)}; no plan takes less than {area_text(of.bound, unit)}; planned {of.by}"


def _where(of: WoodClass, unit: Unit) -> str:
    v = of.volumes
    parts = (
        ("pieces", v.pieces),
        ("spares", v.spares),
        ("kerf", v.kerf),
        ("planed", v.planed),
        ("trimmed", v.trimmed),
        ("offcuts", v.offcuts),
    )
    return ", ".join(f"{name} {volume_text(volume, unit)}" for name, volume in parts if volume > 0)


def offcuts_section(job: Job, wood: WoodPlan) -> Section:
    """What is left, and whether it can be held and used again."""
    unit, least = job.unit, job.workshop.stock.least_offcut
    rows = [row for of in wood.classes for row in _left(wood, of, least, unit)]
    told = (
        f"Under {show_length(least, unit)} no piece is held by hand: cut no more from it, or keep the strip longer.",
    )
    short = any(offcut.length < least for of in wood.classes for offcut in of.offcuts)
    return Section("Offcuts", tuple(rows) or (Row("left over", "nothing", "text"),), told if short else ())


def _left(wood: WoodPlan, of: WoodClass, least: float, unit: Unit) -> Iterator[Row]:
    """Those worth keeping one by one, then how many are too short or too narrow."""
    name, small = _name(of, unit), [offcut for offcut in of.offcuts if not offcut.kept]
    for number, offcut in enumerate((offcut for offcut in of.offcuts if offcut.kept), 1):
        size = sizes((offcut.thickness, offcut.width, offcut.length), unit)
        yield Row(f"{name}: keep {number}", f"{offcut.count} of {size}", "text")
    if short := [offcut for offcut in small if offcut.length < least]:
        lengths = [show_length(length, unit) for length in sorted(offcut.length for offcut in short)]
        count = sum(offcut.count for offcut in short)
        yield Row(
            f"{name}: TOO SHORT TO HOLD SAFELY", f"{count}, {_range(lengths[0], lengths[-1])} long", "text"
        )
    if narrow := sum(offcut.count for offcut in small if offcut.length >= least):
        yield Row(f"{name}: too narrow to hold safely", narrow, "count")
    for number, offcut in enumerate(of.passed_on, 1):
        size = sizes((offcut.thickness, offcut.width, offcut.length), unit)
        yield Row(f"{name}: sawn for thinner strips {number}", f"{offcut.count} of {size}", "text")
    yield from _kept(wood, of, least, unit)


def _kept(wood: WoodPlan, of: WoodClass, least: float, unit: Unit) -> Iterator[Row]:
    """What would leave the ends of strips long enough."""
    ends = [kept for kept in wood.kept_long if kept.lot in of.lots]
    if longer := [(kept, kept.fewer) for kept in ends if kept.fewer is not None]:
        fewer = sorted(fewer for _, fewer in longer)
        length = show_length(min(kept.length for kept, _ in longer), unit)
        strips = sum(kept.strips for kept, _ in longer)
        pieces = (
            count_text(fewer[-1], "piece") if fewer[0] == fewer[-1] else f"{fewer[0]} to {fewer[-1]} pieces"
        )
        yield Row(
            f"{_name(of, unit)}: to keep {count_text(strips, 'strip')} long",
            f"{pieces} fewer from each leaves {length} or more",
            "text",
        )
    if short := [kept for kept in ends if kept.fewer is None]:
        lengths = [show_length(length, unit) for length in sorted(kept.length for kept in short)]
        strips = sum(kept.strips for kept in short)
        yield Row(
            f"{_name(of, unit)}: {count_text(strips, 'strip')} too short from the start",
            f"{_range(lengths[0], lengths[-1])} once the first piece is cut, under {show_length(least, unit)}: "
            "glue on a tail of scrap for the sled's hold-down, or rip from longer lengths of board",
            "text",
        )


def _range(low: str, high: str) -> str:
    return low if low == high else f"{low} to {high}"
