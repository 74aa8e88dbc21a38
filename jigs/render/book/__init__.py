"""What a shop book says, in words and in its order; the page and the paper show the same."""
