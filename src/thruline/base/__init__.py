"""What every stage may lean on: five small modules and no more.

Comes in: nothing. Goes out: errors, measures, spots in a text, addresses of things, and edits as
data. This package knows nothing of MIDI, rigs or files.
"""
