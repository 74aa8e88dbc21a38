"""Layups: sheets of plies, cut and glued again to blocks."""
