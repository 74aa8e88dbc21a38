"""Staves glued to tubes, these sliced to rings."""
