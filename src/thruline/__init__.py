"""thruline."""
