"""Boards, from the rack to strips."""
