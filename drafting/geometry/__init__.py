"""Lines and arcs: numbers -> outlines. Lengths are mm, angles radians, x to the right and y up.

Everything here is exact: a path is made of straight lines and parts of circles, and so is all that is made
from it. This room knows no leather, no text and no file; what cannot be drawn is raised as a
`GeometryFault`, which the caller turns into words.
"""
