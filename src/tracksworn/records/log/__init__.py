"""The log: every act on the archive, in a tree of hashes by which anybody can check that nothing was taken back."""
