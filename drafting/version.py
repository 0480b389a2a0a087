"""The version of the tool, in the one place that packaging, the command and the drawings read it from."""

VERSION = "0.1.0"
