"""Keys and seals."""
