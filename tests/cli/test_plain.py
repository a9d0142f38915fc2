"""The walk line by line, in a real terminal: typed by hand, with slips, left and gone on with."""

import json
import re
import signal
import sys

import pytest
from builders import LAMP, lamp_text
from lamp_circuit import at_feed, lamp_folder, texts

pexpect = pytest.importorskip("pexpect")
PROMPT = re.compile(r"complaint \w+ \| [^\r\n]*: $")
INTAKE_QUESTIONS = 7


def _heed_interrupts():
    """As in a terminal: what is started in the background of a script would ignore Ctrl-C."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class Terminal:
    """The program in a pseudo-terminal, spoken to line by line."""

    def __init__(self, environment, folder, *arguments):
        self._child = pexpect.spawn(
            sys.executable,
            ["-m", "faulttree", *map(str, arguments)],
            env=environment,
            cwd=str(folder),
            encoding="utf-8",
            timeout=10,
            echo=False,
            dimensions=(24, 80),
            preexec_fn=_heed_interrupts,
        )

    def until(self, pattern):
        """Wait for a text; what came before it."""
        self._child.expect(pattern)
        return self._child.before + str(self._child.after)

    def send(self, text):
        """Type ahead, without waiting to be asked."""
        self._child.send(text)

    def type(self, *lines):
        """Type lines, each after the program has asked; what it said to the last one."""
        said = ""
        for line in lines:
            self._child.sendline(line)
            said = self.until([PROMPT, re.compile(r"(\(yes/no\)|\?:) $"), pexpect.EOF])
        return said

    def interrupt(self):
        """Ctrl-C."""
        self._child.sendintr()
        return self.until(pexpect.EOF)

    def exit_code(self):
        """Its exit code, after all has been said."""
        self._child.close()
        return self._child.exitstatus


@pytest.fixture
def begin(environment, tmp_path):
    """Begin a case of the example tree with nothing told about the car."""

    def start(tree=LAMP, vehicle=None):
        more = ["--vehicle", vehicle] if vehicle else []
        terminal = Terminal(environment, tmp_path, "walk", tree, "--plain", *more)
        terminal.send("\n" * INTAKE_QUESTIONS)
        terminal.until(PROMPT)
        return terminal

    return start


def test_a_walk_to_its_conclusion_with_slips_on_the_way(begin, run):
    walk = begin()
    assert "is not a reading" in walk.type("twelve")
    assert "OL is an open circuit on ohms only" in walk.type("OL")
    assert "Did you mean 12.6 V? Keep 126 V?" in walk.type("126")
    assert "Not recorded." in walk.type("no")
    assert "12.6 V ±0.1 V: + charged." in walk.type("12,6")
    walk.type("complaint present", "glows dim")
    assert "Too close to call" in walk.type("12.100"), "a reading exactly on an edge"
    assert "take it as: full feed" in walk.type("")
    assert "+ full feed." in walk.type("m", "12.55")
    assert "! lossy." in walk.type("1.20")
    said = walk.type("accept", "1", "Clean the eyelet", "clean", "clean", "clean", "close")
    assert "is closed." in said
    assert walk.exit_code() == 0
    (case,) = json.loads(run("cases", "--json").stdout)
    assert case["closed"]


def test_an_open_circuit_is_typed_as_the_meter_shows_it(begin):
    walk = begin()
    walk.type("12.60", "stays dark", "both light", "LX-5")
    assert "OL (open circuit): ! open." in walk.type("OL")


def test_a_step_is_shown_whole_once_what_it_names_is_known(begin):
    walk = begin()
    walk.type("12.60", "stays dark")
    asked = walk.type("both light")
    assert "Lamp out, across its contacts" in asked
    assert "Compare the type" not in asked
    assert "Compare the type with LX-5." in walk.type("LX-5")
    assert "   lamp-type: LX-5 (vehicle data)" in walk.type("path")
    walk.type("change lamp-type")
    assert "Compare the type with LX-7." in walk.type("LX-7")


def test_ctrl_c_keeps_what_was_recorded_and_the_walk_goes_on(begin, environment, tmp_path, run):
    walk = begin()
    walk.type("12.60", "note before the break")
    assert "Stopped; what was recorded is kept." in walk.interrupt()
    assert walk.exit_code() == 2
    (case,) = json.loads(run("cases", "--json").stdout)
    assert case["events"] == 3
    again = Terminal(environment, tmp_path, "resume", case["id"], "--plain")
    assert "Step 2: Look at the reversing lamp" in again.until(PROMPT)
    assert "Kept as" in again.type("quit")
    assert again.exit_code() == 0


def test_back_change_skip_and_path(begin):
    walk = begin()
    walk.type("12.60", "glows dim")
    assert "Step 2" in walk.type("back")
    assert "1. battery-rest: 12.60 V ±0.08 V: + charged" in walk.type("path")
    said = walk.type("change battery-rest")
    assert "changing; complaint unknown | Reading [V]" in said
    assert "? low." in walk.type("12.00")
    assert "has no answer on this path" in walk.type("change feed")
    assert "Why can this step not be done" in walk.type("skip")
    walk.type("")
    assert "Step 3: Feed at the lamp" in walk.type("skip no helper")


@pytest.mark.parametrize(
    ("command", "answer"),
    [
        ("help", "Type the reading and press Enter."),
        ("why", "Every later voltage is compared with this one."),
        ("bands", "Too little to judge by. → Battery first"),
        ("expected", "This tree has no circuit model that readings could be worked out from."),
        ("options", "There are no repair options here."),
        ("complaint gone", "present, absent, unknown, or provoked by WHAT"),
        ("back", "nothing to go back on"),
        ("again", "Step 1: Battery voltage at rest"),
    ],
)
def test_the_commands_answer(begin, command, answer):
    assert answer in " ".join(begin().type(command).split())


def test_tries_are_counted_and_the_run_is_as_long_as_they_ask(begin, run):
    walk = begin()
    walk.type("12.60", "complaint present", "glows dim")
    assert "cannot be" in walk.type("tries 4 of 2")
    assert "it showed in how many tries" in walk.type("tries")
    said = " ".join(walk.type("3 of 5").split())
    assert "It showed in 3 of 5 tries: after the repair 7 clean cycles in a row will do" in said
    walk.type("12.55", "1.20", "accept", "1", "Clean the eyelet", "clean", "clean")
    said = " ".join(walk.type("clean").split())
    # 1 - 0.05^(1/3) = 63.2 % and 1 - 0.05^(1/7) = 34.8 %, rounded up
    assert "3 clean, at most 64 %; 7 clean, at most 35 % (95 % confidence)" in said
    assert "Proving run, 3 of 7 clean in a row" in said
    said = " ".join(walk.type("clean", "clean", "clean", "clean").split())
    assert "luck of at most 5 in 100" in said
    assert "is closed." in walk.type("close")
    (case,) = json.loads(run("cases", "--json").stdout)
    told = json.loads(run("report", case["id"], "--json").stdout)["conclusion"]["proving-run"]
    assert (told["wanted"], told["before"]) == (7, {"seen": 3, "tries": 5})


def test_what_a_step_would_read_is_told_in_the_words_of_the_screen(begin, tmp_path):
    tree = lamp_folder(tmp_path / "lamp")
    walk = begin(tree, LAMP / "vehicle.yaml")
    walk.type("complaint present", "12.60", "glows dim")
    said = " ".join(walk.type("expected").split())
    wanted = " ".join(" ".join(texts(at_feed(tmp_path / "other"))).split())
    assert wanted in said
    assert "Step 4: Ground of the lamp" in walk.type("12.50"), "and the walk goes on"


def test_what_cannot_be_worked_out_is_a_sentence_in_plain_mode(begin, environment, tmp_path):
    walk = begin(lamp_folder(tmp_path / "lamp"), LAMP / "vehicle.yaml")
    (model,) = tmp_path.glob("**/cases/*/circuit.yaml")
    model.write_text("format: circuit/1\n", "utf-8")
    said = " ".join(walk.type("expected").split())
    assert "circuit.yaml in the folder of this case cannot be used" in said
    model.unlink()
    assert "This case has no circuit.yaml in its folder" in " ".join(walk.type("expected").split())


def test_hostile_words_come_out_as_words(begin, tmp_path):
    tree = tmp_path / "tree.yaml"
    title = "[red]x[/red] <b>y</b> **z** [a](http://bad.example)"
    tree.write_text(
        lamp_text(
            ("title: Battery voltage at rest", f"title: '{title}'"),
            (
                "why: Every later voltage is",
                f"why: '{'long ' * 300}'\n    # why: Every later voltage is",
            ),
        ),
        "utf-8",
    )
    walk = begin(tree, LAMP / "vehicle.yaml")
    assert f"Step 1: {title}" in walk.type("again")
    assert max(map(len, walk.type("why").splitlines())) <= 80
    said = walk.type("note \x1b]0;title\x07 [b]bold[/b]", "report")
    assert "\x1b" not in said
    assert r"\[b\]bold\[/b\]" in said


def test_a_pipe_is_walked_line_by_line_without_being_asked(run):
    done = run("walk", LAMP, typed="12.60\nlights\n1\nclose\n")
    assert done.returncode == 0
    assert "No fault found now" in done.stdout
    assert "is closed." in done.stdout
