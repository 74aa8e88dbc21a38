"""How each part of a vessel plan is worked out."""
