"""Every sum against what is printed outside the project, or made with a reference library.

Sources of the rows, once each:

* AC: AC 43.13-1B change 1 (2001), chapter 11, tables 11-7 to 11-9, page 11-26, paragraph 11-66d.
* NEC: NEC chapter 9 table 8, copper uncoated, as reprinted; worked example of a two-wire run.
* IEC: IEC 60228, largest resistances of classes 1/2, 5/6 plain and 5/6 tinned, as reprinted.
* UL: UL 1581 values of plain copper, solid and stranded, as listed by a cable-rating tool.
* AS: AS/NZS 3008 table 3.26, as reprinted.
* HB: NBS Handbook 100 table 6 (from memory), ASTM B258.
* NEETS: NEETS module 1, NAVEDTRA 14173 (1998), chapter 3, figures 3-48 to 3-63.
* NTC: motorsport sensor data sheet, 10 kohm at 25 degC; fits computed with numpy.
* NIST, JAMA: see tests/core/proving, which hold the same functions against scipy.
"""

from pathlib import Path

import pytest
from sums import found, value

from faulttree.core.calc.registry import SUMS

C0 = 273.15


# ----------------------------------------------------------------------------- wires


@pytest.mark.parametrize(
    ("feet", "ohm_per_ft", "drop"),
    [(107, 0.00044, 0.942), (90, 0.00028, 0.504), (39, 0.00126, 0.98), (156, 0.00126, 3.93)],
)
def test_drop_by_the_resistance_of_the_wire(feet, ohm_per_ft, drop):
    # Source: AC, worked examples at 20 A.
    assert value(f"joint 20A {feet * ohm_per_ft:.6f}ohm") == pytest.approx(drop, abs=0.006)


@pytest.mark.parametrize(
    ("line", "drop"),
    [
        ("5m 16AWG 7.5A", 0.49403),
        ("4.2m 18AWG 5A 60C", 0.50906),
        ("3.5m 12AWG 20A", 0.36475),
    ],
)
def test_drop_over_an_ideal_wire(line, drop):
    # Source: definition with IACS resistivity, ASTM B258 diameter, alpha 0.00393.
    assert value(f"wire-drop {line}") == pytest.approx(drop, rel=0.001)


@pytest.mark.parametrize(
    ("gauge", "ohm"), [(10, 0.9988), (14, 2.5254), (16, 4.0155), (20, 10.1524)]
)
def test_resistance_by_gauge(gauge, ohm):
    # Source: HB, ohm per 1000 ft of solid annealed copper.
    assert value(f"wire-resistance 1000ft {gauge}AWG") == pytest.approx(ohm, rel=0.0015)


@pytest.mark.parametrize(
    ("size", "ohms"),
    [
        ("0.5mm2", (36.0, 39.0, 40.1)),
        ("0.75mm2", (24.5, 26.0, 26.7)),
        ("1.5mm2", (12.1, 13.3, 13.7)),
        ("2.5mm2", (7.41, 7.98, 8.21)),
        ("6mm2", (3.08, 3.30, 3.39)),
        ("10mm2", (1.83, 1.91, 1.95)),
        ("25mm2", (0.727, 0.780, 0.795)),
    ],
)
def test_the_limits_reach_over_all_that_the_standard_allows(size, ohms):
    # Source: IEC, ohm/km at 20 degC.
    wire = found(f"wire-resistance 1000m {size}")["resistance"]
    assert all(wire.low < ohm < wire.high for ohm in ohms)
    assert wire.high < 1.1 * max(ohms)


@pytest.mark.parametrize(
    ("gauge", "ohms"),
    [(20, (33.9, 34.6)), (18, (21.4, 21.8)), (14, (8.45, 8.62)), (12, (5.31, 5.43))],
)
def test_the_limits_hold_wire_that_is_made(gauge, ohms):
    # Source: UL, solid and stranded, ohm/km at 20 degC.
    wire = found(f"wire-resistance 1000m {gauge}AWG")["resistance"]
    assert all(wire.low < ohm < wire.high for ohm in ohms)


@pytest.mark.parametrize(("gauge", "ohm"), [(14, 3.07), (10, 1.21), (8, 0.764), (4, 0.308)])
def test_hot_wire_by_gauge(gauge, ohm):
    # Source: NEC, ohm per 1000 ft at 75 degC, solid wire; 4 AWG is stranded.
    assert value(f"wire-resistance 1000ft {gauge}AWG 75C") == pytest.approx(ohm, rel=0.02)


