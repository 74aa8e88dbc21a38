"""The least cost of a cutting, by column generation and an integer program.

It has a solver (HiGHS, MIT); load it only where first fit is not enough.
Column generation: Gilmore and Gomory, Operations Research 9 (1961) 849-859. One thread, no clock: the same
question has the same answer every time.
"""

from __future__ import annotations

from collections.abc import Sequence

import highspy
import numpy as np

from geometry.arcs import FloatArray
from geometry.cutting_patterns import Column, Ripping, best_pattern, full_patterns
from geometry.silent import silent_solver

_ROUNDS = 250  # of looking for patterns; the bound holds after any
_TOLERANCE = 1e-4  # of a board's cost, by which a new pattern must pay
_ROUNDING = 1e-6  # that the solver may be out
_FEW = 3000  # ways to fill a board, up to which all of them are taken
_KEPT = 150  # patterns for the integer program: the cheapest at the last prices
_NODES = 15000  # of its search, over the number of patterns


def generate(job: Ripping, start: Sequence[Column]) -> tuple[list[Column], float, bool]:
    """Patterns to cut by, a bound that no cutting is below, and whether these are all the patterns of use.

    The patterns are those of the least cost when parts of boards count, and the bound is that cost.

    For prices p of the pieces, prices q of the strips and rents r of the stock sizes, none below 0, such that no
    pattern is worth more than its board's cost and rent, p·demand + q·strips − r·count is a bound. The solver's
    prices are such but for rounding; they are scaled down by what the exact search for patterns finds, so that
    the bound does not lean on the solver.
    """
    full = full_patterns(job, _FEW)
    columns = list(dict.fromkeys([*start, *full]))
    solver = _program(job, columns)
    items, bound = job.demand.size, 0.0
    for _ in range(_ROUNDS):
        solver.run()
        solution = solver.getSolution()
        duals, excess = np.array(solution.row_dual), np.array(solution.col_dual[items:])
        price, each, rent = duals[:items], duals[items : 2 * items], -duals[2 * items :]
        price, each, rent = (np.maximum(part, 0.0) for part in (price, each, rent))
        found, worth = _priced(job, price * job.yields + each, rent)
        scale = max(1.0, float(np.max((worth - rent) / job.cost)))
        bound = max(bound, float(price @ job.demand + each @ job.strips - rent @ job.count) / scale)
        fresh = [column for column in found if column not in columns]
        if not fresh:
            break
        for column in fresh:
            _add(solver, job, column)
        columns += fresh
    kept = [columns[k] for k in sorted(np.argsort(excess, kind="stable")[:_KEPT])]
    return kept, bound, set(full) <= set(kept) and bool(full)


def _priced(job: Ripping, values: FloatArray, rent: FloatArray) -> tuple[list[Column], FloatArray]:
    """The best pattern of each stock size, where it pays, and what none of its patterns is worth more than."""
    worth = job.cost * (1.0 + _TOLERANCE) + rent
    found: list[Column] = []
    for stock, most in enumerate(job.most):
        best = best_pattern(job.widths, values[stock], most, job.room[stock], worth[stock])
        if best is not None:
            worth[stock] = best[0]
            found.append((stock, best[1]))
    return found, worth


def whole_boards(job: Ripping, columns: Sequence[Column], target: float) -> tuple[list[Column], float]:
    """Few whole boards of these patterns, one column for each board, and what no boards of them cost less than.

    They are short of pieces if no way is found.

    The search ends at the target or after a fixed number of nodes: what it finds is good, not proved the best.
    It is given no plan to start from: HiGHS 1.16.0 then called plans optimal that were not.
    """
    solver = _program(job, columns)
    total = solver.getNumCol()
    solver.changeColsIntegrality(total, np.arange(total, dtype=np.int32), np.ones(total, dtype=np.uint8))
    solver.setOptionValue("mip_max_nodes", _NODES // len(columns))
    solver.setOptionValue("mip_allow_restart", False)
    solver.setOptionValue("objective_target", target * (1.0 + _ROUNDING))
    solver.run()
    if solver.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
        return [], 0.0
    times = np.rint(solver.getSolution().col_value[job.demand.size :]).astype(np.int64).tolist()
    boards = [column for column, often in zip(columns, times, strict=True) for _ in range(often)]
    return boards, float(solver.getInfo().mip_dual_bound) * (1.0 - _ROUNDING)


def _program(job: Ripping, columns: Sequence[Column]) -> highspy.Highs:
    """The least cost of so many boards of each pattern; a piece may be short, at more than all the boards' cost."""
    solver = silent_solver()
    infinite, nothing = solver.inf, np.array([], dtype=np.int32)
    for wanted in (*job.demand, *job.strips):
        solver.addRow(float(wanted), infinite, 0, nothing, nothing.astype(np.float64))
    for there in job.count:
        solver.addRow(-infinite, float(there), 0, nothing, nothing.astype(np.float64))
    dear = float(job.cost.max() * (job.demand.sum() + 1))
    for item in range(job.demand.size):
        rows = np.array([item, job.demand.size + item], dtype=np.int32)
        solver.addCol(dear, 0.0, infinite, 2, rows, np.ones(2))
    for column in columns:
        _add(solver, job, column)
    return solver


def _add(solver: highspy.Highs, job: Ripping, column: Column) -> None:
    stock, strips = column
    items = np.flatnonzero(strips)
    often = np.array(strips)[items]
    rows = np.concatenate((items, job.demand.size + items, [2 * job.demand.size + stock])).astype(np.int32)
    entries = np.concatenate((often * job.yields[stock, items], often, [1])).astype(np.float64)
    solver.addCol(float(job.cost[stock]), 0.0, solver.inf, rows.size, rows, entries)
