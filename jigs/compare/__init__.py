"""Other counts of rings and segments, and other boards, for the same work: side by side, each tried first."""
