"""A labelled piece of text: what steps, reasons and conclusions are shown as."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """One labelled piece of text; `tone` is caution, label, warning or plain."""

    label: str
    text: str
    tone: str = "plain"
