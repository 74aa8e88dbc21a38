"""The forms: which stages the work of each has, in their order."""
