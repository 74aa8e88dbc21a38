"""What correcting by readings is worth: simulated parts with known errors, read with noise, corrected, read again.

Run as `python -m tests.bench.measured`. For each topic the median and the worst of RUNS of what is left after the
correction, beside what is left without any; mm, all where the wood shows it. Instruments err as they are said to,
evenly to both sides (half of their accuracy is a standard deviation).
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from geometry.bodies.section import inner_from_wall
from geometry.bodies.torus import Blank, least_apothem
from geometry.bodies.tube import tube_of
from geometry.bodies.wall_measure import least_wall
from geometry.measuring.arcs import best_circle
from geometry.measuring.blade_lean import blade_lean
from geometry.measuring.blank_left import BlankMeasured, apothems, largest_torus, margin
from geometry.measuring.estimate import Estimate
from geometry.measuring.harmonics import harmonic, levelled, wobble
from geometry.measuring.printer import fit_machine
from geometry.measuring.ring_sizes import best_order, closure
from geometry.measuring.segment_angle import DryRing, light_of, tilt_from_ring
from geometry.measuring.turned import Shift, moved
from geometry.measuring.wedge_angle import error_from_gap, face_length
from geometry.plane.profile import profile

RUNS = 200
CALLIPER, FEELER, DIAL, RULE = 0.05, 0.03, 0.02, 0.5
APOTHEM, CENTRE = least_apothem(115, tube_of(37), 16, 8)
BLANK = Blank(16, 8, APOTHEM, 10.0, CENTRE)
RING = DryRing(8, APOTHEM - 10.0)
Pair = tuple[float, float]  # left without a correction, left with it
Noise = np.random.Generator


def read(noise: Noise, value: float, accuracy: float) -> Estimate:
    return Estimate(value + float(np.clip(noise.normal(0, accuracy / 2), -accuracy, accuracy)), accuracy)


def printer(noise: Noise) -> Pair:
    """Of an outside of 60 mm."""
    own, scale = noise.uniform(-0.3, 0.3), noise.uniform(0.994, 1.001)
    lengths = (10.0, 20.0, 40.0, 80.0)
    outsides = [(size, read(noise, own + scale * size, CALLIPER).value) for size in lengths]
    insides = [(size, read(noise, -own + scale * size, CALLIPER).value) for size in lengths]
    fit = fit_machine(outsides, insides, CALLIPER)
    return abs(own + (scale - 1) * 60), abs(
        own + scale * (60 - fit.outside.value) / (1 + fit.scale.value) - 60
    )


def blade(noise: Noise) -> Pair:
    """Over the height of a ring."""
    lean, height = noise.uniform(-0.006, 0.006), 60.0
    gap = read(noise, abs(2 * height * lean), FEELER)
    found = blade_lean(read(noise, height, RULE), gap if lean > 0 else None, gap if lean <= 0 else None)
    left = lean - (found.value if found.sure else 0.0)
    return abs(lean) * 2 * APOTHEM, abs(left) * 2 * APOTHEM


def wedge(noise: Noise) -> Pair:
    """At the rim of the last joint of all rings."""
    error = noise.uniform(-0.015, 0.015)  # of four rings
    gap = read(noise, face_length(BLANK) * math.sin(abs(error)), FEELER)
    found = error_from_gap(BLANK, gap if error < 0 else None, gap if error >= 0 else None)
    left = error - (found.value if found.sure else 0.0)
    all_rings = BLANK.swing_radius * BLANK.wedge_rings / 4
    return abs(error) * all_rings, abs(left) * all_rings


def segments(noise: Noise) -> Pair:
    """Light at all joints of a ring together."""
    tilt = noise.uniform(-0.003, 0.003)
    light = read(noise, light_of(RING, tilt), FEELER)
    found = tilt_from_ring(RING, light if tilt < 0 else None, light if tilt >= 0 else None)
    return light_of(RING, tilt), light_of(RING, tilt - (found.value if found.sure else 0.0))


def rings(noise: Noise) -> Pair:
    """By how much the ends of the torus miss each other."""
    thick = 60 + noise.normal(0, 0.2, 16)
    seen = np.array([read(noise, one, CALLIPER).value for one in thick])
    order = list(best_order(seen, np.zeros(16, dtype=int)).rings)
    return abs(closure(thick)), abs(closure(thick[order]))


def blank(noise: Noise) -> Pair:
    """Wood that is lacking round the torus: planned, and the largest by measure."""
    plan = BlankMeasured(
        2 * BLANK.outer_radius, 2 * BLANK.inner_radius / math.cos(BLANK.half_wedge), 2 * APOTHEM
    )
    off = noise.uniform(0, 3, 3)
    true = BlankMeasured(plan.across - off[0], plan.hole + off[1], plan.height - off[2])
    seen = BlankMeasured(*(read(noise, one, CALLIPER).value for one in (true.across, true.hole, true.height)))
    major, tube = largest_torus(BLANK, apothems(BLANK, seen))
    wood = apothems(BLANK, true)
    planned, largest = (
        margin(BLANK, wood, 115, tube_of(37)).min(),
        margin(BLANK, wood, major, tube_of(tube)).min(),
    )
    return max(0.0, -float(planned)), max(0.0, -float(largest))


def flattening(noise: Noise) -> Pair:
    """From the lowest to the highest of the middle's plane, of a blank whose flats scatter, three lines raised by what
    they are too low."""
    turn = np.arange(8) * math.pi / 4
    heights = noise.uniform(0, 1) * np.cos(turn - noise.uniform(0, 7)) + noise.normal(0, 0.2, 8)
    seen = np.array([read(noise, one, CALLIPER).value for one in heights])
    found = levelled(seen, CALLIPER)
    at = list(found.supports)
    columns = np.column_stack([np.ones(8), np.cos(turn), np.sin(turn)])
    after = heights + columns @ np.linalg.solve(columns[at], (found.lifted - seen)[at])
    return 2 * harmonic(heights, 1).amplitude, 2 * harmonic(after, 1).amplitude


def remounting(noise: Noise) -> Pair:
    """Total runout, of board and torus together."""
    turn = np.arange(8) * math.pi / 4
    board, torus = (noise.uniform(0, 0.4) * np.exp(1j * noise.uniform(0, 7)) for _ in range(2))

    def dial(half: float) -> np.ndarray:
        whole = ((board + torus * half) * np.exp(-1j * turn)).real
        return np.array([read(noise, one, DIAL).value for one in whole])

    found = wobble(dial(1), dial(-1), None, DIAL)
    seen = [complex(one.cosine, one.sine) for one in (found.board, found.torus) if one is not None]
    return 2 * abs(board + torus), 2 * abs(board + torus - sum(seen))


def first_side(noise: Noise) -> Pair:
    """Between the channel and the side that lies in it, on the radius."""
    tube = 35 + noise.uniform(-0.3, 0.3)
    seen = np.mean([read(noise, 2 * tube, CALLIPER).value for _ in range(4)]) / 2
    return abs(tube - 35), abs(tube - float(seen))


def stack(noise: Noise) -> Pair:
    """The next joint of a vessel's stack off its height."""
    off = noise.uniform(-1.5, 1.5)
    seen = read(noise, off, RULE)
    return abs(off), abs(off - (seen.value if seen.sure else 0.0))


