"""One walk through a tree: events are facts, the state is folded from them, nothing else is kept.

events.py    what can happen, as recorded
state.py     the fold: events to state
judge.py     a reading against the bands of its step
asks.py      what the walk asks next
respond.py   what was typed, turned into events or refused; the neighbours it hands on to:
readings.py, conclusions.py, and results.py with what an answer can come to
aside.py     a test taken aside from the tree, on advice
record.py    the walked path as lines, for screens and reports
"""
