"""A process that sets one PDF and ends, run as `typeset_child.py TEMPLATE` with the content on standard input.

The typesetter keeps what it has set for as long as its process lives: 300 MB for each shop book.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

import typst

HERE = Path(__file__).parent


def run() -> None:
    """Write the PDF to standard output, or to standard error what is wrong with the template; end at once."""
    try:
        pdf = typst.compile(
            HERE / sys.argv[1],
            format="pdf",
            font_paths=[HERE / "fonts"],
            ignore_system_fonts=True,
            sys_inputs={"content": sys.stdin.read()},
            pdf_standards=["ua-1"],
            timestamp=0,
        )
    except (RuntimeError, ValueError) as error:
        sys.stderr.write(str(error))
        sys.stderr.flush()
        os._exit(1)
    sys.stdout.buffer.write(pdf)
    sys.stdout.flush()
    os._exit(0)


if __name__ == "__main__":
    run()
