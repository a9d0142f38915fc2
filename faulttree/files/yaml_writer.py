"""Plain values as YAML for a person to go on with: block style, long texts folded."""

import json
import re
import textwrap
from collections.abc import Iterator

from faulttree.files.yaml_scalars import NumberError, plain_value
from faulttree.files.yaml_spots import Value

_WIDTH = 100
"""Columns at most, where the words allow it."""
_END = "\n"
_PLAIN = re.compile(r"[A-Za-z0-9(−–.+][^\n\t?#:{}\[\],&*!|>'\"%@`\\]*")
"""Texts that need no quotes in block style; fewer than YAML allows."""
_OTHER_WORDS = frozenset(["y", "n", "yes", "no", "on", "off", "true", "false", "null"])
"""Words that other readers take for something else than a text."""


def yaml_bytes(data: Value) -> bytes:
    """A document in UTF-8; read again it gives the same values."""
    return "".join(f"{line}\n" for line in _block(data, 0)).encode()


def _block(data: Value, depth: int) -> Iterator[str]:
    indent = "  " * depth
    if isinstance(data, dict):
        for key, value in data.items():
            yield from _entry(f"{indent}{_scalar(key)}:", value, depth)
            if depth == 1 and isinstance(value, dict) and "kind" in value:
                yield ""
    elif isinstance(data, list):
        for value in data:
            yield from _entry(f"{indent}-", value, depth)


def _entry(head: str, value: Value, depth: int) -> Iterator[str]:
    if isinstance(value, dict | list) and value:
        short = _flow(value)
        if short is not None and len(head) + len(short) < _WIDTH:
            yield f"{head} {short}"
        elif head.endswith("-") and isinstance(value, dict):
            first, *others = _block(value, depth + 1)
            yield f"{head} {first.lstrip()}"
            yield from others
        else:
            yield head
            yield from _block(value, depth + 1)
    elif isinstance(value, str) and _is_long(value) and len(head) + len(value) > _WIDTH - 2:
        indent = "  " * (depth + 1)
        yield f"{head} {'>' if value.endswith(_END) else '>-'}"
        yield from (f"{indent}{line}" for line in _folded(value, _WIDTH - len(indent)))
    elif isinstance(value, dict | list):
        yield f"{head} {'{}' if isinstance(value, dict) else '[]'}"
    else:
        yield f"{head} {_scalar(value)}"


def _flow(value: Value) -> str | None:
    """The value on one line, where it holds no further ones but short lists."""
    if isinstance(value, dict):
        inner = [f"{_scalar(k)}: {text}" for k, v in value.items() if (text := _flow_in(v))]
        return f"{{{', '.join(inner)}}}" if len(inner) == len(value) else None
    if isinstance(value, list):
        found = [text for v in value if (text := _flow_in(v))]
        return f"[{', '.join(found)}]" if len(found) == len(value) else None
    return None


def _flow_in(value: Value) -> str | None:
    if isinstance(value, dict | list):
        return _flow(value) if value else "{}" if isinstance(value, dict) else "[]"
    return _scalar(value)


def _is_long(text: str) -> bool:
    """Whether folding keeps the text as it is: single spaces between words, one line."""
    line = text.removesuffix(_END)
    return " ".join(line.split(" ")) == " ".join(line.split()) and line.isprintable()


def _folded(text: str, width: int) -> list[str]:
    return textwrap.wrap(text, width, break_long_words=False, break_on_hyphens=False)


def _scalar(value: Value) -> str:
    if not isinstance(value, str):
        return json.dumps(value)
    return value if _is_plain(value) else json.dumps(value, ensure_ascii=False)


def _is_plain(text: str) -> bool:
    if text.lower() in _OTHER_WORDS or text != text.strip() or not _PLAIN.fullmatch(text):
        return False
    if text.startswith(("- ", "---", "...")) or not text.isprintable():
        return False
    try:
        return isinstance(plain_value(text), str) and not re.fullmatch(r"[0-9.:_+-]+", text)
    except NumberError:
        return False
