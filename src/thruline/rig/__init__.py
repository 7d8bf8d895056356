"""The rig model: frozen, every reference resolved.

Comes in: the shapes of a rig and of its charts. Goes out: units, cables, presets, sweeps and songs
that know each other, and a list of what could not be resolved; of a chart, what does not fit
together (`chart_check`) and what it leaves out (`missing_facts`). Only resolving, reading and
checking know documents; the model does not know who hears whom, nor when.
"""
