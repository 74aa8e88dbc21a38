"""Both faces of the wedge rings: the operations."""
