"""The order of tests that takes the least minutes on average.

problem    what is given: suspects, tests, set-ups
kinds      cars that read the same in every test; a reading that may fall either way makes two
board      kinds as the bits of a number, tests as masks on them
lattice    the least minutes of every set of a few kinds (numpy)
blocks     lower bounds that add up over blocks of kinds
bounds     lower bounds by entropy and by pairs, for the whole problem
search     the proven optimum: depth first, with a table of what is known of every set
quick      good orders without a proof: greedy, and one step better than greedy
best       the plan itself, with ties broken in the same way every time
solver     all of these for one problem
given      what a tree that somebody wrote takes, and where it loses minutes
following  what to test next, and what every other test would lose
unsure     tests that may show a wrong outcome by chance
planner    the way in

Nothing here knows trees, circuits or benches: numbers, names and sets alone.
"""
