"""The kinds of file, key by key: what may be written, what is required, and the plain values that it becomes."""