def test_drop_of_a_run_there_and_back():
    # Source: NEC, 16 AWG stranded, 100 ft each way, 4 A, hot: 3.992 V.
    drop = found("wire-drop 200ft 16AWG 4A 75C")["drop"]
    assert drop.low < 3.992 < drop.high


@pytest.mark.parametrize(
    ("size", "ohms"), [("4mm2", (5.06, 5.33, 5.61, 5.88)), ("10mm2", (2.01, 2.12, 2.23, 2.33))]
)
def test_how_resistance_rises_with_temperature(size, ohms):
    # Source: AS, ohm/km at 45, 60, 75 and 90 degC.
    cold = value(f"wire-resistance 1000m {size} 45C")
    for celsius, ohm in zip((45, 60, 75, 90), ohms, strict=True):
        hot = value(f"wire-resistance 1000m {size} {celsius}C")
        assert hot / cold == pytest.approx(ohm / ohms[0], rel=0.004)


@pytest.mark.parametrize(("hot", "length", "shorter"), [(60, 39, 33.703), (105, 100, 74.963)])
def test_a_hot_wire_of_the_same_drop_is_shorter(hot, length, shorter):
    # Source: AC 11-66d(4): L2 = 254.5 L1/(234.5 + T2).
    cold = value(f"wire-drop {length}ft 10AWG 20A")
    assert value(f"wire-drop {shorter}ft 10AWG 20A {hot}C") == pytest.approx(cold, rel=3e-4)


def test_the_thinnest_wire_for_a_drop():
    # Source: AC page 11-26: 50 ft, 20 A, 1 V lost takes No. 8; No. 10 lies between and is too thin.
    assert found("wire-size 50ft 20A 1V")["next gauge sold"].value == 8


@pytest.mark.parametrize(("gauge", "mm"), [("1/0AWG", 8.252), ("2AWG", 6.543)])
def test_gauges_by_diameter(gauge, mm):
    # Source: CRC handbook wire tables, as quoted.
    assert value(f"wire-gauge {gauge}") == pytest.approx(0.7853982 * (mm / 1e3) ** 2, rel=1e-3)


@pytest.mark.parametrize(("gauge", "ohm"), [("1/0AWG", 0.000314), ("2AWG", 0.000499)])
def test_resistance_of_a_metre(gauge, ohm):
    # Source: CRC handbook, exercise with R = rho L/A, as quoted; its rho is 1.68e-8 ohm m.
    assert value(f"wire-gauge {gauge}", "resistance of a metre") == pytest.approx(
        ohm * 1.7241 / 1.68, rel=0.005
    )


# ----------------------------------------------------------------------------- resistances


@pytest.mark.parametrize(
    ("typed", "name", "expected"),
    [
        ("parallel 20ohm 30ohm 40ohm", "", 9.23),
        ("parallel 20ohm 30ohm", "", 12),
        ("parallel 3ohm 6ohm", "", 2),
        ("series 8ohm 12ohm", "", 20),
        ("series 20ohm 100ohm", "", 120),
        ("ohm 30V 2ohm", "current", 15),
        ("ohm 50V 10ohm", "power", 250),
        ("ohm 50V 25ohm", "power", 100),
        ("ohm 45A 180V", "resistance", 4),
        ("ohm 45A 180V", "power", 8100),
        ("ohm 8100W 4ohm", "voltage", 180),
        ("ohm 72W 8ohm", "current", 3),
        ("divider 60V 8ohm 20ohm load=30ohm", "tap", 36),
        ("divider 60V 8ohm 20ohm load=30ohm", "current", 3),
        ("divider 100V 150ohm 50ohm", "tap", 25),
        ("divider 100V 50ohm 150ohm", "tap", 75),
    ],
)
def test_circuits_of_the_navy_s_handbook(typed, name, expected):
    # Source: NEETS, figures 3-42 to 3-63, worked examples.
    assert value(typed, name) == pytest.approx(expected, rel=0.005)


def test_a_pulled_up_line_is_a_divider():
    # Source: NEETS, voltages along four 50 ohm resistors: 25 V of 100 V lies over the last.
    assert value("pulled-up 100V 25V 150ohm") == pytest.approx(50)


