"""Invented charts and rigs that come with the tool: data to learn from, and no code.

`charts/` holds charts of models that do not exist, named after apple varieties; a rig may name them
by id. `orchard-street/orchard-street.rig.toml` is the board of a touring show, proved clean;
`as-found.rig.toml` beside it is the same board as it came in, with mistakes to find.
`first-board/first-board.rig.toml` is what a new rig starts from: its `rig.name` is to be filled.
"""
