"""The real thing on the wire, seen through faces only.

Comes in: ports and a wall clock as Protocols, a rig, and what the stages work out about it.
Goes out: messages played in time; what came in, as a capture and in words; a pretend rig that
behaves as the model says. Nothing reaches a unit's memory unless a person asked for it and
confirmed it.
"""
