"""What a batch of items takes: parts, leather, thread, hardware, glue and what all of it costs.

Takes placed patterns and how many of each; gives amounts that add up exactly. Knows no file, and no unit but mm.
"""
