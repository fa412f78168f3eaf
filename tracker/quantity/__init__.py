"""Quantities as people type and read them, against plain SI floats inside.

``parse("18ft", "m")`` gives 5.4864; ``show(5.4864, "m", "us")`` gives ``18 ft``. The second
argument is the unit the field is kept in. Nothing else in the program converts a unit.
"""

from tracker.quantity.gauge import awg_area_mm2, awg_diameter_mm, awg_name
from tracker.quantity.reading import parse
from tracker.quantity.showing import show
from tracker.quantity.units import units_taken

__all__ = ["awg_area_mm2", "awg_diameter_mm", "awg_name", "parse", "show", "units_taken"]
