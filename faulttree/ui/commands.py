"""Every command of the walk screen, declared once: key, footer, help and action come from here.

A single letter works while the answer line is empty: no reading begins with one of these letters.
While words are being typed, the control key does the same.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from textual.binding import Binding


@dataclass(frozen=True, slots=True)
class Command:
    """One command.

    Attributes:
        key: the letter.
        control: the key that works while text is typed; empty when there is none.
        action: name of the screen's action.
        label: what the footer shows.
        help: what the help page says.
        in_footer: shown at the foot of the screen.
    """

    key: str
    control: str
    action: str
    label: str
    help: str
    in_footer: bool = True

    @property
    def bindings(self) -> Iterator[Binding]:
        """The command as key bindings; the footer shows the first one that works at the moment."""
        keys = {self.key: self.letter, self.control: None}
        for key, shown_as in keys.items():
            if key:
                yield Binding(
                    key, self.action, self.label, show=self.in_footer, key_display=shown_as
                )

    @property
    def letter(self) -> str:
        """The key as it is shown."""
        return "?" if self.key == "question_mark" else self.key


WALK_COMMANDS: tuple[Command, ...] = (
    Command("b", "ctrl+b", "go_back", "Back", "take back the last answer; it stays in the record"),
    Command("e", "", "change_answer", "Change", "change an earlier answer"),
    Command("s", "ctrl+s", "skip_step", "Skip", "this step cannot be done; say why"),
    Command("n", "ctrl+n", "add_note", "Note", "write a note into the record"),
    Command("w", "", "show_why", "Why", "why this test, and where its bands come from"),
    Command(
        "x", "", "show_expected", "Expect", "readings to expect: healthy, and under each fault"
    ),
    Command("u", "", "show_suspects", "Suspects", "what is suspect after the readings, and why"),
    Command(
        "a",
        "",
        "show_next",
        "Advice",
        "the best next tests; take one aside from the tree",
        in_footer=False,  # no room in 80 columns; the page of suspects names it
    ),
    Command(
        "c",
        "ctrl+t",
        "set_complaint",
        "State",
        "does the complaint show itself now: one more key",
        in_footer=False,  # the head of the screen shows its key
    ),
    Command(
        "t", "", "count_tries", "Tries", "how often it shows before the repair", in_footer=False
    ),
    Command(
        "f",
        "",
        "do_sum",
        "Figure",
        "figure out a sum: wire, joint, lamp, fuse ...",
        in_footer=False,
    ),
    Command(
        "h",
        "",
        "show_gauges",
        "High/low",
        "high and low side: expected, read, and the cycle",
        in_footer=False,
    ),
    Command("p", "", "show_path", "Path", "the steps so far", in_footer=False),
    Command("d", "", "show_details", "Detail", "what each band means, or what each repair gives"),
    Command("question_mark", "f1", "show_help", "Help", "this page"),
    Command("q", "ctrl+q", "leave", "Quit", "leave; the case is kept as it is"),
    Command(
        "v", "", "measure_battery", "Battery", "battery voltage now, at any step", in_footer=False
    ),
    Command("i", "", "choose_instrument", "Instrument", "use another instrument", in_footer=False),
    Command("g", "", "change_details", "Car", "car, customer and so on", in_footer=False),
    Command("r", "", "show_report", "Report", "the report as it stands", in_footer=False),
    Command("l", "ctrl+l", "toggle_light", "Light", "light or dark colours", in_footer=False),
)

LETTERS = frozenset(c.key for c in WALK_COMMANDS if len(c.key) == 1) | {"?"}
"""What the answer line leaves to the commands while it is empty."""


def help_text() -> str:
    """The commands as a page of help."""
    lines = []
    for command in WALK_COMMANDS:
        also = f" or {command.control}" if command.control else ""
        lines.append(f"  {command.letter + also:14} {command.help}")
    return "\n".join(lines)
