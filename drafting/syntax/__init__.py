"""Source -> Tree: what was written, and nothing about what it means.

Takes a Source and gives a File of frozen nodes with their spans, and back: `tidy` writes a File as text.
Never asks what a name stands for: an unknown name is the model's business.
"""
