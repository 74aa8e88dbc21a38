"""Smooth curves, and many short edges, as few arcs; room beside them."""
