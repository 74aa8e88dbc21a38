"""An unrolled torus of 1024 x 1024 points with diamonds all over, as `jigs look` draws its texture: prints the seconds.

From the solved plan to the colours, the first time round; what is imported is not counted.
"""

from pathlib import Path
from time import perf_counter

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.looks.form import form_of
from jigs.looks.surface import surface_of
from jigs.looks.unrolled import unrolled

SIZE = 1024
JOB = Path(__file__).parents[2] / "configs" / "trellis.toml"

if __name__ == "__main__":
    plan = solve(load(JOB))
    start = perf_counter()
    form = form_of(plan)
    unrolled(surface_of(plan), form.meridian, form.whole, SIZE, SIZE)
    print(perf_counter() - start)
