"""Circuit models: what an instrument would show at every point of a car's circuit.

document, elements, conditions, amounts   the document, as an author writes it
laws                                      published laws of wires, batteries, sensors
netlist, parts*                           elements as branches between nodes
faults, fault_kinds                       what may go wrong, and what that does to a branch
cases                                     faults, states of the car and instruments to solve for
devices, controls, islands, solve         the operating point, many cases at once (numpy)
probes, readings                          instruments as a part of the circuit, and what they show

The modules that hold arrays import numpy; none of them is imported before something is solved.
"""
