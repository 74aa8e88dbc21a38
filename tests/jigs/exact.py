"""A part's exact solid as CadQuery shows it, which has handier questions than the kernel."""

from __future__ import annotations

from typing import Any

from jigs.files.solid import solid as by_kernel


def exact(part: Any) -> Any:
    import cadquery

    return cadquery.Shape.cast(by_kernel(part))
