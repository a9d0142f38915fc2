"""Where things lie, and where another place is named for them."""

from pathlib import Path

from faulttree.files import places


def test_the_environment_names_other_places(monkeypatch, tmp_path):
    monkeypatch.setenv("FAULTTREE_DATA", str(tmp_path / "d"))
    monkeypatch.setenv("FAULTTREE_SETTINGS", str(tmp_path / "s"))
    assert places.cases_folder() == tmp_path / "d" / "cases"
    assert places.own_trees() == tmp_path / "d" / "trees"
    assert places.instrument_sheet() == tmp_path / "s" / "instruments.yaml"


def test_a_place_may_begin_with_the_home_folder(monkeypatch):
    monkeypatch.setenv("FAULTTREE_DATA", "~/cars")
    assert places.data_folder() == Path.home() / "cars"


def test_without_it_the_usual_places_of_the_system_are_used(monkeypatch):
    monkeypatch.delenv("FAULTTREE_DATA")
    monkeypatch.delenv("FAULTTREE_SETTINGS")
    assert places.data_folder().name == "faulttree"
    assert places.settings_folder().name == "faulttree"


def test_own_trees_come_before_the_shipped_ones():
    own, shipped = places.tree_folders()
    assert own == places.own_trees()
    assert (shipped / "no-crank-intermittent").is_dir()


def test_yaml_files_are_found_below_a_folder_in_order(tmp_path):
    for name in ("b.yaml", "a.yml", "c.txt", "deep/d.yaml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).touch()
    assert [p.name for p in places.yaml_files(tmp_path)] == ["a.yml", "b.yaml", "d.yaml"]
    assert [p.name for p in places.yaml_beside(tmp_path / "b.yaml")] == ["a.yml"]
    assert list(places.yaml_files(tmp_path / "x.yaml")) == [tmp_path / "x.yaml"]
