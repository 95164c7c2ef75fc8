"""Many inspections at once: made by several processes, written by one, and only what has changed."""
