"""Air conditioning: what gauges, pipes, vent, charge and clutch should be, by published figures.

windows   what gauges, condensing split and vent of a good system usually show
splits    superheat, subcooling, condensing split, pressure ratio; what is usual of them
static    what the pressure of a soaked, standing system tells
charge    what was in a system, what is in it now, what is still to go in
clutch    whether a compressor clutch pulls in, by gap, heat and supply
fan       when a pressure switch has the condenser fan run
"""
