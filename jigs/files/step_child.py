"""A process that writes STEP files and nothing else: the CAD kernel takes as long to load as a job to solve."""

from __future__ import annotations

import gc
import os
import pickle
import sys
from pathlib import Path

from geometry.records import Record
from jigs.files.solid import load
from jigs.files.step import write_assembly, write_step
from jigs.parts.assembly import Place
from jigs.parts.part import Part


class Order(Record):
    """One file: a part alone, or an assembly of several in their places."""

    file: Path
    name: str
    members: tuple[tuple[Part, Place], ...]
    assembled: bool


def run(orders: str, kernel: bool) -> None:
    """Write what a pickled list in a file asks for, once standard input is closed; end at once where there is none.

    The kernel is loaded meanwhile, if it is asked for. Errors end it as usual.
    """
    gc.disable()
    if kernel:
        load()
    sys.stdin.read()
    file = Path(orders)
    for order in pickle.loads(file.read_bytes()) if file.exists() else ():
        order.file.parent.mkdir(exist_ok=True)
        if order.assembled:
            write_assembly(order.name, order.members, order.file)
        else:
            write_step(order.members[0][0], order.file)
    os._exit(0)
