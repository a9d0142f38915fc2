"""A tree on the bench: its tests done on a circuit model, under every fault, at every supply.

document     the bench sheet, as an author writes it
suspects     the cars: every fault and situation in every form, at every supply
leads        which node a lead's text stands for
setting      how a step sets the car: key, loads, what is unplugged
fitted       what a walk has left on the car
looks        the circuit solved for a setting, in every row that is asked for
solved_rows  voltages, currents, lamps and fuses of those rows
reader       what an instrument reads there
sights       what is seen there: conditions on currents, lamps, relays
bench        the way in: what a step shows, what a proof does
ways         ways of the current from node to node
strands      the circuit as strands, for drawing what is proved good along them

Nothing here is imported before a tree is proved or its readings are asked for.
"""
