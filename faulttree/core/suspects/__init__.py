"""What is still suspect after every reading: exact Bayes over single faults, pairs, none of these.

density      how likely a reading is, given what a car would read
hypotheses   what may be wrong and what was read, as arrays; no tree, no circuit
modes        how likely all readings are, in every way in which a fault may have been there
bayes        hypotheses and evidence to probabilities
explain      which readings and sightings speak for and against a suspect
evidence     the readings of a walk, with the complaint's state at each
likely       how likely one reading is under every suspect, for a sound car, for anything
grid         faults of unknown size, as cells between sizes
spread       how far a real car may be from the model
on_bench     what the cars of a bench read, as likelihoods
twos         two faults at once, where no single one explains the readings
inferred     likelihoods to what is suspect, wherever they come from
ranking      what is suspect, as it is told
suspicion    all of it for a car on the bench
tables       likelihoods that an author wrote, for a tree without a circuit
shares       by_part, along and suspected: what is suspect by part, and along the circuit
"""
