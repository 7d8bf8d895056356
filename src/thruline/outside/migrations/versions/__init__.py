"""The steps, each with its number and that of the one before."""
