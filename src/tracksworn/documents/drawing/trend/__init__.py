"""How each component wore from inspection to inspection, drawn."""
