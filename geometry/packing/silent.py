"""The solver of `packing.columns` (HiGHS, MIT), without its banner."""

from __future__ import annotations

import highspy


class _Silent(highspy.Highs):
    """Made silent before its constructor can print anything."""

    def enableCallbacks(self) -> None:
        self.silent()
        super().enableCallbacks()  # type: ignore[no-untyped-call]


def silent_solver() -> highspy.Highs:
    """A new solver that prints nothing; one thread, so that the same question has the same answer every time.

    All solvers of a process share their threads as the first of them asked: a later one that asks for another count
    fails.
    """
    solver = _Silent()  # type: ignore[no-untyped-call]
    solver.silent()
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    return solver
