"""Proofs as JUnit XML: well formed, one case a fault, failures with the walk that led there."""

from xml.etree import ElementTree as Xml

from proofs import ALARMING, SWAPPED, Changes, cargo_proof, result

from faulttree.render.proof_junit import HEALTHY, ISOLATION, proofs_junit, xml_text


def _suites(*variants: Changes):
    text = proofs_junit([result(changes) for changes in variants])
    assert text.isascii()
    assert text.startswith("<?xml version='1.0' encoding='us-ascii'?>\n<testsuites ")
    return Xml.fromstring(text)


def test_a_suite_has_a_case_for_every_fault_and_counts_them():
    top = _suites((), SWAPPED)
    assert [suite.get("name") for suite in top] == ["cargo-lamp 1.0.0"] * 2
    for suite in top:
        names = [case.get("name") for case in suite.findall("testcase")]
        assert names == [HEALTHY, *(s.id for s in cargo_proof().bench.suspects), ISOLATION]
        assert suite.get("tests") == str(len(names))
        assert suite.get("failures") == str(len(suite.findall("testcase/failure")))
        assert suite.get("skipped") == str(len(suite.findall("testcase/skipped")))
    assert (top.get("tests"), top.get("failures"), top.get("skipped")) == ("22", "2", "2")


def test_a_sound_tree_has_no_failure():
    assert _suites(()).findall(".//failure") == []


def test_a_wrong_conclusion_fails_with_its_readings():
    failure = _suites(SWAPPED).find("testsuite/testcase[@name='switch.main-open']/failure")
    assert failure is not None
    assert (failure.get("type"), failure.get("message")) == (
        "wrong-conclusion",
        "may end in fuse-blown",
    )
    assert "0.0000 V ±0.0002 V: nothing -> fuse-look" in (failure.text or "")


def test_a_false_alarm_fails_the_healthy_cars():
    failure = _suites(ALARMING).find(f"testsuite/testcase[@name='{HEALTHY}']/failure")
    assert failure is not None
    assert failure.get("type") == "false-alarm"


def test_too_little_isolation_fails_its_case():
    failure = _suites(SWAPPED).find(f"testsuite/testcase[@name='{ISOLATION}']/failure")
    assert failure is not None
    assert failure.get("message") == "79.4 % isolated to one part, the bench sheet wants 80.0 %"


def test_a_fault_without_a_complaint_is_skipped():
    case = _suites(()).find("testsuite/testcase[@name='switch.main-stuck']")
    assert case is not None
    assert case.find("skipped") is not None


def test_text_that_xml_cannot_hold_or_takes_for_markup_is_harmless():
    odd: Changes = (
        *SWAPPED,
        ("title: Look at the fuse\n", 'title: "<b>Fuse</b> & ]]> “x”"\n'),
    )
    (failure, _) = _suites(odd).findall(".//failure")
    assert "<b>Fuse</b> & ]]> “x”" in (failure.text or "")
    assert xml_text("a\x00\x1b\x85\ud800\ufffe\uffffb\n") == "a??????b\n"
