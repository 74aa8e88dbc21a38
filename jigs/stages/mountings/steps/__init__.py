"""From the first board to the last turning: the operations."""
