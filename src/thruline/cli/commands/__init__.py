"""One command a file, alike and unaware of each other."""
