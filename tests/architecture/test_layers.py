"""Imports point down, modules say what they are, and nothing happens when they are imported."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest
from importlinter.cli import lint_imports

ROOT = Path(__file__).parents[2]
MODULES = sorted((ROOT / "faulttree").rglob("*.py"))


def _name(path):
    return str(path.relative_to(ROOT))


def _tree(path):
    return ast.parse(path.read_text("utf-8"))


def test_the_contracts_hold(monkeypatch, capsys):
    monkeypatch.chdir(ROOT)
    code = lint_imports(cache_dir=None, is_debug_mode=False, show_timings=False)
    assert code == 0, capsys.readouterr().out


def test_the_core_imports_nothing_from_outside_but_the_standard_library_and_pydantic():
    outside = {
        name.partition(".")[0]
        for path in (ROOT / "faulttree" / "core").rglob("*.py")
        for name in _imported(_tree(path))
    }
    ours = {"faulttree", "pydantic", "pydantic_core", "numpy", "psychrolib"}
    assert outside - set(sys.stdlib_module_names) == ours


def test_one_module_alone_sets_the_units_of_the_psychrometric_library():
    assert _importers_of("psychrolib") == {Path("core/moist_air.py")}


def test_the_library_that_the_tables_are_made_from_is_not_needed_to_run():
    assert _importers_of("CoolProp") == set()


def test_arrays_belong_to_circuits_benches_and_proofs():
    assert {path.parent for path in _importers_of("numpy")} == {
        Path("core/circuit"),
        Path("core/bench"),
        Path("core/proof"),
        Path("core/loop"),
        Path("core/order"),
        Path("core/suspects"),
        Path("core/trace"),
    }


def test_checking_a_circuit_model_loads_no_arrays_and_a_tree_no_circuits():
    code = (
        "import sys, pathlib\n"
        "from faulttree.files.documents import check_file\n"
        "check_file(pathlib.Path('tests/data/lamp/tree.yaml'))\n"
        "print(any('circuit' in m for m in sys.modules))\n"
        "check_file(pathlib.Path('tests/data/circuits/horn.yaml'))\n"
        "print('faulttree.core.circuit.document' in sys.modules, 'numpy' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT
    )
    assert (done.stdout, done.stderr) == ("False\nTrue False\n", "")


def test_importing_the_core_loads_neither_yaml_nor_the_screens():
    code = (
        "import sys, pkgutil, importlib, faulttree.core as core\n"
        "for m in pkgutil.walk_packages(core.__path__, 'faulttree.core.'):\n"
        "    importlib.import_module(m.name)\n"
        "print(sorted({m.partition('.')[0] for m in sys.modules} & {'ruamel', 'textual', 'rich'}))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert (done.stdout, done.stderr) == ("[]\n", "")


@pytest.mark.parametrize("path", MODULES, ids=_name)
def test_a_module_says_what_it_owns(path):
    assert len((ast.get_docstring(_tree(path)) or "").split()) >= 3


@pytest.mark.parametrize("path", MODULES, ids=_name)
def test_a_module_is_quiet_when_it_is_imported(path):
    calls = [
        node.value.func
        for node in _tree(path).body
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Call)
    ]
    assert calls == []


def _importers_of(library):
    return {
        path.relative_to(ROOT / "faulttree")
        for path in MODULES
        if library in {name.partition(".")[0] for name in _imported(_tree(path))}
    }


def _imported(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
