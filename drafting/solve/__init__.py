"""Pattern -> Plan -> Placed: facts become equations, equations an ordered plan, a plan numbers for one size.

`system` and `plan` work without any pattern text; `lowering` turns a Pattern into a System.
"""
