"""Presets to messages: what the controller must hold, in the best order, and why none is better.

Comes in: a rig, one of its presets, and how far each unit lies down the line. Goes out: a sending
in the numbers of the wire, and the proof or the bound that goes with it. This stage does not play
what it makes; whoever wants to know what the units make of it asks `timing`.
"""
