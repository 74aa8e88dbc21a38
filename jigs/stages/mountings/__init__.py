"""The work on the lathe: what holds it, from the first board to the last turn."""
