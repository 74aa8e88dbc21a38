"""Numbers only: contours, the torus, lettering, fasteners. Lengths in mm, angles in radians."""

PART_OF = "turning-jigs 0.1.0"  # another distribution's `geometry` lacks this line: see jigs.start
