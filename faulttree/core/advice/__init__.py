"""Which test to do next, and in which order: the tests of a tree as a problem of least minutes.

outcomes     what each test of a tree would tell of each car
"""
