"""How a layup is worked out."""
