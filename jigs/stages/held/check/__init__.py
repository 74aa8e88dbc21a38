"""Whether every piece is held, and every sled stiff enough."""