def test_a_divider_loaded_by_a_voltmeter():
    # Source: a textbook's example 3.14: 250 V, 20 and 25 kohm, 500 ohm/V on the 150 V range.
    assert value("divider 250V 20k 25k") == pytest.approx(138.889, abs=0.01)
    assert value("divider 250V 20k 25k load=75k") == pytest.approx(120.968, abs=0.01)
    ghost = value("ghost-voltage 138.8889V 11.11111k meter=75k")
    assert ghost == pytest.approx(120.968, abs=0.01)


@pytest.mark.parametrize(
    ("typed", "read"), [("6.3V 500k", 6.0), ("2.5V 5M", 1.666667), ("12.6V 1M", 11.454545)]
)
def test_what_a_10_megohm_meter_reads(typed, read):
    # Source: Ohm's law on 1 Mohm/1 Mohm at 12.6 V and 10 Mohm/10 Mohm at 5 V, computed apart.
    assert value(f"ghost-voltage {typed}") == pytest.approx(read, abs=1e-5)


def test_two_meters_give_the_source_back():
    # Source: the way back of the divider above: 12.6 V behind 1 Mohm.
    low = 12.6 * 2500 / (2500 + 1e6)
    back = found(f"source-resistance 11.4545455V {low:.9f}V low=2.5k")
    assert back["behind"].value == pytest.approx(1e6, rel=1e-6)
    assert back["open"].value == pytest.approx(12.6, rel=1e-6)


@pytest.mark.parametrize(("behind", "shown"), [("10k", 12.59), ("1M", 11.45)])
def test_ghost_readings_of_a_trade_table(behind, shown):
    # Source: 12.6 V behind a resistance, 10 Mohm meter; computed apart.
    assert value(f"ghost-voltage 12.6V {behind}") == pytest.approx(shown, abs=0.005)


# ----------------------------------------------------------------------------- lamps, coils


@pytest.mark.parametrize(("typed", "hot", "cold"), [("60W 120V", 240, 24), ("100W 120V", 144, 9.5)])
def test_lamps_hot_and_cold(typed, hot, cold):
    # Source: two guides to lamps: 24 ohm cold and 240 hot; 9.5 cold and 144 hot.
    lamp = found(f"lamp {typed}")
    assert lamp["hot resistance"].value == pytest.approx(hot)
    assert lamp["cold resistance"].low <= cold <= lamp["cold resistance"].high


def test_a_lamp_s_current_as_measured():
    # Source: a trainer's lamp of 25 W at 24 V: 1.04 A by its stamp, 1.02 A measured.
    amps = found("lamp 25W 24V")["hot current"]
    assert amps.value == pytest.approx(1.04, abs=0.005)
    assert amps.low < 1.02 < amps.high


@pytest.mark.parametrize(("now", "share"), [("10.8V", 0.9), ("13.2V", 1.1)])
def test_a_lamp_at_another_voltage(now, share):
    # Source: lamp rerating: current ^0.55, power ^1.6, light ^3.4 to ^3.5, life ^-12 to ^-16
    # (Fink and Beaty, as quoted).
    lamp = found(f"lamp-at 21W 12V {now}")
    assert lamp["current"].value == pytest.approx(1.75 * share**0.55)
    assert lamp["power"].value == pytest.approx(21 * share**1.6, rel=0.006)
    assert lamp["light of rated"].value == pytest.approx(share**3.45, rel=0.006)
    ends = sorted((share**-12, share**-16))
    assert (lamp["life of rated"].low, lamp["life of rated"].high) == pytest.approx(tuple(ends))


@pytest.mark.parametrize(("ohm", "watt"), [(90, 1.6), (300, 0.48)])
def test_relay_coils(ohm, watt):
    # Source: two relay data sheets, 12 V coils.
    assert value(f"coil-current {ohm}ohm 12V hot=20C", "power hot") == pytest.approx(watt)


@pytest.mark.parametrize(("celsius", "ohm", "amps"), [(60, 4.2, 3.0), (100, 4.7, 2.7)])
def test_a_clutch_coil_hot(celsius, ohm, amps):
    # Source: AC, (234.5 + T)/254.5 on 3.6 ohm, at 12.6 V.
    coil = found(f"coil-current 3.6ohm 12.6V hot={celsius}C")
    assert coil["resistance hot"].value == pytest.approx(3.6 * (234.5 + celsius) / 254.5, rel=1e-3)
    assert coil["resistance hot"].value == pytest.approx(ohm, abs=0.05)
    assert coil["current hot"].value == pytest.approx(amps, abs=0.05)
    assert coil["current cold"].value == pytest.approx(3.5)


