"""Screens under test: begin a walk with a clock that stands still, press keys, read what is shown.

The text of a screen comes from one private name of Textual (`_compositor`); it is used here alone.
"""

import asyncio
from collections.abc import Awaitable, Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from textual.pilot import Pilot
from textual.screen import Screen
from textual.strip import Strip
from textual.widgets import Input

from builders import LAMP, Clock
from faulttree.core.units import UnitSystem
from faulttree.core.walk.events import Complaint, Intake
from faulttree.core.walk.respond import Recorded
from faulttree.files import places
from faulttree.files.documents import Loaded, load_tree, load_vehicle
from faulttree.session import Beginning, Session
from faulttree.ui.app import FaulttreeApp

NARROW, SMALL, WIDE = (80, 24), (60, 20), (130, 36)
