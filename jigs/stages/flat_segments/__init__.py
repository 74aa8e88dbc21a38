"""Segments of flat rings, on the sled with two fences."""
