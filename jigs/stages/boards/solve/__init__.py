"""How the wood is worked out."""
