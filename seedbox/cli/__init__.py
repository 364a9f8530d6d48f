"""The command line: one thin command over each thing that Seedbox can do."""
