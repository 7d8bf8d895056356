"""The proof: every rule held against one rig, exhaustively.

Comes in: a rig. Goes out: findings with their evidence and mends, what cannot be told, and how much
was proved. What more than one rule needs is worked out in the case; no
rule knows a document or a file.
"""
