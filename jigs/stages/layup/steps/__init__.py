"""A layup, from plies to blocks on rails: the operations."""
