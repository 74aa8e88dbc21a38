"""The solver of `packing.columns` (HiGHS, MIT), without its banner."""

from __future__ import annotations

import os

import highspy

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
