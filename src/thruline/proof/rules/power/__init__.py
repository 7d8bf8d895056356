"""Does every unit get the power it wants, and no other."""
