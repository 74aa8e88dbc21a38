"""The least cost of a cutting: a bound by a linear program, and whole boards by an integer program.

The only module of the cutting that has a solver (HiGHS, MIT); load it only where a plan is not seen to be best
without. Column generation: Gilmore and Gomory, Operations Research 9 (1961) 849-859. One thread, no clock: the same
question has the same answer every time.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence

import highspy
import numpy as np

from geometry.packing.boards import ROUNDING, Board, Cutting, Task, rates
from geometry.packing.fill import side_by_side
from geometry.plane.edges import FloatArray
from geometry.records import Record

LOADED_IN = os.getpid()


class _Silent(highspy.Highs):
    """Made silent before its constructor can print anything."""

    def enableCallbacks(self) -> None:
        self.silent()
        super().enableCallbacks()  # type: ignore[no-untyped-call]


def silent_solver() -> highspy.Highs:
    """A new solver that prints nothing; one thread, so that the same question has the same answer every time.

    All solvers of a process share their threads as the first of them asked: a later one that asks for another count
    fails. Raises RuntimeError in a process that was split off: those threads are not there, and it would wait for them.
    """
    if os.getpid() != LOADED_IN:
        raise RuntimeError("the solver was loaded in another process, whose threads this one has not")
    solver = _Silent()  # type: ignore[no-untyped-call]
    solver.silent()
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    return solver


_ROUNDS = 150  # of looking for patterns; the bound holds after any
_TOLERANCE = 1e-5  # of the dearest board's cost, by which a new pattern must pay
_NODES = 12000  # of the integer program's search, over the number of its columns

Pattern = tuple[int, tuple[int, ...]]  # number of the board, strips of each sort side by side


class Bound(Record):
    """A cost that no cutting is below, the patterns that it is made of, what a piece of each sort is then worth."""

    cost: float
    patterns: tuple[Pattern, ...]
    price: FloatArray


def least_cost(task: Task, enough: Callable[[float], bool] = lambda _: False) -> Bound:
    """Where boards are taken in parts and crosscut anywhere; no further than to a bound that is enough.

    Of a pattern of strips side by side so many mm of a board are sawn, and every strip gives the most pieces for its
    length that any of its sort gives. For prices p of the pieces, none below 0, let v be what the best pattern of a
    board is worth, for all of its length. Scaled so that v is no more than the cost of boards that there is no end of,
    p·wanted less count·(v − cost) of the boards that are worth more than they cost is such a bound: it does not lean
    on the solver, whose prices it holds for.
    """
    wanted = np.array([strips.wanted for strips in task.strips], dtype=np.float64)
    given = np.array([list(rates(task, board)) for board in task.boards])
    given *= np.array([[board.length + task.kerf] for board in task.boards])
    solver = _program(task, wanted)
    patterns = list[Pattern]()
    best = Bound(0.0, (), np.zeros(wanted.size))
    dearest = max(board.cost for board in task.boards)
    for _ in range(_ROUNDS):
        solver.run()
        duals = np.array(solver.getSolution().row_dual)
        price, rent = np.maximum(duals[: wanted.size], 0.0), np.maximum(-duals[wanted.size :], 0.0)
        found = [_dearest(task, board, price * own) for board, own in zip(task.boards, given, strict=True)]
        best = max(
            best, _bound(task, wanted, price, [value for value, _ in found]), key=lambda bound: bound.cost
        )
        fresh = [
            (number, strips)
            for number, (value, strips) in enumerate(found)
            if value > task.boards[number].cost + rent[number] + _TOLERANCE * dearest
            and (number, strips) not in patterns
        ]
        if not fresh or enough(best.cost):
            break
        for number, strips in fresh:
            _add(solver, task.boards[number].cost, number, given[number] * strips)
        patterns += fresh
    return Bound(best.cost, tuple(patterns), best.price)


def _bound(task: Task, wanted: FloatArray, price: FloatArray, values: Sequence[float]) -> Bound:
    endless = [value / b.cost for value, b in zip(values, task.boards, strict=True) if b.count is None]
    scale = max([1.0, *endless])
    over = sum(
        max(0.0, value / scale - board.cost) * board.count
        for value, board in zip(values, task.boards, strict=True)
        if board.count is not None
    )
    return Bound(float(price @ wanted) / scale - over, (), price)


def _dearest(task: Task, board: Board, values: FloatArray) -> tuple[float, tuple[int, ...]]:
    """The pattern worth most across a board, for strips of each sort worth so much, or the strip that it is."""
    tables = [
        [count * value for count in range((board.most(strips) if value > 0 and fits else 0) + 1)]
        for strips, value, fits in zip(task.strips, values.tolist(), board.fits, strict=True)
    ]
    found = side_by_side([strips.width for strips in task.strips], tables, board.room + ROUNDING)
    sort = board.as_strip
    if sort is None or board.fits[sort] or values[sort] < found[0]:
        return found
    return float(values[sort]), tuple(int(k == sort) for k in range(len(values)))


def whole_boards(task: Task, cuttings: Sequence[Cutting]) -> list[Cutting]:
    """Boards cut in some of these ways that give all pieces at little cost; none if no such boards are found.

    The search ends after a fixed number of nodes: what it finds is good, not proved the best. It is given no plan to
    start from: HiGHS 1.16.0 then called plans optimal that were not.
    """
    wanted = np.array([strips.wanted for strips in task.strips], dtype=np.float64)
    solver, dearest = _program(task, wanted), max(board.cost for board in task.boards) or 1.0
    for number, lengths in cuttings:
        taken = sum(length + task.kerf for length, _ in lengths) / (task.boards[number].length + task.kerf)
        cost = task.boards[number].cost + 1e-4 * dearest * (
            1 + taken
        )  # of plans that cost as much the smallest
        _add(solver, cost, number, np.minimum(_given(task, lengths), wanted))
    total, first = solver.getNumCol(), wanted.size
    solver.changeColsIntegrality(total, np.arange(total, dtype=np.int32), np.ones(total, dtype=np.uint8))
    solver.setOptionValue("mip_max_nodes", _NODES // max(1, len(cuttings)))
    solver.setOptionValue("mip_allow_restart", False)
    solver.setOptionValue("mip_abs_gap", 0.9)  # costs are whole: nothing is left to find but smaller boards
    solver.setOptionValue(
        "mip_heuristic_run_feasibility_jump", False
    )  # half of a short search, for a first plan
    solver.run()
    if solver.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
        return []
    times = np.rint(solver.getSolution().col_value).astype(np.int64).tolist()
    if any(times[:first]):
        return []
    return [c for c, often in zip(cuttings, times[first:], strict=True) for _ in range(often)]


def _given(task: Task, lengths: Sequence[tuple[float, tuple[int, ...]]]) -> FloatArray:
    """Pieces of each sort."""
    found = np.zeros(len(task.strips))
    for length, strips in lengths:
        found += [count * sort.pieces(length) for count, sort in zip(strips, task.strips, strict=True)]
    return found


def _program(task: Task, wanted: FloatArray) -> highspy.Highs:
    """The least cost of so many boards of each column; a piece may be lacking, at more than all the boards' cost."""
    solver = silent_solver()
    infinite, nothing, none = solver.inf, np.array([], dtype=np.int32), np.array([], dtype=np.float64)
    for count in wanted:
        solver.addRow(float(count), infinite, 0, nothing, none)
    for board in task.boards:
        there = infinite if board.count is None else float(board.count)
        solver.addRow(-infinite, there, 0, nothing, none)
    dear = (max(board.cost for board in task.boards) or 1.0) * (float(wanted.sum()) + 1)
    for item in range(wanted.size):
        solver.addCol(dear, 0.0, infinite, 1, np.array([item], dtype=np.int32), np.ones(1))
    return solver


def _add(solver: highspy.Highs, cost: float, board: int, pieces: FloatArray) -> None:
    sorts = np.flatnonzero(pieces)
    rows = np.append(sorts, pieces.size + board).astype(np.int32)
    entries = np.append(pieces[sorts], 1.0).astype(np.float64)
    solver.addCol(float(cost), 0.0, solver.inf, rows.size, rows, entries)
