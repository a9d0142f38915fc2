"""The report's section on gauges: the pair as it is, its figures, links that hold."""

import gauge_tree
import pytest
from builders import at_feed
from markdown_it import MarkdownIt

from faulttree.render.report_json import report_json
from faulttree.render.report_markdown import report_markdown

HEAD = "## On the gauges"
HOSTILE = "``` <script>x</script> ![x](http://x) \u202e"


def _read(*answers, **options):
    return gauge_tree.walk(**options).go(*(answers or gauge_tree.READ))


def _tokens(text, kind):
    found = []
    for token in MarkdownIt().parse(text):
        found += [each for each in (token, *(token.children or ())) if each.type == kind]
    return found


def test_the_pair_stands_between_fences_as_it_was_drawn():
    text = report_markdown(_read().state, "x")
    (fence,) = _tokens(text, "fence")
    lines = fence.content.splitlines()
    assert any(line.startswith("kPa         0 ") for line in lines), "columns must be kept"
    assert any("[═" in line and "═]" in line for line in lines)
    assert "Charge by weight, never by gauge." in fence.content
    assert max(map(len, text.splitlines())) <= 78
    assert "- Superheat: 12 K ±4 K, above the usual 3 to 8 K" in " ".join(text.split())


@pytest.mark.parametrize("width", [40, 64])
def test_a_narrow_report_keeps_the_pair_whole(width):
    text = report_markdown(_read().state, "x", width=width)
    (fence,) = _tokens(text, "fence")
    assert all(len(line) <= width for line in fence.content.splitlines())


def test_before_a_gauge_is_read_there_is_no_such_section():
    walk = _read("30 C")
    assert HEAD not in report_markdown(walk.state, "x")
    assert "gauges" not in report_json(walk.state, "x")
    assert HEAD not in report_markdown(at_feed().state, "x")


def test_figures_are_in_the_data():
    data = report_json(_read().state, "x")["gauges"]
    assert data["readings"]["high-side"]["value"] == 1448e3
    assert {each["name"] for each in data["figures"]} >= {"superheat", "subcooling"}


def test_pictures_are_linked_whatever_the_folder_is_called():
    target = "my folder/(a) <b> ]x#%?.svg"
    text = report_markdown(_read().state, "x", pictures={"gauges": target, "cycle": "c.svg"})
    images = _tokens(text, "image")
    assert [image.attrs["src"] for image in images] == [
        "my%20folder/%28a%29%20%3Cb%3E%20%5Dx%23%25%3F.svg",
        "c.svg",
    ]


def test_what_was_typed_for_the_refrigerant_ends_no_fence():
    sheet = gauge_tree.SHEET.replace("facts: {refrigerant: R-134a}\n", "")
    walk = gauge_tree.walk(("title: Read low-side", "title: '{refrigerant}?'"), sheet=sheet)
    text = report_markdown(walk.go("30 C", HOSTILE, "193 kPa").state, "x")
    (fence,) = _tokens(text, "fence")
    assert "is no refrigerant known here" in " ".join(fence.content.split())
    assert "High side" in fence.content
    assert "\u202e" not in text
    assert not _tokens(text, "html_inline")
    assert not _tokens(text, "image")
