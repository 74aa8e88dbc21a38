"""Jig families of a vessel."""
