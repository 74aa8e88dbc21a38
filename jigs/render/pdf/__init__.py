"""The book on paper."""
