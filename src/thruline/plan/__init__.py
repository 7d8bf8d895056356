"""Plans: what to set, where to plug, what to make, each the best there is and proved to be.

Comes in: a rig, with who hears whom. Goes out: a plan with its cost, a bound that no plan can beat,
the reason for each choice, and edits of the document; or what stands in the way. The solvers know
numbers only and can be used without a rig. This stage knows no text, and changes nothing itself.
"""
