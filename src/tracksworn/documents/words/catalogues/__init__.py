"""Every sentence in other languages: one gettext catalogue each, read when a document is in that language."""
