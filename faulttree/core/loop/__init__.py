"""The refrigerant loop of a car, running steadily or standing: what gauges and thermometers show.

A lumped model of compressor, condenser, expansion valve or orifice tube, evaporator and charge. It
is made to move every gauge in the right direction and by about the right amount; docs/loop.md says
where it is not to be trusted.
"""
