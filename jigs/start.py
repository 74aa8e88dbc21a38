"""Where the commands begin: first of all it is seen that the numbers come from our own `geometry`.

It is installed as a package of its own beside `jigs`, under a name that another distribution, or a file in the folder
where one stands, may have too: then nothing that came out would be right, or anything might.
"""

from __future__ import annotations

import gc
import os
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from jigs import __version__
from jigs.telling import complain

REFUSED = 1
SELDOM = 200_000  # objects made between two looks for circular garbage, of which a command leaves little


def command() -> NoReturn:
    """Run one command as a process of its own, and end that: what is told is out by then, files are closed."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # a pool of threads costs more than small arrays gain
    gc.set_threshold(SELDOM)
    os._exit(main())  # taking everything down object by object takes as long as reading a job file


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command, unless `geometry` is another's."""
    wrong = foreign_geometry()
    if wrong:
        complain(f"refused: {wrong}")
        return REFUSED
    from jigs import cli

    return cli.main(arguments)


def foreign_geometry() -> str:
    """What is wrong with the package `geometry` that is imported here, and what would do; "" if it is ours."""
    remedy = "Install turning-jigs in a virtual environment of its own, and run it from another folder"
    try:
        import geometry
    except Exception as error:  # whatever another's package raises
        return f"the package geometry cannot be imported: {error}. {remedy}"
    where = getattr(geometry, "__file__", None) or "a folder without a package"
    ours = getattr(geometry, "PART_OF", None) == f"turning-jigs {__version__}"
    if ours and Path(where).parent.parent == Path(__file__).parent.parent:
        return ""
    return f"the package geometry is not the one of this tool: {where}. {remedy}"
