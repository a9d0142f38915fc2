"""Suspects of a case: worked out from its folder alone, kept while its readings stay."""

import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from builders import Clock, answered
from lamp_circuit import at_feed, begun, texts

from faulttree.case_bench import suspects_on_bench
from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.suspects import CaseSuspects
from faulttree.case_bench.why_not import CannotTellError
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.suspects.suspicion import Suspects
from faulttree.files import cases
from faulttree.session import Session


def _after(session: Session) -> Suspected:
    return session.circuit.suspects.after(session.state)


def _shares(suspected: Suspected) -> dict[str, float]:
    return {part.name: part.share.now for part in suspected.parts}


def _count_solving(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many readings each working-out rests on."""
    done: list[int] = []
    real = Suspects.after

    def counted(self, reads, values):
        done.append(len(reads))
        return real(self, reads, values)

    monkeypatch.setattr(Suspects, "after", counted)
    return done


def test_the_fault_that_explains_the_readings_becomes_the_likeliest(tmp_path):
    """11.6 V of 12.6 V at a lamp that glows dim: what is lost is lost before the lamp."""
    session = at_feed(tmp_path)
    before = _shares(_after(session))
    now = _shares(_after(answered(session, "11.6")))
    assert max(now, key=now.__getitem__) == "reversing switch"
    assert now["reversing switch"] > 0.9 > before["reversing switch"]
    assert now["ground of the lamp"] < before["ground of the lamp"]


def test_what_is_withdrawn_is_no_evidence(tmp_path):
    session = at_feed(tmp_path)
    before = _shares(_after(session))
    answered(session, "11.6")
    assert _shares(_after(session)) != before
    session.go_back()
    assert _shares(_after(session)) == before


def test_the_verdict_of_the_tree_names_its_suspects(tmp_path):
    verdicts = _after(at_feed(tmp_path)).verdicts
    assert verdicts["lamp-open"] == {"lamp.open"}
    assert verdicts["ground-bad"] == {"eyelet.open", "eyelet.series"}


def test_it_is_kept_until_a_reading_is_added(tmp_path, monkeypatch):
    session = at_feed(tmp_path)
    done = _count_solving(monkeypatch)
    assert session.circuit.suspects.known(session.state) is None
    first = _after(session)
    session.add_note("rain")
    assert session.circuit.suspects.known(session.state) is first, "a note is no reading"
    assert _after(session) is first
    answered(session, "11.6")
    assert session.circuit.suspects.known(session.state) is None
    _after(session)
    assert done == [2, 3]


def test_another_battery_voltage_makes_another_bench(tmp_path, monkeypatch):
    made: list[object] = []
    real = suspects_on_bench.SuspectBench

    def made_anew(*arguments):
        made.append(arguments[-1])
        return real(*arguments)

    monkeypatch.setattr(suspects_on_bench, "SuspectBench", made_anew)
    session = at_feed(tmp_path, "12.60")
    _after(session)
    assert [supply.stopped.emf_v for supply in made] == [12.65, 12.60]
    session.measure_battery("12.10")
    _after(session)
    assert made[-1][0].emf_v == 12.10
    session.add_note("warm")
    _after(session)
    assert len(made) == 3


def test_the_same_comes_of_the_folder_alone(tmp_path):
    session = at_feed(tmp_path)
    for text in ("11.6", "0.4"):
        answered(session, text)
        _after(session)
    again = CaseSuspects(CaseDocuments(session.folder)).after(Session.resume(session.folder).state)
    assert _shares(again) == pytest.approx(_shares(_after(session)), rel=1e-9)


def test_several_threads_may_ask_at_once(tmp_path, monkeypatch):
    session = at_feed(tmp_path)
    done = _count_solving(monkeypatch)
    barrier = threading.Barrier(4)

    def ask(_: int) -> Suspected:
        barrier.wait(5)
        return _after(session)

    with ThreadPoolExecutor(4) as pool:
        found = list(pool.map(ask, range(4)))
    assert len({id(each) for each in found}) == 1
    assert done == [2]
    assert texts(session)[0].startswith("Battery"), "the expected readings are there beside it"


@pytest.mark.parametrize("missing", [(cases.CIRCUIT,), (cases.CIRCUIT, cases.BENCH)])
def test_a_case_without_the_documents_says_so(tmp_path, missing):
    session = at_feed(tmp_path)
    for name in missing:
        (session.folder / name).unlink()
    again = Session.resume(session.folder, Clock())
    told = (
        f"This case has no {' and '.join(missing)} in its folder, so suspects cannot be worked "
        "out; a new case of this tree keeps them."
    )
    assert again.circuit.why_no_suspects(again.state) == told
    with pytest.raises(CannotTellError, match="has no"):
        _after(again)


@pytest.mark.parametrize(
    ("name", "old", "new", "why"),
    [
        (cases.CIRCUIT, "kind: lamp", "kind: lmp", r"circuit.yaml .* cannot be used.*: line 40: "),
        (cases.BENCH, "tree: lamp", "tree: horn", "a bench sheet of lamp is wanted"),
        (cases.BENCH, "  feed: {}\n", "", r"bench.yaml .* cannot be used.*: line \d+: .*feed"),
        (cases.CIRCUIT, "lamp-out, battery-negative", "lamp-out, lamp-in", "cannot be used|do not"),
    ],
)
def test_a_damaged_document_takes_nothing_but_the_suspects(tmp_path, name, old, new, why):
    session = at_feed(tmp_path)
    file = session.folder / name
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new), "utf-8")
    again = answered(Session.resume(session.folder, Clock()), "11.6")
    with pytest.raises(CannotTellError, match=why) as told:
        _after(again)
    assert str(told.value).count(". ") == 0, "one sentence"
    assert again.circuit.suspects.known(again.state) is None


def test_whatever_goes_wrong_in_the_solver_is_a_sentence(tmp_path, monkeypatch):
    def fails(*_: object) -> None:
        raise ZeroDivisionError("no pivot")

    monkeypatch.setattr(Suspects, "after", fails)
    with pytest.raises(CannotTellError, match=r"do not fit .* \(ZeroDivisionError: no pivot\)"):
        _after(at_feed(tmp_path))


def test_one_switch_keeps_them_from_being_looked_at(tmp_path):
    session = answered(at_feed(tmp_path), "11.6")
    assert session.circuit.why_no_suspects(session.state) == ""
    assert session.circuit.report_lines(session.state)
    session.circuit.shows_suspects = False
    assert session.circuit.why_no_suspects(session.state) == "Suspects are not shown in this case."
    assert session.circuit.report_lines(session.state) == ()


def test_a_walk_goes_on_without_reading_a_circuit_while_nobody_asks(tmp_path):
    session = begun(tmp_path)
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from faulttree.session import Session\n"
        f"session = Session.resume(Path({str(session.folder)!r}))\n"
        "session.answer('12.60')\n"
        "session.circuit.suspects.known(session.state)\n"
        "print([m for m in ('numpy', 'faulttree.core.circuit.document') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert (done.stdout, done.stderr) == ("[]\n", "")
