"""`python -m drafting` is the command `awlwright`."""

from drafting.cli.main import command

command()
