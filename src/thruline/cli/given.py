"""What a person may give to more than one command."""

import click

A_FILE = click.Path(readable=False)
"""A file or folder by name. Whether it may be read is found out, and told, by what reads it."""
