"""pydantic's findings in an author's words, each with its place in the file."""

import re
import types
from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.problem import Problem
from faulttree.files.yaml_source import Source

_PATTERNS = {
    "^[a-z]": "lower case letters, digits and single hyphens, starting with a letter",
    "^[^\\n]": "one line",
    "^(0|": "three numbers with points, for example 1.0.0",
    "^\\d{4}": "a date with the year first, for example 2026-11-25",
}


def findings_of(error: ValidationError, model: type[BaseModel], data: Any) -> list[Finding]:
    """Every mistake in a document's shape.

    Args:
        error: what pydantic found.
        model: the document's model.
        data: the document as plain data, to tell keys from pydantic's own marks.
    """
    errors = error.errors(include_url=False)
    found = [_finding(e, model, data) for e in errors if not _follows_from_another(e, errors)]
    return list(dict.fromkeys(found))


def _follows_from_another(error: Any, errors: Sequence[Any]) -> bool:
    """A list too short only because its entries have mistakes that are told anyway."""
    loc = error["loc"]
    return error["type"] == "too_short" and any(
        len(e["loc"]) > len(loc) and e["loc"][: len(loc)] == loc for e in errors
    )


def located(finding: Finding, source: Source) -> Problem:
    """A finding with its line and column."""
    line, column = source.where(finding.path, finding.on_key)
    return Problem(
        finding.check,
        finding.severity,
        finding.message,
        line,
        column,
        finding.help,
        length=_length(finding, source, line, column),
    )


def _length(finding: Finding, source: Source, line: int, column: int) -> int:
    lines = source.text.split("\n")
    rest = lines[line - 1][column - 1 :] if 0 < line <= len(lines) else ""
    key = str(finding.path[-1]) if finding.path else ""
    if finding.on_key and rest.startswith(key):
        return max(1, len(key))
    value = rest.split(" #")[0].rstrip()
    if value[:1] not in ("{", "[", '"', "'") and _inside_flow(lines[line - 1][: column - 1]):
        value = re.split(r"[,}\]]", value)[0]
    return max(1, len(value.rstrip()))


def _inside_flow(before: str) -> bool:
    return before.count("{") + before.count("[") > before.count("}") + before.count("]")


def _finding(error: Any, model: type[BaseModel], data: Any) -> Finding:
    path = _document_path(error["loc"], data)
    kind, context = error["type"], error.get("ctx", {})
    key = str(error["loc"][-1]) if error["loc"] else "the document"
    if kind == "missing":
        return Finding("missing-key", path, f"{key} is missing", f"Add {key}: here.", on_key=True)
    if kind == "extra_forbidden":
        allowed = _keys_at(model, error["loc"][:-1])
        return Finding(
            "unknown-key", path, f"{key} is not a key here", nearest(key, allowed), on_key=True
        )
    if kind.startswith("union_tag"):
        return _about_kind(path, context, _kinds_at(model, error["loc"]))
    message, help = _value_words(kind, error, context)
    is_whole_part = bool(path) and isinstance(error.get("input"), dict)
    return Finding("wrong-value", path, f"{_named(path)}{message}", help, on_key=is_whole_part)


def _about_kind(path: DocumentPath, context: Mapping[str, Any], kinds: Sequence[str]) -> Finding:
    found = context.get("tag")
    of = "step" if path[:1] == ("steps",) else "element"
    message = f"{found} is not a kind of {of}" if found else "kind is missing"
    place = (*path, "kind") if found else path
    help = f"Write kind: one of {', '.join(kinds)}."
    return Finding("wrong-value", place, message, help, on_key=not found)


def _kinds_at(model: type[BaseModel], loc: Sequence[str | int]) -> list[str]:
    """The kinds that a part at a place may be of, in the order of the format."""
    types_here: list[Any] = [model]
    for part in loc:
        types_here = [t for each in types_here for t in _inside(each, part)]
    return [tag for each in types_here for m in _models(each) for tag in _tags(m)]


