"""What one inspector recorded about one machine on one day, and the files it was written in."""
