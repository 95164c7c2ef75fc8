"""The archive: files that are readable without this program, an index beside them, and a log of every act."""
