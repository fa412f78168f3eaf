"""What people type becomes the right float, or one sentence, and nothing else."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tracker.errors import BadInput
from tracker.quantity import parse, units_taken
from tracker.quantity.units import TAKEN

FIELDS = [*TAKEN, "", "sheet"]

TYPED = [
    ("18ft", "m", 5.4864),
    ("5.5 m", "m", 5.5),
    ("12,5 cm", "m", 0.125),
    ("0,125 m", "m", 0.125),
    (".5m", "m", 0.5),
    ("9in", "mm", 228.6),
    ("3'6\"", "m", 1.0668),
    ("3'6", "m", 1.0668),
    ("3\u20326\u2033", "m", 1.0668),
    ("3'-6 1/2\"", "m", 1.0795),
    ("3 ft 6 1/2 in", "m", 1.0795),
    ("2-1/2in", "m", 0.0635),
    ("2½ in", "m", 0.0635),
    ("5m 20cm", "m", 5.2),
    ("-5m 20cm", "m", -5.2),
    ("2.5mm2", "mm2", 2.5),
    ("2.5 mm²", "mm2", 2.5),
    ("10 sq ft", "m2", 0.9290304),
    ("4ft*8ft", "m2", 2.97289728),
    ("2 x 4ft x 8ft", "m2", 5.94579456),
    ("62F", "C", 16.666667),
    ("62 °F", "C", 16.666667),
    ("62 deg F", "C", 16.666667),
    ("-40F", "C", -40.0),
    ("290.15K", "C", 17.0),
    ("5F", "K", 2.777778),
    ("3C", "K", 3.0),
    ("3%", "%", 3.0),
    ("3 percent", "%", 3.0),
    ("45W*10h", "Wh", 450.0),
    ("10h x 45W", "Wh", 450.0),
    ("3 * 45 W * 10 h", "Wh", 1350.0),
    ("100Ah*12V", "Wh", 1200.0),
    ("2A*12V*3h", "Wh", 72.0),
    ("2A*12V", "W", 24.0),
    ("1m*1m*0.1m", "l", 100.0),
    ("300mA", "A", 0.3),
    ("120mV", "V", 0.12),
    ("1h30", "h", 1.5),
    ("1 h 30 min", "h", 1.5),
    ("90min", "h", 1.5),
    ("5 lb 4 oz", "kg", 2.381360),
    ("200 Mohm", "Mohm", 200.0),
    ("20MΩ", "Mohm", 20.0),
    ("500kohm", "Mohm", 0.5),
    ("80mohm", "ohm", 0.08),
    ("3 US gal", "l", 11.356235),
    ("12", "", 12.0),
    ("2*3", "", 6.0),
    ("3 sheets", "sheet", 3.0),
    ("3", "box", 3.0),
    ("3 boxes", "box", 3.0),
]

REFUSED = [
    ("18", "m", "needs a unit: m, cm, mm, ft, in or yd"),
    ("3", "%", "needs a unit: %"),
    ("12", "mm2", "needs a unit: mm2, kcmil or AWG"),
    ("2*3", "m", "needs a unit"),
    ("5 lb 4", "kg", "ends in a number without a unit"),
    ("12V", "A", "not in a unit taken here: A or mA"),
    ("200mohm", "Mohm", "not in a unit taken here"),
    ("1Mohm", "ohm", "not in a unit taken here"),
    ("5MA", "A", "not in a unit taken here"),
    ("1,200W", "W", "two ways; write 1200 or 1.200"),
    ("1/0 in", "m", "divides by zero"),
    ("45W*10V", "Wh", "does not multiply to"),
    ("2*62F", "C", "can't be multiplied"),
    ("-300C", "C", "below absolute zero"),
    ("3'6\"2in", "m", "can't be read"),
    ("3m-2cm", "m", "can't be read"),
    ("6in 3ft", "m", "can't be read"),
    ("12m", "", "can't be read as a plain number"),
    ("3 bags", "sheet", "can't be read"),
    ("nan", "", "can't be read"),
    ("inf m", "m", "can't be read"),
    ("1e3 m", "m", "can't be read"),
    ("", "m", "can't be read"),
    ("9" * 61, "", "too long"),
]


@pytest.mark.parametrize(("text", "unit", "value"), TYPED)
def test_what_is_typed_is_read_in_the_unit_of_the_field(text: str, unit: str, value: float) -> None:
    assert parse(text, unit) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(("text", "unit", "why"), REFUSED)
def test_what_is_refused_says_why(text: str, unit: str, why: str) -> None:
    with pytest.raises(BadInput) as refused:
        parse(text, unit)

    assert why in str(refused.value)


@pytest.mark.parametrize("unit", TAKEN)
def test_a_bare_number_is_refused_naming_every_unit_it_takes(unit: str) -> None:
    with pytest.raises(BadInput) as refused:
        parse("7", unit)

    assert all(name in str(refused.value) for name in units_taken(unit))


def test_a_refusal_shows_no_control_character_and_stays_short() -> None:
    with pytest.raises(BadInput) as refused:
        parse("\x1b[31m" + "q" * 50, "m")

    assert str(refused.value).isprintable()
    assert len(str(refused.value)) < 120


@given(text=st.text(max_size=70), unit=st.sampled_from(FIELDS))
@example(text="1/" + "9" * 50 + "m", unit="m")
@example(text="9" * 20 + "W*" + "9" * 20 + "h", unit="Wh")
@example(text="\ud800 5m", unit="m")
@example(text="٣ m", unit="m")
def test_any_text_is_a_finite_float_or_bad_input(text: str, unit: str) -> None:
    _read_or_refuse(text, unit)


_BITS = ["1", "0", "12", "3/4", ",", ".", "-", "+", " ", "*", "x", "/", "'", '"', "%", "#", "AWG"]
_WORDS = sorted({name for units in TAKEN.values() for name in units})


@given(
    text=st.lists(st.sampled_from(_BITS + _WORDS), max_size=9).map("".join),
    unit=st.sampled_from(FIELDS),
)
def test_any_jumble_of_numbers_and_units_is_a_finite_float_or_bad_input(
    text: str, unit: str
) -> None:
    _read_or_refuse(text, unit)


@given(number=st.decimals(0, 9999, places=2), unit=st.sampled_from(list(TAKEN)), data=st.data())
def test_a_comma_is_read_like_a_point(number: object, unit: str, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(list(TAKEN[unit])))

    assert parse(f"{number} {name}".replace(".", ","), unit) == parse(f"{number} {name}", unit)


def _read_or_refuse(text: str, unit: str) -> None:
    try:
        value = parse(text, unit)
    except BadInput as refused:
        assert str(refused).isprintable()
    else:
        assert math.isfinite(value)
