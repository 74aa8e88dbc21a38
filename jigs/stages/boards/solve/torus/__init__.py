"""The wood of a torus."""
