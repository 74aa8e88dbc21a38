"""What the sleds have in common: base, fence, stop, hold-down, guide."""
