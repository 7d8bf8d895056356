"""The MIDI 1.0 byte stream, as the published standard has it.

Comes in: bytes as they pass on a line, or messages to be sent. Goes out: messages as frozen values
and what was wrong with the bytes, or bytes to send. This package knows nothing of rigs, units,
ports or clocks on the wall.
"""
