"""Whether a preset always ends in the same state: what every control can hold on entering it.

Comes in: what each preset does to each unit (the runs of `timing`), and the sweeps. Goes out: for
every preset and control whether one value is certain, and if not, two histories that give different
ones; sweeps that jump or fight; switches whose state nobody can know.

Nothing is sampled. Controls do not influence one another, so each can be followed by itself: a
preset either sets it or leaves it as it was, and what it may be left at is the union of all that
any preset, any pedal and power-up can leave. So the answer holds for histories of any length.

    codes.py      a value, or what is known instead of one, as one whole number
    columns.py    what is followed: controls, programs, bank registers, relay loops
    doubts.py     messages of which a chart does not say what becomes of them
    rows.py       what the messages of each preset do to each column
    strokes.py    what sweeps do to columns, place by place
    cover.py      what all strokes together do to presets
    effects.py    the table of both; it goes on from an earlier one
    held.py       the sets of values, and what each preset can say on entering
    counts.py     how many changes of preset end elsewhere than most
    witness.py    two histories that end differently
    leftovers.py  columns that are left over, told for people
    jumps.py      sweeps that jump at the first movement of the pedal
    fights.py     two sweeps, or a sweep and a preset, on one control
    toggles.py    switches that are flipped blindly
    words.py      what a code is called
"""
