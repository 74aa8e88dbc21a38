"""STEP files of a set, by a process of their own beside the rest, the first to start."""

from __future__ import annotations

import pickle
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory

from geometry.records import Record
from jigs.asked.by_job import by_job
from jigs.asked.job import Job
from jigs.files.manifest import extras_of, read_manifest, sha256
from jigs.files.step_child import Order
from jigs.forms.assemblies import assemblies
from jigs.parts.assembly import Place
from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.words.file_names import of_job
from jigs.words.findings import Finding, Refused

FOLDER = "model"
ROOT = Path(__file__).parents[2]
CHILD = """
import sys
sys.path.insert(0, sys.argv[1])
from jigs.files.step_child import run
run(sys.argv[2], kernel=sys.argv[3] == "kernel")
"""
Rows = list[dict[str, str]]


def can_be_made(job: Job) -> bool:
    """Whether the CAD kernel is there, where STEP files of the job need it; it is not loaded."""
    return not need_kernel(job) or find_spec("OCP") is not None


def need_kernel(job: Job) -> bool:
    """A torus is mounted partly turned: its flats meet what is turned already in curves that the kernel finds."""
    return by_job(job, torus=lambda _: True, vessel=lambda _: False)


def has_solids(folder: Path) -> bool:
    """Whether the set in `folder` has STEP files."""
    return any(row["file"].startswith(f"{FOLDER}/") for row in extras_of(read_manifest(folder) or {}))


def not_installed() -> Finding:
    return Finding(
        "no-solids",
        "no STEP files: CadQuery, which those of a torus need, is not installed; all else is there",
        "install it (pip install cadquery), then make again with --solids",
        severity="note",
    )


class Writer(Record):
    """The process that writes STEP files, where its orders are to lie, and where it says what is wrong."""

    child: subprocess.Popen[bytes]
    orders: Path
    said: Path


@contextmanager
def writer(wanted: bool, job: Job) -> Iterator[Writer | None]:
    """One that waits to be asked, none unless `wanted`: it begins while the job is solved."""
    if not wanted:
        yield None
        return
    kernel = "kernel" if need_kernel(job) else "none"
    with TemporaryDirectory() as aside:
        orders, said = Path(aside) / "orders", Path(aside) / "said"
        with said.open("wb") as complaints:
            child = subprocess.Popen(
                [sys.executable, "-P", "-c", CHILD, str(ROOT), str(orders), kernel],
                stdin=subprocess.PIPE,
                stdout=subprocess.DEVNULL,
                stderr=complaints,
            )
        with _ended(child):
            yield Writer(child, orders, said)


@contextmanager
def _ended(child: subprocess.Popen[bytes]) -> Iterator[None]:
    """However the block is left, the process has ended then."""
    try:
        yield
    finally:
        child.kill()
        child.communicate()


@contextmanager
def beside(
    own: Writer | None, plan: Plan, parts: Sequence[Part], folder: Path
) -> Iterator[Callable[[], Rows]]:
    """STEP of every part and of each assembly, in folder/model, written while the caller goes on.

    What it gives waits for them, and returns their rows of the manifest, none where there is no writer. Raises
    Refused where they cannot be made.
    """
    orders = _orders(plan, parts, folder) if own else {}
    if own is None or not orders:
        yield list
        return
    own.orders.write_bytes(pickle.dumps(list(orders.values())))
    if own.child.stdin:
        own.child.stdin.close()

    def rows() -> Rows:
        if own.child.wait() != 0:
            raise Refused([_fault(own.said.read_text("utf-8", "replace"))])
        return [_row(folder, order, purpose) for purpose, order in orders.items()]

    with _ended(own.child):
        yield rows


def _orders(plan: Plan, parts: Sequence[Part], folder: Path) -> dict[str, Order]:
    """Each file by what it is for."""

    def file(name: str) -> Path:
        return folder / of_job(plan.job.name, f"{FOLDER}/{name}.step")

    own = (part for part in parts if part.process != "paper")
    alone = {
        f"{part.code} {part.name} as an exact solid": Order(
            file(part.name), part.name, ((part, Place()),), False
        )
        for part in own
    }
    together = {
        one.title: Order(file(f"{one.name}-assembly"), one.name, one.members, True)
        for one in assemblies(plan, parts)
    }
    return {**alone, **together}


def _row(folder: Path, order: Order, purpose: str) -> dict[str, str]:
    name = order.file.relative_to(folder).as_posix()
    return {"file": name, "purpose": purpose, "sha256": sha256(order.file.read_bytes())}


def _fault(said: str) -> Finding:
    last = said.strip().splitlines()[-1:] or ["it ended without a word"]
    return Finding("no-solids", f"STEP files could not be written: {last[0]}", "make again without --solids")
