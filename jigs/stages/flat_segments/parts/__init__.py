"""The sleds for flat rings, their stops, and what sets them."""
