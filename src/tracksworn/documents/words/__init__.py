"""Every sentence a reader sees, marked for gettext, and every figure as text."""
