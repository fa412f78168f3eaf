"""Every unit's worth, against an independent library of units."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.quantity import parse, units_taken
from tracker.quantity.units import TAKEN, unit_spelled

REGISTRY = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)

# Our spelling where pint's own differs. "l" to pint is a litre too; "C" and "F" are not degrees.
_IN_PINT = {
    "ft2": "foot**2",
    "in2": "inch**2",
    "m2": "meter**2",
    "cm2": "centimeter**2",
    "mm2": "millimeter**2",
    "m3": "meter**3",
    "kcmil": "kilocircular_mil",
    "impgal": "imperial_gallon",
    "bdft": "board_foot",
    "Ah": "ampere*hour",
    "mAh": "milliampere*hour",
    "%": "percent",
    "mohm": "milliohm",
    "Mohm": "megaohm",
    "in": "inch",
    "psf": "force_pound/foot**2",
}
_TEMPERATURE = {"C": "degC", "F": "degF", "K": "kelvin"}
_DIFFERENCE = {"C": "delta_degC", "F": "delta_degF", "K": "kelvin"}
PAIRS = [(unit, name) for unit, names in TAKEN.items() for name in names]


def _pint_name(unit: str, name: str) -> str:
    if unit in ("C", "K"):
        return (_TEMPERATURE if unit == "C" else _DIFFERENCE)[name]
    return _IN_PINT.get(name, name)


@given(pair=st.sampled_from(PAIRS), hundredths=st.integers(0, 100_000))
def test_every_unit_agrees_with_pint(pair: tuple[str, str], hundredths: int) -> None:
    unit, name = pair
    amount = hundredths / 100

    ours = parse(f"{amount:.2f} {name}", unit)

    theirs = REGISTRY.Quantity(amount, _pint_name(unit, name)).to(_pint_name(unit, unit)).magnitude
    assert ours == pytest.approx(theirs, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize(("unit", "name"), PAIRS)
def test_every_unit_agrees_with_pint_at_one(unit: str, name: str) -> None:
    theirs = REGISTRY.Quantity(1.0, _pint_name(unit, name)).to(_pint_name(unit, unit)).magnitude

    assert parse(f"1 {name}", unit) == pytest.approx(theirs, rel=1e-6)


@pytest.mark.parametrize(("unit", "name"), PAIRS)
def test_every_listed_unit_is_its_own_spelling(unit: str, name: str) -> None:
    assert unit_spelled(name) == name


def test_a_field_names_its_own_unit_first() -> None:
    assert [units_taken(unit)[0] for unit in TAKEN] == list(TAKEN)
