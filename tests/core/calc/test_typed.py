"""How a line becomes the inputs of a sum: what goes where, and what is refused with which words."""

import pytest
from sums import done, value

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.registry import SUMS
from faulttree.core.calc.sums import SumRefused
from faulttree.core.reading import ReadingRefused
from faulttree.core.units import UnitSystem


@pytest.mark.parametrize(
    "line",
    [
        "5m 2.5mm2 10A",
        "10A 5m 2.5mm2",
        "2.5 mm2 10 A 5 m",
        "length=5 size=2.5mm2 current=10",
        "size=2.5mm2 5 10",
        "5 2.5mm2 10",
        "5 10A 2.5mm2",
        "10A 5 2.5mm2",
        "l=5m s=2.5mm2 c=10A",
        "length = 5 m size = 2.5 mm² current = 10 A",
        "5m 2.5mm2 10A 20C",
        "5m 2.5mm2 10A temperature=68F",
        "  5m\t2.5mm2  10A ",
        "500cm 2,5mm2 10000mA",
    ],
)
def test_ways_to_say_the_same(line):
    assert value(f"wire-drop {line}") == pytest.approx(0.34482, rel=1e-4)


@pytest.mark.parametrize(
    ("typed", "given"),
    [
        ("wire-drop 16 ft 6 in 14AWG 10A", {"length": 5.0292, "current": 10}),
        ("wire-drop 14 AWG 5m 10A -40C", {"temperature": 233.15}),
        ("wire-drop 14 AWG 5m 10A −40C", {"temperature": 233.15}),
        ("stand-time 50 mA 60 Ah", {"current": 0.05, "capacity": 60}),
        ("stand-time 60Ah 50mA left=40% charge=90%", {"charge": 0.9, "left": 0.4}),
        ("clean-time 3 1h 20min", {"seen": 3, "watched": 4800}),
        ("pulled-up 5V 0.82V 2k2", {"open": 5, "voltage": 0.82, "pull-up": 2200}),
        ("thermistor-beta 10k 3435 K 4.1k", {"known": 1e4, "beta": 3435, "resistance": 4100}),
        ("thermistor-beta 10k 4.1k 3435", {"known": 1e4, "beta": 3435, "resistance": 4100}),
        ("divider 5V 2.2k 1k 10k", {"load": 1e4}),
        ("joint 12A 0.3V", {"drop": 0.3, "current": 12}),
    ],
)
def test_what_goes_where(typed, given):
    taken = done(typed).given
    for name, expected in given.items():
        assert taken[name][0].measured.value == pytest.approx(expected), name


def test_an_input_that_may_be_given_again_takes_all_of_them():
    ohms = done("parallel 1k 2.2k 4.7k").given["resistance"]
    assert [each.measured.value for each in ohms] == [1000, 2200, 4700]


@pytest.mark.parametrize(
    ("typed", "kind"), [("mini", "mini"), ("MAXI", "maxi"), ("st", "standard")]
)
def test_a_word_may_be_begun(typed, kind):
    taken = done(f"fuse-current 1mV {typed} 20A").given
    assert taken["type"][0].word == kind


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        *(("R134a", "R-134a"), ("r-134a", "R-134a"), ("134a", "R-134a"), ("HFC-134a", "R-134a")),
        *(("R12", "R-12"), ("r-12", "R-12"), ("CFC12", "R-12"), ("refrigerant=12", "R-12")),
        *(("1234yf", "R-1234yf"), ("R1234YF", "R-1234yf"), ("R22", "R-22"), ("HCFC-22", "R-22")),
    ],
)
def test_ways_to_name_a_refrigerant(typed, name):
    for line in (f"{typed} 190kPa 9C", f"190kPa {typed} 9C", f"190kPa 9C {typed}"):
        taken = done(f"superheat {line}").given["refrigerant"][0]
        assert (taken.word, taken.text) == (name, name)