def test_a_winding_s_temperature():
    # Source: a textbook exercise with 1/234.5: 80 ohm at 20 degC, 100 ohm hot is 83.63 degC.
    assert value("winding-temperature 80ohm 100ohm") == pytest.approx(C0 + 83.63, abs=0.03)


# ----------------------------------------------------------------------------- thermistors

TABLE = {-20: 71668, 0: 27936, 25: 10000, 40: 5774, 60: 2967, 80: 1629, 120: 578.1, 150: 298.9}
POINTS = "0C 27936ohm 50C 4103ohm 100C 946.6ohm"


@pytest.mark.parametrize(("ohm", "celsius"), [(71668, -20.045), (10000, 25.010), (1629, 79.993)])
def test_three_points_as_fitted_elsewhere(ohm, celsius):
    # Source: NTC.
    kelvin = value(f"thermistor-points {POINTS} {ohm}ohm")
    assert kelvin == pytest.approx(C0 + celsius, abs=0.002)


@pytest.mark.parametrize("celsius", TABLE)
def test_three_points_keep_to_the_table_both_ways(celsius):
    # Source: NTC: within 0.05 K from -20 to 150 degC.
    kelvin = value(f"thermistor-points {POINTS} {TABLE[celsius]}ohm")
    assert kelvin == pytest.approx(C0 + celsius, abs=0.06)
    ohm = value(f"thermistor-points {POINTS} temperature={celsius}C")
    assert ohm == pytest.approx(TABLE[celsius], rel=0.0035)


@pytest.mark.parametrize(
    ("ohm", "celsius"), [(32650, 0.0), (19900, 10.0), (10000, 25.0), (8057, 30.0), (3603, 50.0)]
)
def test_the_common_10_k_curve(ohm, celsius):
    # Source: a widely printed 10 kohm table (its coefficient set from memory); its points at 0,
    # 25 and 50 degC fix the curve.
    line = "0C 32650ohm 25C 10000ohm 50C 3603ohm"
    assert value(f"thermistor-points {line} {ohm}ohm") == pytest.approx(C0 + celsius, abs=0.02)


@pytest.mark.parametrize(("line", "beta"), [("50C 4103ohm", 3433.3), ("100C 946.6ohm", 3497.05)])
def test_beta_values(line, beta):
    # Source: NTC.
    assert value(f"beta 25C 10k {line}") == pytest.approx(beta, abs=0.05)


@pytest.mark.parametrize(("ohm", "celsius", "error"), [(27936, 0, 0.989), (2967, 60, -0.545)])
def test_how_far_a_beta_formula_is_off(ohm, celsius, error):
    # Source: NTC.
    kelvin = value(f"thermistor-beta 10k 3497.05 {ohm}ohm")
    assert kelvin - C0 - celsius == pytest.approx(error, abs=0.005)


# ----------------------------------------------------------------------------- fuses, batteries


@pytest.mark.parametrize(
    ("typed", "amps"),
    [
        ("1mV 10A standard", 0.130),  # a trade school's table
        ("0.1mV 15A mini", 0.022),  # a trade magazine's chart, 2017
        ("1mV 15A mini", 0.218),  # the same
        ("1mV 15A standard", 1 / 4.8),  # a maker's sheet, as quoted
        ("1mV 15A standard", 1 / 4.5),  # measured by a scope maker
    ],
)
def test_current_of_a_fuse(typed, amps):
    current = found(f"fuse-current {typed}")["current"]
    assert current.low < amps < current.high
    assert current.value == pytest.approx(amps, rel=0.07)


LISTS = [
    (12.6, 100), (12.4, 75), (12.2, 50), (12.0, 25), (11.6, 0),  # a radio club's list
    (12.65, 100), (12.45, 75), (12.24, 50), (12.06, 25),  # a battery maker's table
    (12.66, 100), (12.45, 75), (12.30, 50),  # a motor-home magazine
    (12.70, 100), (12.6, 100), (11.95, 25),  # two pages of tables
]  # fmt: skip


@pytest.mark.parametrize(("volts", "percent"), LISTS)
def test_charge_at_rest(volts, percent):
    charge = found(f"battery-charge {volts}V")["charge"]
    assert charge.low - 1e-9 <= percent / 100 <= charge.high + 1e-9


def test_what_a_meter_s_error_means_for_the_charge():
    # Source: the radio club's list: a 1 % meter, 0.12 V, means about 15 % of charge.
    sure, unsure = (found(f"battery-charge 12.3V{e}")["charge"] for e in ("", "±0.12V"))
    wider = (unsure.high - unsure.low - sure.high + sure.low) / 2
    assert wider == pytest.approx(0.15, abs=0.02)


