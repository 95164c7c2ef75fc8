"""The log: every act on the archive, append-only, in a tree of hashes that lets anybody check that nothing was taken back."""
