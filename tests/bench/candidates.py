"""Seconds that a thousand candidates take, from counts to their order, of the slower form; printed for the bench."""

from pathlib import Path
from time import perf_counter

from jigs.asked.jobfile import load
from jigs.compare.torus import ranked
from jigs.compare.vessel import ranked_stacks
from jigs.compare.wish import Options, wish

CONFIGS = Path(__file__).parents[2] / "configs"
TORUS = Options("6-48", "6-24", "18,19,20,21")
VESSEL = Options(segments="6-56", boards=",".join(str(16 + k / 4) for k in range(40)))

if __name__ == "__main__":
    took = []
    for name, options, rank in (("garland", TORUS, ranked), ("sorrel", VESSEL, ranked_stacks)):
        job = load(CONFIGS / f"{name}.toml")
        wanted = wish(job, options)
        start = perf_counter()
        found = rank(job, wanted)
        took.append(perf_counter() - start)
        if found.tried < 1000:
            raise SystemExit("fewer than a thousand candidates")
    print(max(took))
