"""A torus by its parameters."""

import numpy as np

from geometry.plane.edges import FloatArray


def torus_surface(
    major: float, tube: float, phi: FloatArray, theta: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Points and unit normals (..., 3) at angles phi about the axis and theta round the tube, which broadcast.

    theta counts from outside upward. A grid (H, W): phi (W,), theta (H, 1).
    """
    level = np.cos(theta)
    radial = np.stack(np.broadcast_arrays(np.cos(phi), np.sin(phi), 0.0), axis=-1)
    up = np.array((0.0, 0.0, 1.0))
    normals = np.asarray(level)[..., None] * radial + np.sin(theta)[..., None] * up
    return major * radial + tube * normals, normals
