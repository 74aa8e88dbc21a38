"""A process that sets PDFs and ends, run as `typeset_child.py TEMPLATE...` with a line of content for each on standard
input.

The typesetter keeps what it has set for as long as its process lives: 300 MB for each shop book.
"""

from __future__ import annotations

import marshal
import os
import sys
from pathlib import Path

import typst

HERE = Path(__file__).parent


def run() -> None:
    """Write the PDFs to standard output, or to standard error what is wrong with a template; end at once."""
    try:
        pdfs = [
            typst.compile(
                HERE / template,
                format="pdf",
                font_paths=[HERE / "fonts"],
                ignore_system_fonts=True,
                sys_inputs={"content": content},
                pdf_standards=["ua-1"],
                timestamp=0,
            )
            for template, content in zip(sys.argv[1:], sys.stdin.read().split("\n"), strict=True)
        ]
    except (RuntimeError, ValueError) as error:
        sys.stderr.write(str(error))
        sys.stderr.flush()
        os._exit(1)
    sys.stdout.buffer.write(marshal.dumps(pdfs))
    sys.stdout.flush()
    os._exit(0)


if __name__ == "__main__":
    run()
