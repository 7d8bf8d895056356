"""The rig model: frozen, every reference resolved.

Comes in: the shapes of a rig and of its charts. Goes out: units, cables, presets, sweeps and songs
that know each other, and a list of what could not be resolved. Only `resolve` and `read_chart` know
documents; the model does not know who hears whom, nor when.
"""
