"""From a photo, or from a hand scanner that types, to a list of codes."""
