"""Why something cannot be opened, in words for the person who asked for it."""

from faulttree.core.problem import FileProblems
from faulttree.render.problems import problems_as_text


def why_not(error: Exception) -> str:
    """The error's own sentence; with every problem above it where a document has mistakes."""
    problems = getattr(error, "problems", None)
    if isinstance(problems, FileProblems):
        return f"{problems_as_text([problems])}{error}; faulttree check shows the same."
    if isinstance(error, OSError):
        return f"{error.filename or 'file'}: {error.strerror or error}"
    return str(error)
