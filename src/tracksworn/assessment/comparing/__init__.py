"""Two machines, or two inspections of one, against each other."""
