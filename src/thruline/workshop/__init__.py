"""The store of rigs and charts, seen through faces only.

Comes in: shelves to look on. Goes out: the chart that a rig names. This package knows no file.
"""
