"""The trade: placed lines and amounts -> holes, seams, bends, cuts, and what a workshop would say of them.

Takes lines and arcs of `drafting.geometry` and plain numbers; gives stitch holes, joins, thread, bends, slits, turned
edges, contents, workshop rules and cautions as frozen values. It knows no file and reads no pattern text. What cannot
be done as asked is raised as a `CraftFault`, with its figures and its line of the catalogue; the caller knows the
maker's names and the place in the text.

Lengths are mm and angles radians, as in geometry.
"""
