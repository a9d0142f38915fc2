"""The sums a technician does, one line each.

kinds         what an input or a result is, in which units it is typed
sizes         wire sizes: square millimetres and American gauges
amounts       one input as typed, with its limit of error
sums          what a sum is: inputs, formula, source, work
meaning       words for where a result and its limits lie
refrigerants  which refrigerant, and the air outside: what sums about it have in common
answered      a sum done: every answer with its limits
ohms, …       the sums, one module a family
registry      all of them, and how one is found
typed         the words of a line as the inputs of a sum
asking        the inputs asked for one after the other

Nothing here imports numpy or pydantic.
"""
