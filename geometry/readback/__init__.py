"""What was drawn or read back, against what was meant."""