@pytest.mark.parametrize(
    ("line", "pascals"),
    [
        ("", 101325),
        ("altitude=0m", 101325),
        ("alt=1500m", 84556),
        ("altitude=4921.26ft", 84556),
        ("barometer=84.556kPa", 84556),
        ("baro = 845.56 mbar", 84556),
        ("barometer=24.969inHg", 84556),
    ],
)
def test_ways_to_say_what_the_air_outside_is(line, pascals):
    result = done(f"saturation R-134a 200kPa {line}")
    assert result.found[1].value == pytest.approx(200e3 + pascals, abs=10)
    assert ("altitude" in result.given) is not ("barometer" in result.given)


def test_a_limit_of_humidity_is_in_points_of_it():
    for typed in ("50%±5", "50%±5%", "50 % ± 5 %", "50±5"):
        humidity = done(f"vent-target 32C {typed}").given["humidity"][0].measured
        assert (humidity.low, humidity.high) == pytest.approx((0.45, 0.55))


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("joint 0.3 12", "0.3 could be drop=0.3 or current=0.3 or resistance=0.3: type its unit"),
        ("joint 0.3V", "joint still needs one of current or resistance; type: calc joint 0.30V"),
        ("joint drop=0.3V", "still needs one of current or resistance"),
        ("joint 0.3V 12A 25mohm", "joint takes 2 of drop, current, resistance, not more"),
        ("joint 0.3V 0.4V", "“0.4V” fits none of the inputs left: current (as 12A or 50mA), resis"),
        ("joint drop=0.3V drop=0.4V", "drop is given twice: 0.3V and 0.4V"),
        ("joint volts=3 12A", "joint has no input “volts”; it has drop, current, resistance"),
        ("joint =3 12A", "“=3” lacks a name or a value"),
        ("joint 0.3V 12psi", "“12psi” fits none of the inputs left"),
        ("joint current=12V 0.3V", "V is a unit of voltage; current is typed as 12A or 50mA"),
        ("joint drop=abc 12A", "“abc” is not a reading"),
        ("joint 0.3V 1,000A", "1,000 can mean 1.000 or 1000"),
        ("joint current=1,000A 1V", "1,000 can mean 1.000 or 1000"),
        ("joint 0.3V 0A", "current must be greater than zero"),
        ("joint -0.3V 12A", "drop cannot be below zero"),
        ("joint 0.3V±1V±2V 3A", "One ± is enough"),
        ("joint drop=0.3V±2A current=3A", "“2A” is no limit of error of 0.3V"),
        ("joint drop=0.3V±1%offullscale current=3A", "is no limit of error of 0.3V"),
        ("wire-drop 5m 2.5mm2", "wire-drop still needs current; type: calc wire-drop 5m"),
        ("wire-drop 5m 2.5 10A", "2.5 may be square millimetres or a gauge; type 2.5mm2 or 2.5AWG"),
        ("wire-drop 5m 99AWG 10A", "“99AWG” is no gauge"),
        ("wire-drop 5m 2.5mm2 10A -200C", "No car is as cold as that"),
        ("joint 0.3V±1A 3A", "“1A” is no limit of error of 0.3V"),
        ("wire-drop size=99AWG 5m 10A", "“99AWG” is no gauge; type 14AWG, 2/0AWG, or 2.5mm2"),
        ("wire-drop size=0mm2 5m 10A", "A wire has a cross-section above zero"),
        ("wire-drop size=2.5mm2±1mm2 5m 10A", "A wire size takes no ±"),
        ("wire-drop 5m 2.5mm2 10A temp=-200C", "No car is as cold as that"),
        ("wire-drop temperature=20C±1% 5m 2.5mm2 10A", "“1%” is no limit of error of 20C"),
        ("wire-drop 5m 2.5mm2 10A 80", "80 could be temperature=80: type its unit or its name"),
        ("wire-drop 5m 2.5mm2 10A 20C 3A", "3A is one too many"),
        ("wire-size 200m 100A 0.1V", "No vehicle wire is as thick as that"),
        ("parallel 1k resistance=OL", "OL is no number to work with"),
        ("pulled-up 0.8V 5V 2k", "The line cannot be above its open voltage"),
        ("source-resistance 3V 12V", "The low-impedance meter cannot show more"),
        ("source-resistance 12V 0V", "With 0 V under load nothing can be said"),
        ("fuse-current 3.2 10A mini", "Type drop with its unit, as 1.3mV"),
        ("fuse-current 3.2mV 12A mini", "No figure for a mini fuse of 12 A; there are 2, 3, 4"),
        ("fuse-current 3.2mV 10A glass", "type is one of standard, mini, maxi"),
        ("fuse-current 3.2mV 10A type=glass", "type is one of standard, mini, maxi"),
        ("stand-time 50 60Ah", "Type current with its unit, as 50mA"),
        ("stand-time 50mA 60Ah left=100%", "The charge now is at most 100 % and above what is"),
        ("stand-time 50mA capacity=60kg", "“60kg” is no charge; type 60Ah"),
        ("battery-charge 13.4V", "A 12 V battery at rest does not read above 13 V"),
        ("thermistor-beta 10k beta=x 2k", "“x” is no beta value; type 3435"),
        ("thermistor-beta 10k 3435 4k 20C", "takes 1 of resistance, temperature, not more"),
        ("thermistor-beta 10k 3435", "still needs one of resistance or temperature"),
        ("beta 25C 1k 100C 10k", "The colder point comes first"),
        ("winding-temperature 300ohm 1ohm", "No copper is as cold as that"),
        ("clean-cycles 11 10", "It cannot be seen more often than it was tried"),
        ("clean-cycles 0 10", "seen must be greater than zero"),
        ("clean-cycles 2.5 10", "2.5 is no whole number"),
        ("clean-cycles 3 10 confidence=100%", "A confidence lies below 100 %"),
        ("clean-cycles 3 10 hit=120%", "at most 100 %: type hit=70%"),
        ("clean-cycles seen=3±1 10", "A count takes no ±"),
        ("clean-run 20 seen=3", "Give seen and tries together"),
        ("clean-run 20 hit=70%", "hit needs the counts from before too"),
        ("tries 0.2", "Type chance with its unit, as 30%"),
        ("tries 120%", "A chance is at most 100 %"),
        ("series " + "1k " * 200, "That line is too long"),
        ("superheat 28psi 48F", "superheat still needs refrigerant"),
        ("superheat 28psi 48F R13", "refrigerant is one of R-134a, R-12, R-1234yf, R-22."),
        ("superheat 28psi 48F R123", "refrigerant is one of R-134a, R-12, R-1234yf, R-22."),
        ("superheat 28psi 48F R12 R22", "R22 is one too many"),
        ("superheat 28psi 48F R12 1500m", "For altitude type altitude=1500m."),
        ("superheat 28psia 48F R12", "“28psia” fits none of the inputs left: low (as 190kPa"),
        ("superheat low=28psia 48F R12", "psia is a unit of absolute pressure; gauge pressure is"),
        ("superheat 28psi 48F R12 altitude=1m barometer=90kPa", "altitude or barometer, not both"),
        ("superheat 28psi 48F R12 altitude=9km", "“km” is not a unit known here"),
        ("superheat 28psi 48F R12 altitude=9000m", "No car is there: an altitude lies between"),
        ("superheat 28psi 48F R12 barometer=29.9", "Type barometer with its unit, as 89.9kPa."),
        ("superheat 28psi 48F R12 barometer=9kPa", "A barometer shows 50 to 110 kPa"),
        ("superheat 28psi 48F R12 1500", "1500 could be altitude=1500 or barometer=1500"),
        ("superheat -20psi 48F R12", "No vacuum is as deep as that: check low"),
        ("superheat 900psi 48F R12", "R-12 is known from"),
        ("saturation R-22 -99C", "R-22 is known from"),
        ("saturation R-22 20C 400kPa", "takes 1 of pressure, temperature, not more"),
        ("saturation R-22", "still needs one of pressure or temperature"),
        ("static-check 700kPa 20C R12 100kPa", "type the low side first"),
        ("gauge-windows 15C R12", "Figures are published for 21 to 43 °C"),
        ("vent-target 24C 50%", "There are figures for 27 to 38 °C"),
        ("dew-point 20C", "still needs one of humidity or wet"),
        ("dew-point 20C 21C", "A wet bulb is never warmer than a dry one"),
        ("dew-point 40C 2C", "No air is as dry as that"),
        ("dew-point 20C 120%", "No air has more than 100 %: type humidity=50%."),
        ("dew-point 20C 0%", "humidity must be greater than zero"),
        ("evaporator-split 30C 20C 30% 90%", "More water would come out than goes in"),
        ("evaporator-split 30C 20C humid-out=90%", "says nothing without the humidity of the"),
        ("charge-balance 800g 600g evacuated=maybe", "evacuated is one of yes, no."),
        ("charge-balance 0g 600g", "label must be greater than zero"),
        ("clutch-pull-in 0.5 12V", "Type gap with its unit, as 0.5mm"),
        ("clutch-pull-in 5mm 12V", "An air gap is 0.2 to 1.5 mm"),
        ("clutch-pull-in 0.5mm 12V coil=36ohm", "A clutch coil for 12 V has 2 to 6 ohm"),
        ("clutch-pull-in 0.5mm 2V 12V", "More cannot be lost than is supplied"),
        ("condenser-fan 1.9MPa up", "going (as rising)"),
        ("condenser-fan 1.9MPa", "condenser-fan still needs going"),
    ],
)
def test_what_is_refused_and_how(typed, words):
    with pytest.raises((SumRefused, ReadingRefused)) as refused:
        done(typed)
    assert words in str(refused.value)


