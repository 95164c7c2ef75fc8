"""Many lots in one index and one catalogue: what stands in each, how they are found, and which need another look."""
