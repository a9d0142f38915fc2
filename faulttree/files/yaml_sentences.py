"""The reader's own errors in an author's words.

The reader speaks of tokens and block ends. `explain` says the same to an author who has never
heard of them, in one place, so that no other module reads the reader's wording.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from faulttree.core.problem import Place, Problem

_LONGEST_KEY = 1024
"""The longest key without `?` [characters]; YAML 1.2.2, 2021, section 8.2.2."""


@dataclass(frozen=True, slots=True)
class ReaderTrouble:
    """Where and why the reader of YAML gave up, in its own words."""

    problem: str
    line: int
    """Counted from 1."""
    column: int
    """Counted from 1."""
    context: str = ""
    """What the reader was reading."""
    start_line: int = 0
    """Where that began, counted from 1; 0 when the reader does not say."""
    start_column: int = 0


def explain(trouble: ReaderTrouble, text: str) -> Problem:
    """The reader's trouble as a problem an author can mend."""
    scene = _Scene(trouble, text.split("\n"))
    return next(sentence(scene) for is_meant, sentence in _SENTENCES if is_meant(scene))


def sign_in_brackets(sign: str, line: int, column: int) -> Problem:
    """A `?` or `:` inside brackets in a text without quotes: the C reader cannot read it."""
    message = f"a text without quotes inside brackets cannot hold `{sign}`"
    return Problem("yaml-syntax", "error", message, line, column, "put quotes round the whole text")


@dataclass(frozen=True, slots=True)
class _Scene:
    """The trouble together with the text it points into."""

    trouble: ReaderTrouble
    lines: list[str]

    @property
    def before(self) -> str:
        """The line as far as the place where the reader stopped."""
        return self.lines[self.trouble.line - 1][: self.trouble.column - 1]

    @property
    def rest(self) -> str:
        """The line from the place where the reader stopped."""
        return self.lines[self.trouble.line - 1][self.trouble.column - 1 :]

    @property
    def line_above(self) -> str:
        """The nearest line above that is neither blank nor a comment; empty if there is none."""
        above = reversed(self.lines[: self.trouble.line - 1])
        return next((line for line in above if not re.match(r"\s*(#|$)", line)), "")


_Test = Callable[[_Scene], bool]
_Sentence = Callable[[_Scene], Problem]


def _here(message: str, help_text: str, check: str = "yaml-syntax") -> _Sentence:
    """A sentence about the place where the reader stopped; `{sign}` is what stands there."""

    def sentence(scene: _Scene) -> Problem:
        line, column = scene.trouble.line, scene.trouble.column
        said = message.format(sign=scene.rest[:1])
        return Problem(check, "error", said, line, column, help_text)

    return sentence


def _at_start(message: str, help_text: str) -> _Sentence:
    """A sentence about the place where the thing began; `{sign}` is what stands there."""

    def sentence(scene: _Scene) -> Problem:
        line, column = scene.trouble.start_line, scene.trouble.start_column
        said = message.format(sign=scene.lines[line - 1][column - 1 : column])
        return Problem("yaml-syntax", "error", said, line, column, help_text)

    return sentence


def _at_key(message: str, help_text: str) -> _Sentence:
    """A sentence about the whole key in front of the place where the reader stopped."""

    def sentence(scene: _Scene) -> Problem:
        key = scene.before.lstrip(" ")
        line, column = scene.trouble.line, scene.trouble.column - len(key)
        return Problem("yaml-syntax", "error", message, line, column, help_text, max(1, len(key)))

    return sentence


def _second_colon(other_cure: str = "") -> _Sentence:
    return _here(
        "a second colon with a space after it makes this text unclear",
        "put quotes round the whole text" + other_cure,
    )


def _colon(scene: _Scene) -> Problem:
    """The reader met `: ` where no key can be; several slips lead there."""
    if re.search(r":\s", scene.before):
        return _second_colon()(scene)
    if len(scene.before) > _LONGEST_KEY:
        sentence = _at_key("this key is too long", f"use {_LONGEST_KEY} characters at most")
    elif scene.before.startswith("---"):
        sentence = _at_key("no key may follow `---` on its line", "start it on the next line")
    elif re.match(r"\s*(- )?[\w-]+:\S", scene.line_above):
        sentence = _at_key(
            "this key cannot follow the line above, which has no space after its colon",
            "put a space after the colon of the line above",
        )
    else:
        sentence = _at_key(
            "there can be no key here: the line above already holds a value, or has no colon",
            "indent this line like its neighbours, or end the line above with a colon",
        )
    return sentence(scene)


def _bracket_colon(scene: _Scene) -> Problem:
    return sign_in_brackets(":", scene.trouble.line, scene.trouble.column)


