"""The order of tests that takes the least minutes on average.

problem    what is given: suspects, tests, set-ups
plan       what comes out: which test first, which after each outcome, and what it takes
planner    the way in
unsure     the same for tests that may show a wrong outcome by chance; beliefs is what it works on

kinds      cars that read the same in every test; a reading that may fall either way makes two
set_ups    how the car is set up, as a number
board      kinds as the bits of a number, tests as masks on them
clusters   kinds in blocks that are dear to tell apart (numpy)
lattice    the least minutes of every set of a few kinds (numpy)
blocks     lower bounds that add up over blocks of kinds
bounds     lower bounds by codes and by pairs, for the whole problem (numpy)
search     the proven optimum: depth first, with a table of what is known of every set
quick      good orders without a proof
best       the plan itself, with ties broken in the same way every time
solver     all of these for one problem
following  what to test next, and what every other test would lose

Nothing here knows trees, circuits or benches: numbers, names and sets alone.
docs/decisions/test-order.md tells why it is as it is.
"""
