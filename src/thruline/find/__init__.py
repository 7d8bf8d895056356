"""Which one thing is wrong, when a board does not do what it should?

Comes in: a rig, and what people saw when they tried something. Goes out: what may be wrong with how
likely it is, the check that tells most for its time, why some things are ruled out, the mend and
the check that confirms it. What a check would show is never written down here: the fault is put
into the rig, and path, compose and timing tell what happens. This stage asks nobody anything and
keeps no record; a search is a plain value.
"""
