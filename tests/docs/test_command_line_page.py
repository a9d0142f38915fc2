"""docs/command-line.md: the sample of answers walks the tree it stands beside to its conclusion."""

import json
import re
from pathlib import Path

from faulttree.cli.main import main

PAGE = (Path(__file__).parents[2] / "docs" / "command-line.md").read_text("utf-8")


def test_the_sample_of_answers_comes_to_a_conclusion(tmp_path, capsys):
    (sample,) = re.findall(r"^```yaml\n(.*?)^```", PAGE, re.DOTALL | re.MULTILINE)
    (command,) = re.findall(r"^faulttree (walk \S+ --answers) answers.yaml --json$", PAGE, re.M)
    file = tmp_path / "answers.yaml"
    file.write_text(sample, "utf-8")
    main([*command.split(), str(file), "--json"])
    told = json.loads(capsys.readouterr().out)
    assert (told["stands-at"], told["stage"]) == ("fuse-clip", "proving run")
