"""Two revisions of a rig held side by side: what has to be done by hand, and nothing else.

Comes in: two rigs, each with what its controller's memory holds. Goes out: the board as a list of
facts before and after, a work order that leads from one to the other (proved by carrying it out on
the list), and what to test again. This stage knows no text.
"""
