"""The command line: reads words, calls `app`, prints what comes back."""
