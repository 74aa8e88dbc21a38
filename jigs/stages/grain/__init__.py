"""How the grain runs in every piece, and how it meets the joints."""
