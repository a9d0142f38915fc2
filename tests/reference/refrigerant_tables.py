"""Makes the refrigerant tables of the program from CoolProp, a library of equations of state.

    python -m tests.reference.refrigerant_tables

writes faulttree/core/refrigerant/tables anew. CoolProp itself takes some two seconds to load and a
hundred megabytes of disk, which no walk shall wait for; tests/core/refrigerant/test_tables.py holds
the tables against it over their whole range.
"""

from collections.abc import Iterator, Sequence
from pathlib import Path

from CoolProp import CoolProp

FOLDER = Path(__file__).parents[2] / "faulttree" / "core" / "refrigerant" / "tables"
FLUIDS = {"R-134a": "R134a", "R-12": "R12", "R-1234yf": "R1234yf", "R-22": "R22"}
"""Refrigerant to its name in the library."""
COLDEST_C, BELOW_CRITICAL_K, STEP_K = -60, 8, 2
SUPERHEATS = (0, 4, 8, 14, 20, 28, 38, 50, 64, 80, 100)
"""Superheats of the vapour grid [K]."""
SATURATION = ("D", "H", "S")
"""Density, enthalpy, entropy."""
TWO_SIDES = (0, 1)
"""Quality of boiling liquid and of dry saturated vapour."""


def rows(fluid: str) -> Iterator[list[float]]:
    """Temperature [K], pressure [Pa], then density, enthalpy and entropy of liquid and vapour."""
    for kelvin in nodes(fluid):
        pressure = CoolProp.PropsSI("P", "T", kelvin, "Q", 0, fluid)
        yield [
            kelvin,
            pressure,
            *(
                CoolProp.PropsSI(what, "T", kelvin, "Q", quality, fluid)
                for what in SATURATION
                for quality in TWO_SIDES
            ),
        ]


def vapour(fluid: str) -> Iterator[list[list[float]]]:
    """For each row: density as a share of the saturated one, rise of enthalpy, rise of entropy."""
    for kelvin in nodes(fluid):
        pressure = CoolProp.PropsSI("P", "T", kelvin, "Q", 1, fluid)
        dry = [CoolProp.PropsSI(what, "T", kelvin, "Q", 1, fluid) for what in SATURATION]
        grid: list[list[float]] = [[1.0], [0.0], [0.0]]
        for superheat in SUPERHEATS[1:]:
            hot = [
                CoolProp.PropsSI(what, "T", kelvin + superheat, "P", pressure, fluid)
                for what in SATURATION
            ]
            grid[0].append(hot[0] / dry[0])
            grid[1].append(hot[1] - dry[1])
            grid[2].append(hot[2] - dry[2])
        yield grid


def nodes(fluid: str) -> list[float]:
    """Saturation temperatures of the rows [K]."""
    hottest_c = CoolProp.PropsSI("Tcrit", fluid) - 273.15 - BELOW_CRITICAL_K
    count = int((hottest_c - COLDEST_C) // STEP_K) + 1
    return [273.15 + COLDEST_C + STEP_K * index for index in range(count)]


def module(refrigerant: str, fluid: str) -> str:
    """The text of the module of one refrigerant."""
    CoolProp.set_reference_state(fluid, "IIR")
    version = CoolProp.get_global_param_string("version")
    parts = [
        f'"""{refrigerant}, from CoolProp {version}; made by tests/reference/refrigerant_tables.py.'
        '\n\nDo not edit.\n"""\n',
        "from faulttree.core.refrigerant.table import Table\n",
        "# fmt: off\nTABLE = Table(",
        f'    name="{refrigerant}",',
        f"    superheats={tuple(map(float, SUPERHEATS))},",
        "    saturation=(",
        *(f"        ({_numbers(row)})," for row in rows(fluid)),
        "    ),",
        "    vapour=(",
        *(_grid(grid) for grid in vapour(fluid)),
        "    ),",
        ")",
        "# fmt: on\n",
    ]
    return "\n".join(parts)


def _grid(grid: Sequence[Sequence[float]]) -> str:
    inner = "\n".join(f"            ({_numbers(each)})," for each in grid)
    return f"        (\n{inner}\n        ),"


def _numbers(values: Sequence[float]) -> str:
    return ", ".join(repr(float(f"{value:.7g}")) for value in values)


def main() -> None:
    """Write every table."""
    for refrigerant, fluid in FLUIDS.items():
        file = FOLDER / f"{refrigerant.replace('-', '').lower()}.py"
        file.write_text(module(refrigerant, fluid), encoding="utf-8")


if __name__ == "__main__":
    main()
