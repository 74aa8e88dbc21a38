"""How the finished form will look: colours of every point, pictures, a model."""
