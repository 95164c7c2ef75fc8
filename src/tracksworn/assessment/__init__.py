"""What follows from an inspection and a chart: pure arithmetic, without files, clock or network."""
