"""Does it fit into the controller: presets, messages, pedals."""
