"""Mends weighed and applied: what an edit of the document would put right, and what it would cost.

Comes in: findings with their mends, and a way to prove the rig again after edits. Goes out: for
each mend what is gone and what is new. This stage knows no text and no file.
"""
