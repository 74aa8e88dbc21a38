"""Parts off the cutter, the saw and the paper."""
