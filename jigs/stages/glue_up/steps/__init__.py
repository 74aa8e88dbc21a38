"""Wedge rings to the closed blank: the operations."""
