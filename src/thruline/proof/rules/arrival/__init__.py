"""Does every message arrive: links, outputs, rings, copies."""
