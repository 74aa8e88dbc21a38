"""An unrolled torus of 1024 x 1024 points with diamonds all over, as colours: prints the seconds of the first one.

From the angles to the places, the plies and their colours; what is imported is not counted.
"""

from math import pi, radians
from time import perf_counter

import numpy as np
import numpy.typing as npt

from geometry.pattern import Pattern, ply_at
from geometry.places import torus_grid_places
from geometry.torus import Blank, least_apothem

SIZE = 1024
BAND = 64  # rows at a time, which the processor's cache holds
MAJOR, TUBE = 115.0, 35.0
COLOURS = np.array(((214, 178, 124), (92, 58, 36), (232, 214, 180), (150, 74, 44)), dtype=np.uint8)
DIAMONDS = Pattern((3.0, 1.0, 3.0, 1.0), radians(35), "flat", "both", a=16.0, b=23.0, sanding=0.1)


def unrolled() -> npt.NDArray[np.uint8]:
    """The picture, (SIZE, SIZE, 3)."""
    apothem, centre = least_apothem(MAJOR, TUBE + 3.0, 16, 8)
    blank = Blank(16, 8, apothem, 20.0, centre)
    phi, theta = np.linspace(0, 2 * pi, SIZE), np.linspace(-pi, pi, SIZE)
    picture = np.empty((SIZE, SIZE, 3), np.uint8)
    for row in range(0, SIZE, BAND):
        places = torus_grid_places(blank, MAJOR, TUBE, phi, theta[row : row + BAND])
        COLOURS.take(ply_at(places, DIAMONDS), axis=0, out=picture[row : row + BAND], mode="clip")
    return picture


if __name__ == "__main__":
    start = perf_counter()
    unrolled()
    print(perf_counter() - start)
