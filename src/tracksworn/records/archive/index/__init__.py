"""The index: what makes records quick to find. It holds nothing that the files and the log do not say."""
