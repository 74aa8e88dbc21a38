"""A vessel held by its mouth: the operations."""
