"""A dry fit of a set in which one file has changed runs only the groups that read it, or that go by the ring."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from jigs.asked.job import TorusJob
from jigs.dryfit import files, fit, torus
from jigs.dryfit.files import Standing
from jigs.dryfit.fit import DryFit, guarded
from jigs.dryfit.model import Check
from jigs.dryfit.ring import CutRing
from jigs.dryfit.torus import dry_fit

Changed = Callable[[], Sequence[str]]


class Remembered:
    """The dry fit of one set as made; `again` after a file has changed, and is put back."""

    def __init__(self, job: Any, folder: Path, sheets: bool = True) -> None:
        self.job, self.folder, self.sheets = job, folder, sheets
        self._known: dict[str, tuple[frozenset[Standing], list[Check]]] = {}
        self._sled: tuple[frozenset[Standing], tuple[Check, ...], CutRing] | None = None
        self._shared: set[Standing] = set()  # read once for all groups at the lathe, by the first of them
        self._stands: dict[Standing, bool] = {}  # of a file as it was: whether it still is
        self.first = self._run(self._noted)

    def again(self) -> DryFit:
        """What the dry fit says now; a group whose files are as they were says what it said."""
        return self._run(self._looked_up)

    def _run(self, runner: Any) -> DryFit:
        self._stands.clear()
        usual, ringed = fit.guarded, torus._sled
        lathe = torus.held, torus.mountings

        def sled(job: TorusJob, read: files.Files) -> tuple[list[Check], CutRing]:
            if self._sled and not self._changed(self._sled[0]):
                return list(self._sled[1]), self._sled[2]
            with _files_read() as read_now:
                checks, ring = ringed(job, read)
            self._sled = self._sled or (frozenset(read_now), tuple(checks), ring)
            return checks, ring

        fit.guarded, torus._sled = runner, sled
        torus.held, torus.mountings = map(self._sharing, lathe)
        try:
            return dry_fit(self.job, self.folder, self.sheets)
        finally:
            fit.guarded, torus._sled = usual, ringed
            torus.held, torus.mountings = lathe

    def _sharing(self, worked_out: Callable[..., Any]) -> Callable[..., Any]:
        def noted(*given: Any) -> Any:
            with _files_read() as read:
                try:
                    return worked_out(*given)
                finally:
                    self._shared |= read

        return noted

    def _changed(self, known: frozenset[Standing]) -> bool:
        for one in known:
            if one not in self._stands:
                self._stands[one] = Standing.of(one.file) == one
        return not all(self._stands[one] for one in known)

    def _noted(self, name: str, group: Callable[[], list[Check]], changed: Changed = tuple) -> list[Check]:
        with _files_read() as read:
            checks = guarded(name, group, changed)
        ring = self._sled[0] if self._sled else frozenset()
        self._known[name] = (frozenset(read) | ring | self._shared, checks)
        return checks

    def _looked_up(
        self, name: str, group: Callable[[], list[Check]], changed: Changed = tuple
    ) -> list[Check]:
        read, checks = self._known.get(name, (frozenset(), []))
        if not read or self._changed(read):
            return guarded(name, group, changed)
        return checks


@contextmanager
def _files_read() -> Iterator[set[Standing]]:
    """Every file that is read meanwhile, as it stood."""
    usual, read = Standing.of, set[Standing]()

    def noting(file: Path) -> Standing:
        standing = usual(file)
        read.add(standing)
        return standing

    Standing.of = noting
    try:
        yield read
    finally:
        Standing.of = usual
