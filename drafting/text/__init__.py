"""Characters in, places and quantities out: the ground floor.

Source files and the spans that point into them, the messages and their one catalogue, and lengths with their
units. Knows nothing of what a statement means. Only this room reads pattern files.
"""
