"""Boards, retainer and braces."""