def turned_wall(noise: Noise) -> Pair:
    """A beaker's wall lacking, hollowed by the gauge as planned and by the one that follows the stations."""
    outer, heights = profile((40, 0), (60, 120)), np.linspace(0, 120, 5)
    off = noise.uniform(-0.9, 0, 5)
    seen = [read(noise, one, CALLIPER / 2) for one in off]
    kept = [one.value if one.sure and one.value < 0 else 0.0 for one in seen]
    true, follows = (
        moved(outer, Shift(tuple(heights.tolist()), tuple(by)), 0.005) for by in (off.tolist(), kept)
    )
    none, with_it = (6 - least_wall(true, inner_from_wall(one, 6, 9, 5))[0] for one in (outer, follows))
    return abs(none), abs(with_it)


def arc(noise: Noise) -> Pair:
    """A radius of 60 guessed within 5 %, and by the best circle through twelve points over 90 degrees."""
    turn = np.linspace(0, math.pi / 2, 12)
    points = 60 * np.column_stack([np.cos(turn), np.sin(turn)])
    seen = points + np.clip(noise.normal(0, CALLIPER / 2, points.shape), -CALLIPER, CALLIPER)
    return float(60 * noise.uniform(0, 0.05)), abs(best_circle(seen, CALLIPER).radius.value - 60)


TOPICS: dict[str, Callable[[Noise], Pair]] = {
    "1 printer: an outside of 60": printer,
    "2 blade: over a ring": blade,
    "3 wedge: last joint at the rim": wedge,
    "4 segments: light in a ring": segments,
    "5 rings: the ends miss by": rings,
    "6 blank: wood lacking": blank,
    "7 flattening: middle aslant": flattening,
    "8 remounting: runout": remounting,
    "9 first side: in its channel": first_side,
    "10 vessel: next joint": stack,
    "10 vessel: wall lacking": turned_wall,
    "11 arc: radius": arc,
}


def main() -> None:
    print(f"{'mm':<34}{'none: median':>14}{'worst':>8}{'corrected: median':>20}{'worst':>8}")
    for name, topic in TOPICS.items():
        noise = np.random.default_rng(7)
        pairs = np.array([topic(noise) for _ in range(RUNS)])
        none, with_it = np.median(pairs, axis=0)
        worst = pairs.max(axis=0)
        print(f"{name:<34}{none:>14.3f}{worst[0]:>8.3f}{with_it:>20.3f}{worst[1]:>8.3f}")


if __name__ == "__main__":
    main()
