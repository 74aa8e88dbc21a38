"""Numbers only: contours, the torus, lettering, fasteners. Lengths in mm, angles in radians."""
