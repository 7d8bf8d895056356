"""The questions that can be asked, a module for each.

Comes in: documents as text or bytes, and the world through faces. Goes out: typed answers, and the
same as plain data for JSON. The command line, the pages and Python callers all call these, so they
cannot differ. Still pure: nothing here opens a file.
"""
