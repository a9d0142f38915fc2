"""Proving a tree: every fault walked through it with computed readings.

judged       one reading of the bench against a step's bands, with the instrument's error
walks        the set walk: from the start to every conclusion a car can lead to
ends         what a conclusion is worth under a fault
measures     fault detection, fault isolation, ambiguity groups, minutes
apart        which faults a test can tell apart
tree_proof   all of it for one tree

The words are those of testability: fault detection, fault isolation, ambiguity group, false alarm
(IEEE Std 1522-2004, MIL-STD-2165). The formulas are our own and stand where they are used.
"""