def _unclosed_bracket(scene: _Scene) -> Problem:
    trouble = scene.trouble
    if scene.rest.startswith("?"):
        return sign_in_brackets("?", trouble.line, trouble.column)
    if scene.rest.startswith(":") and trouble.line == trouble.start_line:
        return _second_colon(", or a comma before the next key")(scene)
    kind, close = ("list", "]") if "sequence" in trouble.context else ("map", "}")
    return Problem(
        "yaml-syntax",
        "error",
        f"the bracketed {kind} has neither a comma nor `{close}` before this",
        trouble.line,
        trouble.column,
        f"close the {kind} with `{close}`, put a comma between its entries, or quotes round a text",
        also=(Place(trouble.start_line, trouble.start_column, "opened here"),),
    )


def _among_keys(scene: _Scene) -> Problem:
    if scene.rest.startswith(":"):
        sentence = _here("there is no key before this colon", "write the key", "yaml-key")
    elif scene.before.strip(" -"):
        sentence = _here(
            "text follows a closed quote or bracket",
            "put quotes round the whole text, and write a quote inside single quotes twice",
        )
    elif re.match(r"-(\s|$)", scene.rest):
        sentence = _here(
            "a list entry stands among the keys of a map", "indent the list below its own key"
        )
    else:
        sentence = _here(
            "the indentation of this line matches no line above",
            "start the line in the same column as the keys it belongs to",
        )
    return sentence(scene)


def _among_entries(scene: _Scene) -> Problem:
    if scene.before.strip(" -"):
        return _among_keys(scene)
    return _here(
        "this line stands among list entries and does not start with `- `",
        "start it with `- `, or give it the indentation of the map it belongs to",
    )(scene)


def _missing_value(scene: _Scene) -> Problem:
    if not scene.rest:
        sentence = _here("the text ends where a value should be", "write the value, or close it")
    else:
        sentence = _here(
            "`{sign}` stands where a value or a key should be",
            "write the missing value, or put quotes round the text",
        )
    return sentence(scene)


def _mentions(*needles: str) -> _Test:
    """Whether the reader's words hold one of the needles."""

    def is_meant(scene: _Scene) -> bool:
        words = f"{scene.trouble.context}: {scene.trouble.problem}"
        return any(needle in words for needle in needles)

    return is_meant


def _is_tab(scene: _Scene) -> bool:
    found = scene.trouble.problem
    return "tab character" in found or ("cannot start" in found and scene.rest.startswith("\t"))


def _is_stray_bracket(scene: _Scene) -> bool:
    outside = _mentions("a block mapping:", "a block collection:", "<document start>")
    return scene.rest[:1] in ("]", "}") and outside(scene)


_QUOTE_IT = "put quotes round the text"

_SENTENCES: tuple[tuple[_Test, _Sentence], ...] = (
    (_is_tab, _here("a tab stands where only spaces may stand", "replace the tab with spaces")),
    (_mentions("mapping values are not allowed"), _colon),
    (
        _mentions("could not find expected ':'"),
        _at_start(
            "this line among keys has no colon",
            "write it as `key: value`, or indent it to join the text above",
        ),
    ),
    (
        _mentions("a quoted scalar: found unexpected"),
        _at_start("the quote that opens here is never closed", "close it with the same quote"),
    ),
    (
        _mentions("quoted scalar:"),
        _here(
            "this backslash starts no known sign",
            "use single quotes round the text, or write the backslash twice",
        ),
    ),
    (_mentions("',' or"), _unclosed_bracket),
    (_mentions("found unexpected ':'"), _bracket_colon),
    (
        _mentions("cannot start any token"),
        _here("a text without quotes cannot start with `{sign}`", _QUOTE_IT),
    ),
    (
        _mentions("an alias:", "an anchor:", "a directive:"),
        _at_start("a text without quotes cannot start with `{sign}`", _QUOTE_IT),
    ),
    (
        _mentions("entries are not allowed"),
        _here(
            "a list entry cannot start here",
            "start each entry on its own line, or put quotes round a text that starts with `- `",
        ),
    ),
    (
        _mentions("mapping keys are not allowed"),
        _here("a text without quotes cannot start with `? `", _QUOTE_IT),
    ),
    (
        _mentions("a block scalar:"),
        _here(
            "nothing may follow `|` or `>` on its line", "start the text on the next line, indented"
        ),
    ),
    (_is_stray_bracket, _here("this `{sign}` closes nothing", "remove it")),
    (_mentions("a block mapping:"), _among_keys),
    (_mentions("a block collection:"), _among_entries),
    (_mentions("node content"), _missing_value),
    (
        _mentions("tag", "URI"),
        _here(
            "a tag (!name) is not used in these files",
            "remove it, or put quotes round a text that starts with `!`",
            "yaml-tag",
        ),
    ),
    (
        _mentions("<document start>", "document end marker"),
        _here(
            "the document has already ended above",
            "remove this, or give it the indentation of the part it belongs to",
            "yaml-document",
        ),
    ),
    (
        lambda scene: True,
        _here(
            "the text cannot be understood from here on",
            "check indentation, quotes and brackets on this line and the line above",
        ),
    ),
)
"""What each of the reader's phrases means, C and Python alike; the first match is said."""
