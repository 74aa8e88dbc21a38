"""A lid: how it lies on its pot, and its flange fitted to it."""
