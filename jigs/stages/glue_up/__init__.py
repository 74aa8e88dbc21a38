"""Glue: what is glued to what, and when."""
