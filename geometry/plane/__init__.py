"""The plane: closed contours and open profiles of straight and circular edges, met, offset, cut and sampled."""
