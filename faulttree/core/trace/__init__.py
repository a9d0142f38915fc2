"""Logged traces of a voltage, current or temperature: read, scanned for dropouts, counted.

Pure: blocks of text go in, values come out. `analysis` puts the parts in order: `layout` and
`header` say what stands where in a text, `block` makes arrays of it, `timeline` and `survey` say
when samples were taken and how they lie, `scan` finds the dropouts, `marks` asks what they follow.
Arrays (numpy) are loaded by the modules that hold them.
"""
