"""A part as CadQuery reads it back from its STEP file."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from jigs.files.step import write_step


def exact(part: Any) -> Any:
    import cadquery

    with TemporaryDirectory() as folder:
        file = Path(folder) / "part.step"
        write_step(part, file)
        return cadquery.importers.importStep(str(file)).val()
