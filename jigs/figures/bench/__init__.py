"""At the bench: halves on their boards, rings in the check corner."""
