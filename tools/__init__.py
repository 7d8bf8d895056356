"""What keeps the house in order: setting up, checking, measuring, writing the reference pages.

Nothing here is part of thruline itself, and thruline imports nothing from here.
"""
