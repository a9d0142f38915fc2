"""Proving a tree: every fault walked through it with computed readings.

set_up       tree, circuit and sheet put on a bench
live         which known values later steps still refer to
standing     where a walk stands, and all that its way on depends on
judged       one reading of the bench against a step's bands, with the instrument's error
turns        the ways on from a step
walks        the set walk: from the start to every conclusion a car can lead to
ends         what a conclusion is worth under a fault
measures     fault detection, fault isolation, ambiguity groups, minutes
apart        which faults a test can tell apart
expected     what a step reads and shows, healthy and under every fault
tree_proof   all of it for one tree

The words are those of testability: fault detection, fault isolation, ambiguity group, false alarm
(IEEE Std 1522-2004, MIL-STD-2165). The formulas are our own and stand where they are used.
"""
