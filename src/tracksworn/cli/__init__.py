"""The command line: one thin module a command, over the rooms that do the work."""
