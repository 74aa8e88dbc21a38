"""Sanding's surface, finish, weight."""
