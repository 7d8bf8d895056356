"""An undocumented controller: from what it sends to presets, channels and sweeps.

Comes in: captures of a controller whose memory nobody has written down, and what a person says of
the units. Goes out: what each preset sends, agreed upon by several presses of it; which controls
each pedal moves, from where to where and on which curve; what all that means by the charts of the
units; edits that write it into a rig document; and what remains unknown. Bytes may be garbled or
lost, so nothing that was heard once is believed more than it deserves. This stage knows no text.
"""
