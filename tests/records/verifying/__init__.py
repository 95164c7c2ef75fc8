"""Six answers about a file."""
