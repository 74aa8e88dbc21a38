"""Boards on which flat rings are glued up and trued."""
