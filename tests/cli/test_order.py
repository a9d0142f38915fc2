"""`faulttree order`: what is told where, the draft, and what cannot be done."""

import json

import pytest
from builders import LAMP
from proofs import CARGO, write_cargo

from faulttree.cli import order
from faulttree.cli.main import parser

FINE, CANNOT_RUN = 0, 2


def test_a_tree_is_told_beside_the_best_order(run):
    done = run("order", CARGO)
    assert (done.returncode, done.stderr) == (FINE, "")
    assert "tree / best order" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_json_is_data_alone(run):
    done = run("order", CARGO, "--json", "--supply", "weak")
    assert (done.returncode, done.stderr) == (FINE, "")
    data = json.loads(done.stdout)
    assert (data["format"], data["supply"]) == ("order/1", "weak")


def test_a_draft_is_written_checked_and_proved(run, tmp_path):
    done = run("order", CARGO, "--write", "new/tree.yaml")
    assert done.returncode == FINE
    assert "It is a draft: faulttree prove new/tree.yaml" in " ".join(done.stderr.split())
    assert run("check", "new").returncode == FINE
    proof = run("prove", "new")
    assert proof.stdout.startswith("cargo-lamp-draft 0.1.0: proved\n")
    again = run("order", CARGO, "--write", "new/tree.yaml")
    assert (again.returncode, again.stdout) == (CANNOT_RUN, "")
    assert "is there already" in again.stderr


def test_a_good_part_at_hand_may_be_put_in_to_see(run):
    expected = {
        swap: json.loads(run("order", CARGO, "--json", *swap).stdout)["best"]["expected"]
        for swap in ((), ("--swap", "bulb=1"), ("--swap", "switch=600"))
    }
    assert expected["--swap", "bulb=1"] < expected[()]
    assert expected["--swap", "switch=600"] == expected[()], "measuring tells it for less"
    told = run("order", CARGO, "--swap", "bulb=1").stdout
    assert "put in a known good one and see: bulb, 1 min" in told


def test_where_a_look_may_be_wrong_it_is_weighed_and_the_order_may_end_wrong(run):
    sure = json.loads(run("order", CARGO, "--json").stdout)["best"]
    rarely, often = (
        json.loads(run("order", CARGO, "--json", "--unsure", f"seen={share}").stdout)
        for share in ("0.001", "20 %")
    )
    assert sure["ends-wrong"] is None
    assert rarely["best"]["expected"] == pytest.approx(sure["expected"], abs=0.01)
    for best in (rarely["best"], often["best"]):
        with_wrong = best["expected"] + 60 * best["ends-wrong"]
        assert best["with-wrong-ends"] == pytest.approx(with_wrong)
    assert 0 < rarely["best"]["ends-wrong"] < often["best"]["ends-wrong"]
    assert rarely["best"]["with-wrong-ends"] < often["best"]["with-wrong-ends"]
    assert often["ratio"] is None
    told = " ".join(run("order", CARGO, "--unsure", "seen=20").stdout.split())
    assert f"{100 * often['best']['ends-wrong']:.1f} % of the cars" in told


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ((LAMP,), "names no circuit model"),
        (("no-such-tree",), "No tree is called"),
        (("no-crank-intermitent",), "Did you mean no-crank-intermittent?"),
        (("no/such/tree.yaml",), "There is no file or folder no/such/tree.yaml."),
        ((CARGO, "--vehicle", "missing.yaml"), "missing.yaml"),
        ((CARGO, "--write", "draft.txt"), "let its name end in .yaml"),
        (("unseen",), "No fault surely shows the complaint"),
        ((CARGO, "--swap", "blub=1"), "Did you mean bulb?"),
        ((CARGO, "--swap", "bulb=soon"), "for example bulb=5"),
        ((CARGO, "--swap", "bulb=1", "--write", "draft.yaml"), "leave out --swap"),
        ((CARGO, "--swap", "bulb"), "for example bulb=5"),
        ((CARGO, "--unsure", "seen"), "for example seen=10"),
        ((CARGO, "--unsure", "seen=nan"), "for example seen=10"),
        ((CARGO, "--unsure", "sen=5"), "Did you mean seen?"),
        ((CARGO, "--unsure", "seen=60"), "from above 0 to 50"),
        ((CARGO, "--unsure", "seen=5", "--write", "draft.yaml"), "leave out --unsure"),
        ((CARGO, "--unsure", "seen=5", "--swap", "bulb=1"), "leave one out"),
    ],
    ids=str,
)
def test_what_cannot_be_done_is_told_on_stderr(tmp_path, monkeypatch, capsys, arguments, told):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FAULTTREE_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("FAULTTREE_SETTINGS", str(tmp_path / "settings"))
    never = "below: 75 % of normal}\ntests", "below: 0 % of normal}\ntests"
    write_cargo(tmp_path / "unseen", (never,))
    code = order.run(parser().parse_args(["order", *map(str, arguments)]))
    done = capsys.readouterr()
    assert (code, done.out) == (CANNOT_RUN, "")
    assert told in done.err


def test_another_supply_is_none_of_the_choices(capsys):
    with pytest.raises(SystemExit):
        parser().parse_args(["order", "tree", "--supply", "empty"])
    assert "invalid choice" in capsys.readouterr().err
