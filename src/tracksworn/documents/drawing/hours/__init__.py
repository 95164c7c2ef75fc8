"""Hours left as intervals on one axis, with the shop visits drawn through them."""
