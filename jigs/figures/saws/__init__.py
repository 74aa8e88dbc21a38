"""Set-ups at the saw, seen from above: one file for each sled."""
