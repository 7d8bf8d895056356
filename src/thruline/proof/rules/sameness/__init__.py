"""Is a preset the same every time: leftovers, toggles, jumps, fights."""
