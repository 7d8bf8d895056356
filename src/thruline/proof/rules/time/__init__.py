"""Is it in time: loading units, slow changes, full lines, clock."""