@pytest.mark.parametrize("name", SUMS)
def test_every_example_works_by_order_by_name_and_in_us_units(name):
    the_sum = SUMS[name]
    by_order = done(f"{name} {the_sum.example}")
    named = " ".join(
        f"{key}={amount.word or amount.text.split(' (')[0]}"
        for key, amounts in by_order.given.items()
        for amount in amounts
    )
    assert done(f"{name} {named}").found == by_order.found
    assert done(f"{name} {the_sum.example}", UnitSystem.US).found == by_order.found


@pytest.mark.parametrize(
    ("system", "metres"), [(UnitSystem.US, 1.524), (UnitSystem.BOTH, 1.524), (UnitSystem.METRIC, 5)]
)
def test_a_bare_length_has_the_unit_of_the_settings(system, metres):
    length = done("wire-resistance 5 2.5mm2", system).given["length"][0]
    assert length.measured.value == pytest.approx(metres)


def test_every_unit_of_an_input_agrees_with_pint():
    # Source: pint, a general-purpose unit library.
    registry = pytest.importorskip("pint").UnitRegistry()
    cases = {
        "wire-resistance 5ft 2.5mm2": ("length", "5 ft", "m"),
        "wire-resistance 80in 2.5mm2": ("length", "80 in", "m"),
        "wire-resistance 5m 0.01in2": ("size", "0.01 in**2", "m**2"),
        "tries 20%": ("chance", "20 percent", "dimensionless"),
        "clean-time 3 90min": ("watched", "90 minute", "s"),
        "ohm 240mV 3mA": ("voltage", "240 mV", "V"),
        "ohm 12V 4.7kohm": ("resistance", "4.7 kohm", "ohm"),
        "saturation R-12 30psi": ("pressure", "30 psi", "Pa"),
        "saturation R-12 -300mbar": ("pressure", "-300 mbar", "Pa"),
        "conversion-charge 2.5lb": ("label", "2.5 lb", "kg"),
        "conversion-charge 40oz": ("label", "40 oz", "kg"),
        "lamp 0.021kW 12V": ("power", "0.021 kW", "W"),
    }
    for typed, (name, theirs, unit) in cases.items():
        ours = done(typed).given[name][0].measured.value
        assert ours == pytest.approx(registry.Quantity(theirs).to(unit).magnitude, rel=1e-12)
    capacity = registry.Quantity(60, "A*h").to("coulomb").magnitude
    seconds = value("stand-time 50mA 60Ah left=0%")
    assert seconds * 0.05 == pytest.approx(capacity)


def test_no_sum_asks_for_a_word_and_a_number_in_one():
    for the_sum in SUMS.values():
        for each in the_sum.inputs:
            assert bool(each.choices) is (each.kind is Kind.WORD)
