"""One module a question: plain things in, a typed answer out.

The command line, the pages and Python callers all call these, so they cannot differ. Still pure: the
world comes in through faces.
"""
