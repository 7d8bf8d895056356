"""The command line: reads words, calls `app`, prints what comes back.

Comes in: the words of one command. Goes out: text or JSON, and an exit code. It computes nothing
itself.
"""
