"""One module a command. None is imported before its command is asked for."""
