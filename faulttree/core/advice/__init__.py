"""Which test to do next, and in which order: the tests of a tree as a problem of least minutes.

outcomes     what each test of a tree would tell of each car
as_problem   that as suspects, tests and set-ups for core/order
tree_path    what the author's tree takes on the same cars
compared     the tree beside the best order, and where it loses minutes
next_test    the best test from what is suspect now
not_counted  steps that take no part in the order, and why
ends         which conclusion an end of the order comes to
planting     the order as steps with all that follows them
drafting     the order as a tree in outline
draft        what such an outline is
"""
