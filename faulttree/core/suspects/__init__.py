"""What is still suspect after every reading: exact Bayes over single faults, pairs, none of these.

density      how likely a reading is, given what a car would read
bayes        hypotheses and evidence to probabilities; knows no tree and no circuit
explain      which readings speak for and against a suspect
evidence     the readings of a walk, with the complaint's state at each
grid         faults of unknown size, as cells between sizes
on_bench     what the cars of a bench read, as likelihoods
tables       likelihoods that an author wrote, for a tree without a circuit
"""
