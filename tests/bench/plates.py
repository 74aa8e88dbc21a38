"""Write the printed and drawn parts of a job as JSON, for the plain CadQuery script to make."""

import json
import sys
from math import degrees
from pathlib import Path

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.parts.part import Lettering
from jigs.sets.rack import rack


def plate(part):
    """Outlines as lists of (x, y, bulge); lettering as text, x, y, height and degrees."""
    return {
        "name": part.name,
        "process": part.process,
        "thickness": part.thickness,
        "outline": part.outline.vertices.tolist(),
        "holes": [hole.vertices.tolist() for hole in part.holes],
        "text": [
            (mark.text, *mark.origin, mark.height, degrees(mark.angle))
            for mark in part.marks
            if isinstance(mark, Lettering)
        ],
        "rise": part.mark_height,
        "bevel": part.bevel and {"land": part.bevel.land, "top": part.bevel.top.vertices.tolist()},
    }


if __name__ == "__main__":
    parts, _ = rack(solve(load(Path(sys.argv[1]))))
    print(json.dumps([plate(part) for part in parts]))
