"""The exit codes, as the help of every command tells them."""

from __future__ import annotations

FINE = 0
FAULTS = 1
WRONG_USE = 2
BROKEN = 3
INTERRUPTED = 130
BROKEN_PIPE = 141

TAUGHT = """\
exit codes:
  0    fine; warnings may have been shown
  1    the pattern has faults; nothing was written, unless a draft was asked for or a chart that tells of them
  2    the command was used wrongly: an unknown name, a file that cannot be read or written
  3    the tool itself failed; please report what it says
  130  stopped with Ctrl-C, and nothing was written"""
