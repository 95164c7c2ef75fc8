"""Records: documents sealed, verified, and kept for decades."""
