"""Segments sawn on their carrier: the operations."""
