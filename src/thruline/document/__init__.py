"""Documents as text. TOML is known here and in no other stage.

Comes in: the text of a rig or a chart. Goes out: its shape (typed), the spot of every value, or
problems in plain words; and a changed text when an edit is applied. This stage does not know what
the things named in a document mean to each other.
"""
