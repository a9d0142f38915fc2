"""Proofs as JUnit XML, which continuous integration shows: a suite a tree, a case a fault."""

import re
from collections.abc import Iterable
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from faulttree.core.proof.ends import Worth
from faulttree.render.plain_text import safe
from faulttree.render.proof_ends import FaultEnds
from faulttree.render.proof_paths import paths_of
from faulttree.render.proof_result import Result, is_short
from faulttree.render.proof_walks import path_lines
from faulttree.render.proof_words import percent, worth_in_words

HEALTHY, ISOLATION = "healthy cars", "isolation"
"""Names of the two cases that stand for no fault."""
_NOT_XML = re.compile("[\ufffe\uffff]")


def proofs_junit(results: Iterable[Result]) -> str:
    """Proofs as a JUnit document in ASCII, one line feed at the end."""
    top = Element("testsuites", name="faulttree prove")
    for result in results:
        _suite(top, result)
    for name in ("tests", "failures", "skipped"):
        top.set(name, str(sum(int(suite.get(name, "0")) for suite in top)))
    indent(top)
    data: bytes = tostring(top, encoding="us-ascii", xml_declaration=True)
    return data.decode("ascii") + "\n"


def _suite(top: Element, result: Result) -> None:
    tree = result.proof.tree
    suite = SubElement(top, "testsuite", name=f"{tree.id} {tree.version}")
    for ends in result.ends:
        _fault(suite, result, ends)
    _isolation(suite, result)
    suite.set("tests", str(len(suite.findall("testcase"))))
    suite.set("failures", str(len(suite.findall("testcase/failure"))))
    suite.set("errors", "0")
    suite.set("skipped", str(len(suite.findall("testcase/skipped"))))


def _case(suite: Element, result: Result, name: str) -> Element:
    return SubElement(suite, "testcase", classname=result.id, name=xml_text(name))


def _fault(suite: Element, result: Result, ends: FaultEnds) -> None:
    case = _case(suite, result, ends.suspect.id if ends.suspect else HEALTHY)
    wrong = [r for r in ends.reached if r.worth.is_wrong]
    if wrong:
        kind = "false-alarm" if wrong[0].worth is Worth.FALSE_ALARM else "wrong-conclusion"
        where = ", ".join(r.where for r in wrong)
        failure = SubElement(case, "failure", type=kind, message=xml_text(f"may end in {where}"))
        failure.text = xml_text(_replay(result, ends))
    elif not ends.rows:
        message = "its cars never surely show the complaint"
        SubElement(case, "skipped", message=message)
    ended = (f"{r.where}: {worth_in_words(r.worth, r.parts)}" for r in ends.reached if r.rows)
    text = "\n".join(ended)
    if text:
        SubElement(case, "system-out").text = xml_text(text)


def _replay(result: Result, ends: FaultEnds) -> str:
    """The walks with wrong ends, step by step."""
    lines = [f"faulttree prove {result.id} --show {ends.id}"]
    for path in paths_of(result.proof, ends.suspect):
        if path.ended.worth.is_wrong:
            lines += ["", *path_lines(result.proof, path, result.words)]
    return "\n".join(lines)


def _isolation(suite: Element, result: Result) -> None:
    case = _case(suite, result, ISOLATION)
    isolated, wanted = percent(result.measures.isolated), percent(result.wanted)
    text = f"{isolated} isolated to one part, the bench sheet wants {wanted}"
    if is_short(result.measures, result.wanted):
        SubElement(case, "failure", type="isolation", message=text)
    else:
        SubElement(case, "system-out").text = text


def xml_text(text: str) -> str:
    """Text without the characters that XML 1.0 cannot hold; each becomes a question mark."""
    return _NOT_XML.sub("?", safe(text))