@pytest.mark.parametrize(
    ("typed", "days"), [("50mA 60Ah", 25.0), ("50mA 25Ah left=0%", 20.83), ("1A 24Ah left=0%", 1)]
)
def test_how_long_a_battery_lasts(typed, days):
    # Source: arithmetic: 60 x 0.5/0.05/24; 25/0.05/24, 21 days as trade lists say; definition.
    assert value(f"stand-time {typed}") / 86400 == pytest.approx(days, abs=0.01)


def test_charge_taken_in_a_day():
    # Source: definition of the ampere hour: 0.05 A take 1.2 Ah.
    assert value("stand-time 50mA 60Ah", "taken each day") == pytest.approx(1.2)


# ----------------------------------------------------------------------------- cycles


@pytest.mark.parametrize(
    ("rate", "confidence", "tries"),
    [(10, 90, 22), (10, 95, 29), (5, 95, 59), (1, 95, 299), (1, 99, 459), (20, 90, 11)],
)
def test_tries_and_the_success_run(rate, confidence, tries):
    # Source: success-run theorem, tables of trouble-free trials; 59 and 299 are the usual cases.
    assert value(f"tries {rate}% confidence={confidence}%") == tries


@pytest.mark.parametrize(("clean", "rate"), [(10, 0.258866), (30, 0.095034), (100, 0.029513)])
def test_what_clean_cycles_promise(clean, rate):
    # Source: exact 1 - 0.05^(1/n), beside the rule of three (JAMA 249 (1983) 1743).
    assert value(f"clean-run {clean}") == pytest.approx(rate, abs=1e-6)


@pytest.mark.parametrize(
    ("seen", "tries", "clean", "p"), [(3, 10, 10, 0.105263), (4, 10, 10, 0.043344)]
)
def test_a_repair_that_changed_nothing(seen, tries, clean, p):
    # Source: Fisher's exact test, computed with scipy 1.17.1.
    typed = f"clean-run {clean} seen={seen} tries={tries}"
    assert value(typed, "luck if unchanged") == pytest.approx(p, abs=1e-6)


def test_clean_cycles_needed_are_the_fewest_that_the_exact_test_accepts():
    # Source: Fisher's exact test with scipy.
    stats = pytest.importorskip("scipy.stats")
    for seen, tries in [(1, 5), (2, 10), (3, 10), (5, 8)]:
        needed = int(value(f"clean-cycles {seen} {tries}"))
        p = [
            stats.fisher_exact([[seen, tries - seen], [0, n]], alternative="greater").pvalue
            for n in (needed - 1, needed)
        ]
        assert p[1] <= 0.05 + 1e-12 < p[0]


def test_limits_of_the_chance_before():
    # Source: Clopper-Pearson limits of 1 in 20, scipy 1.17.1.
    before = found("clean-cycles 1 20")["chance before"]
    assert (before.low, before.high) == pytest.approx((0.0012651, 0.2487328), abs=1e-6)


def test_the_guess_goes_in_by_bayes_rule():
    # Source: r/(r + (1 - r) q) with q the beta-binomial chance of 20 clean after 3 of 10,
    # B(4, 28)/B(4, 8) by scipy.
    special = pytest.importorskip("scipy.special")
    q = special.beta(4, 28) / special.beta(4, 8)
    gone = value("clean-run 20 seen=3 tries=10 hit=70%", "repaired, by that guess")
    assert gone == pytest.approx(0.7 / (0.7 + 0.3 * q), rel=1e-9)
    needed = int(value("clean-cycles 3 10 hit=70%", "with that guess"))
    for cycles, is_enough in ((needed - 1, False), (needed, True)):
        q = special.beta(4, 8 + cycles) / special.beta(4, 8)
        assert (0.7 / (0.7 + 0.3 * q) >= 0.95) == is_enough


def test_clean_time_needed():
    # Source: (T/(T + t))^k = 0.05, k = 3, T = 2 h.
    hours = value("clean-time 3 2h") / 3600
    assert (2 / (2 + hours)) ** 3 == pytest.approx(0.05)


def test_every_sum_is_checked_here_or_beside():
    files = Path(__file__).parent.glob("test_published*.py")
    text = "".join(each.read_text("utf-8") for each in files)
    assert [name for name in SUMS if f'"{name} ' not in text] == []
