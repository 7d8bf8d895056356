"""Adapters: where the world begins.

Comes in: what the stages want of files, ports and clocks. Goes out: the same in plain values of
ours, and every trouble as CannotUse or WorldFailed. What the world's libraries call things stays
in here.
"""
