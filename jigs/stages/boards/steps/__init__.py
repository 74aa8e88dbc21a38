"""Boards to lengths, to thickness, to strips."""
