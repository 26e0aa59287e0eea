"""Files that are the shop's own."""
