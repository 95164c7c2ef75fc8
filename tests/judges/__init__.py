"""Finished documents before judges that had no part in making them."""
