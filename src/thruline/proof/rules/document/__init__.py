"""Does the document hang together: names, sockets, plugs, numbers."""
