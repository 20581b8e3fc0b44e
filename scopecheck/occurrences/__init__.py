"""A phrase where it stands: which places are read alike, which readings make sense, what settles them."""
