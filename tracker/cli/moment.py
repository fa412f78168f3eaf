"""When something happened, as people type it."""

from __future__ import annotations

import re
from datetime import date, datetime, time, timedelta

from tracker.errors import BadInput

NOON = time(12, 0)
SHAPE = re.compile(
    r"(?P<day>today|yesterday|\d{4}-\d{2}-\d{2})?(?:^|[ t]|$)"
    r"((?P<clock>\d{1,2}:\d{2}(?::\d{2})?)(?P<offset>z|[+-]\d{2}:?\d{2})?)?"
)
DAYS_BACK = re.compile(r"(\d{1,4}) ?(?:d|days?)(?: ago)?")


def parse_when(text: str, now: datetime) -> datetime:
    """A moment with an offset.

    Parameters
    ----------
    text: ``14:30``, ``yesterday 17:00``, ``2027-03-02`` (noon of it), ``2027-03-02T14:30``, each
        perhaps with an offset; without one this machine's own of that day is meant.
    now: with an offset; a day alone never lies behind it.

    Raises
    ------
    BadInput: says which forms are taken.
    """
    found = SHAPE.fullmatch(text.strip().casefold())
    if found is None or not (found["day"] or found["clock"]):
        raise _unreadable(text)
    try:
        day = _day(found["day"], now)
        clock = time.fromisoformat(found["clock"].zfill(5)) if found["clock"] else NOON
        if found["offset"]:
            zone = datetime.fromisoformat(f"2000-01-01T00:00{found['offset'].upper()}").tzinfo
            moment = datetime.combine(day, clock, zone)
        else:
            moment = datetime.combine(day, clock).astimezone()
    except (ValueError, OverflowError, OSError):
        raise _unreadable(text) from None
    if not found["clock"] and day == now.date() and moment > now:
        return now
    return moment


def parse_day(text: str, now: datetime) -> date:
    """A day: ``2027-03-02``, ``today``, ``yesterday`` or ``7d`` (days ago).

    Raises
    ------
    BadInput: says which forms are taken.
    """
    typed = text.strip().casefold()
    back = DAYS_BACK.fullmatch(typed)
    try:
        return now.date() - timedelta(int(back[1])) if back else _day(typed, now)
    except (ValueError, OverflowError):
        raise BadInput(
            f"'{_shown(text)}' is no day; write 2027-03-02, today, yesterday or 7d"
        ) from None


def _day(word: str | None, now: datetime) -> date:
    if word in (None, "today"):
        return now.date()
    if word == "yesterday":
        return now.date() - timedelta(1)
    return date.fromisoformat(str(word))


def _unreadable(text: str) -> BadInput:
    return BadInput(
        f"'{_shown(text)}' is no moment; write 14:30, 'yesterday 17:00', 2027-03-02 "
        "or 2027-03-02T14:30"
    )


def _shown(text: str) -> str:
    return "".join(sign for sign in text if sign.isprintable())
