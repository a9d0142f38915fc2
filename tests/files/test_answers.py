"""A file of answers: what a person would have typed, to the last digit."""

import pytest

from faulttree.files.answers import AnswersError, load_answers


@pytest.fixture
def load(tmp_path):
    """Read a text as a file of answers."""

    def read(text):
        path = tmp_path / "answers.yaml"
        path.write_text(text, "utf-8")
        return load_answers(path)

    return read


def test_every_kind_of_answer_is_read(load):
    given = load(
        "complaint: provoked by rocking the lever\nbattery: 12.58 V\nvehicle: {fuse: 10 A}\n"
        'answers:\n  rest: 12.58 V\n  feed: ["120", "no", "12.1 V"]\n  count: 3\n'
    )
    assert given.answers == {"rest": ("12.58 V",), "feed": ("120", "no", "12.1 V"), "count": ("3",)}
    assert (given.battery, given.vehicle) == ("12.58 V", {"fuse": "10 A"})
    assert given.complaint == "provoked by rocking the lever"


def test_json_is_read_as_well(load):
    assert load('{"answers": {"rest": "12.58 V"}}').answers == {"rest": ("12.58 V",)}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "expected the keys"),
        ("answers: {a: b}\nanswer: {}\n", "expected the keys"),
        ("battery: 12 V\n", "expected the keys"),
        ("answers: [a]\n", "lists of name: text"),
        ("answers: {rest: 12.50}\n", "rest: put quotes round 12.5"),
        ("answers: {rest: [12.50]}\n", "rest: put quotes round 12.5"),
        ("answers: {rest: true}\n", "rest: put quotes round True"),
        ("answers: {rest: {a: b}}\n", "rest: expected a text or a list of texts"),
        ("answers: {rest: }\n", "rest: expected a text or a list of texts"),
        ("answers: {}\nvehicle: {fuse: }\n", "fuse: expected a text"),
        ("answers: {}\nbattery: 12.6\n", "battery: put quotes round 12.6"),
        ("answers: {}\ncomplaint: gone\n", "complaint: expected present, absent"),
        ("answers: {}\ncomplaint: provoked\n", "complaint: expected present, absent"),
        ("answers: {a: b\n", ":1:"),
    ],
)
def test_what_is_no_file_of_answers_is_told(load, text, message):
    with pytest.raises(AnswersError, match=message):
        load(text)


def test_a_missing_file_is_told(tmp_path):
    with pytest.raises(AnswersError, match="No such file"):
        load_answers(tmp_path / "none.yaml")
