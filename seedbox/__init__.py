"""Seedbox: what is in a tin of seed packets, how much of it still lives, and labels that scan."""

__version__ = "0.1.0"