def _value_words(kind: str, error: Any, context: Mapping[str, Any]) -> tuple[str, str]:
    found = error.get("input")
    if kind in ("literal_error", "enum"):
        expected = str(context.get("expected", "")).replace("'", "").replace(" or ", ", ")
        return f"“{found}” is not one of its values", nearest(str(found), expected.split(", "))
    if kind == "string_type":
        return f"expected text, found {_type_name(found)}", _text_help(found)
    if kind == "string_pattern_mismatch":
        pattern = str(context.get("pattern", ""))
        wanted = next((w for p, w in _PATTERNS.items() if pattern.startswith(p)), pattern)
        return f"“{found}” does not fit", f"Write {wanted}."
    if kind == "string_too_long":
        most = context.get("max_length")
        return f"{len(str(found))} characters, {most} at most", "Shorten it; use how for the rest."
    if kind == "value_error":
        return str(context.get("error", error["msg"])), ""
    if kind in ("too_short", "string_too_short"):
        return "nothing there", f"Give at least {context.get('min_length', 1)}."
    if kind.endswith("_type"):
        return f"expected {_WANTED.get(kind, kind[:-5])}, found {_type_name(found)}", ""
    return str(error["msg"]).lower(), ""


_WANTED = {
    "model_type": "keys with values",
    "model_attributes_type": "keys with values",
    "dict_type": "keys with values",
    "tuple_type": "a list",
    "float_type": "a number",
    "int_type": "a whole number",
    "bool_type": "true or false",
}


def _text_help(found: Any) -> str:
    if isinstance(found, int | float | bool):
        return f'Put it in quotes: "{found}".'
    return "Put text there."


def _type_name(value: Any) -> str:
    names: dict[type, str] = {
        dict: "keys with values",
        list: "a list",
        str: "text",
        type(None): "nothing",
        bool: "true or false",
        int: "a number",
        float: "a number",
    }
    return names.get(type(value), type(value).__name__)


def _named(path: DocumentPath) -> str:
    key = next((str(p) for p in reversed(path) if isinstance(p, str)), "")
    return f"{key}: " if key else ""


def _document_path(loc: Sequence[str | int], data: Any) -> DocumentPath:
    """The part of pydantic's place that exists in the document: it adds marks of its own."""
    path: list[str | int] = []
    here = data
    for part in loc:
        is_key = isinstance(here, dict) and part in here
        is_index = isinstance(here, list) and isinstance(part, int) and part < len(here)
        if is_key or is_index:
            here = here[part]
            path.append(part)
    return tuple(path)


def _keys_at(model: type[BaseModel], loc: Sequence[str | int]) -> list[str]:
    """The keys a document may have at a place."""
    types_here: list[Any] = [model]
    for part in loc:
        types_here = [t for each in types_here for t in _inside(each, part)]
    return sorted({key for each in types_here for m in _models(each) for key in _aliases(m)})


def _inside(annotation: Any, part: str | int) -> Iterator[Any]:
    for model in _models(annotation):
        if part in _tags(model):
            yield model
        field = next((f for n, f in model.model_fields.items() if (f.alias or n) == part), None)
        if field is not None:
            yield field.annotation
    for container in _containers(annotation):
        yield get_args(container)[1 if get_origin(container) is dict else 0]


def _tags(model: type[BaseModel]) -> tuple[Any, ...]:
    kind = model.model_fields.get("kind")
    return get_args(kind.annotation) if kind else ()


def _aliases(model: type[BaseModel]) -> list[str]:
    return [f.alias or n for n, f in model.model_fields.items()]


def _flat(annotation: Any) -> Iterator[Any]:
    origin = get_origin(annotation)
    if origin is Annotated:
        yield from _flat(get_args(annotation)[0])
    elif origin in (Union, types.UnionType):
        for each in get_args(annotation):
            yield from _flat(each)
    else:
        yield annotation


def _models(annotation: Any) -> list[type[BaseModel]]:
    return [a for a in _flat(annotation) if isinstance(a, type) and issubclass(a, BaseModel)]


def _containers(annotation: Any) -> list[Any]:
    return [a for a in _flat(annotation) if get_origin(a) in (dict, tuple, list)]
