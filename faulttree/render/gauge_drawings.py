"""Gauges and cycle of one car as drawings."""

from contextlib import suppress

from faulttree.core.air_conditioning.on_gauges import OnGauges
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import UnitSystem
from faulttree.render.cycle_here import CYCLE, ph_chart
from faulttree.render.gauges_here import GAUGES, gauge_pair
from faulttree.render.gauges_svg import gauges_svg
from faulttree.render.ph_chart_svg import ph_chart_svg


def drawings(on: OnGauges, units: UnitSystem) -> dict[str, str]:
    """The gauges, and the cycle where there is one, as SVG documents by their names."""
    drawn = {GAUGES: gauges_svg(gauge_pair(on, units))}
    with suppress(CannotWorkOut):
        drawn[CYCLE] = ph_chart_svg(ph_chart(on, units))
    return drawn
