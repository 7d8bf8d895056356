"""Who hears whom: the MIDI paths of a rig, computed from contacts.

Comes in: a rig. Goes out: links between sockets, the network they make with what every output
forwards, the routes from each source of messages to each input, the rings, and how one message
fares on its way. This stage knows no times and no documents.
"""
