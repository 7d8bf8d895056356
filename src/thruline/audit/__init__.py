"""A capture of the real rig beside what the model says, and the cause of what differs.

Comes in: a capture, which is timed bytes from one or more lines of a real rig, and what the model
says a press on each preset puts on those lines. Goes out: preset by preset what is as it should be
and what differs, and the likeliest single cause of all of it together, with its odds. Ports and
files are not known here.
"""
