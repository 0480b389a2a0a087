"""Tree -> Pattern: names bound, kinds and units checked, facts listed.

Takes the tree of a pattern file and gives a Pattern and its messages. Knows no numbers for points: where a point lies
is the solver's business.
"""
