"""A tree on the bench: its tests done on a circuit model, under every fault, at every supply.

document                          the bench sheet, as an author writes it
sights                            what is seen of a car: conditions on its currents, lamps, relays
plan                              what has to be solved: states, faults, probes
table                             what every test reads, sees and chooses, in every row

Nothing here is imported before a tree is proved or its readings are asked for.
"""
