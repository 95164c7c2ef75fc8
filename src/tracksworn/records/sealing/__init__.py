"""Keys, and documents signed with them."""
