"""A firm's own templates: read once from their folder, judged as they are written, run in bounds."""
