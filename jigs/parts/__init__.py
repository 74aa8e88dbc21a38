"""What a user holds in the hand: plates, their lettering, their codes, how they are made."""
