"""The listing sheet: one page for a lot, understood in ten seconds, honest about intervals and what was not seen."""
