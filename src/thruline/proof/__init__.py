"""The proof: every rule held against one rig, exhaustively.

Comes in: a rig. Goes out: findings with their evidence and mends, what cannot be told, and how much
was proved. A rule asks the case and computes nothing shared itself; it knows no document, no file.
"""
