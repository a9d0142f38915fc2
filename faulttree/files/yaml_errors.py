"""What can be wrong with a file before its content counts: the ids, and the exception."""

from faulttree.core.problem import Problem, in_order

CHECKS = {
    "file-size": "the file is larger than a document may be",
    "file-encoding": "the file is not UTF-8 text",
    "hidden-character": "a character that cannot be seen, or that reorders the text on screen",
    "yaml-syntax": "the text cannot be read as YAML",
    "yaml-directive": "a % line before the document",
    "yaml-document": "more than one document in a file",
    "yaml-anchor": "an anchor (&name)",
    "yaml-alias": "an alias (*name)",
    "yaml-merge": "a merge key (<<)",
    "yaml-tag": "a tag (!name)",
    "yaml-key": "a key that is missing or is not a single word or text",
    "yaml-depth": "lists and maps inside each other too deep",
    "yaml-nodes": "too many entries in one document",
    "yaml-length": "one text that is too long",
    "yaml-number": "a number that is too long, too large or not finite",
    "duplicate-key": "the same key twice in one map",
}
"""Every check made while a file is read, and what it finds."""


class YamlError(Exception):
    """A file that cannot be used as it stands, with everything found wrong in it."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        self.problems = in_order(problems)
        """By line and column; never empty."""
        super().__init__("; ".join(f"line {p.line}: {p.message}" for p in self.problems))
