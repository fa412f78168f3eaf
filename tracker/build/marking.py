"""Marking checks: what people say of a check and its subjects, and what is refused."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.act import Fact
from tracker.build.answer import standing, watched
from tracker.build.coverage import Coverage
from tracker.build.item import VEHICLE, Item
from tracker.build.limit import Limit, judge, limit_of
from tracker.build.point import RESULTS, answer
from tracker.errors import BadInput, Refused

BULK = ("look", "photo")
"""The only ways of showing that may be marked for several subjects at once."""

SIZES = ("m", "mm", "m2", "Mohm", "h")
"""Units of what is never below nought, unless a limit itself reaches below it."""


def mark(
    cover: Coverage,
    check: Item,
    subjects: Sequence[Item],
    result: str,
    *,
    by: str,
    value: float | None = None,
    second: str | None = None,
    present: str | None = None,
    why: str | None = None,
    read: str | None = None,
    photo: str | None = None,
) -> list[Fact]:
    """The facts that answer a check for its subjects.

    Parameters
    ----------
    result: good, bad, measured, waived, na or reopened.
    by: who found it.
    value: a measured number in the unit of the check's limit.
    second, present: the second person, and how they took part.
    why: the reason for waived, na, reopened, or a value in the sign-off band.
    read: what the second person read blind off the label; compared with the subject's name.
    photo: where the picture is.

    Raises
    ------
    BadInput, Refused: the result does not go with the check; nothing is half done.
    """
    if result not in RESULTS:
        raise BadInput(f"'{result}' is no answer; it is one of {', '.join(RESULTS)}")
    if not subjects:
        raise BadInput(f"{check.slug} has no subject to mark here")
    subjects = list({subject.id: subject for subject in subjects}.values())
    _subjects_fit(cover, check, subjects)
    _bulk_allowed(cover, check, subjects, result)
    _result_fits(check, result, by=by, value=value, second=second, why=why, photo=photo)
    facts = []
    vehicle = cover.build.items.get(VEHICLE)
    for subject in subjects:
        limit = limit_of(check, subject, vehicle)
        if read is not None and result == "good":
            _read_fits(subject, read)
        if limit is not None and value is not None:
            _can_be(check, limit, value)
        if limit is not None and limit.sign_low is not None and value is not None:
            _band_signed(check, limit.sign_low, limit.low, value, by, second, why)
        facts.append(
            answer(
                cover.build,
                check.id,
                subject.id,
                result,
                watched(check, subject, limit) if result != "reopened" else {},
                value=value,
                unit=limit.unit if limit is not None and value is not None else None,
                second=second,
                present=present,
                why=why,
                read=read,
                photo=photo,
                by=by,
            )
        )
    return facts


def verdict(cover: Coverage, check: Item, subject: Item, value: float) -> str:
    """What a measured value would count as: good, bad or unknown."""
    limit = limit_of(check, subject, cover.build.items.get(VEHICLE))
    return judge(limit, value, None, None) if limit is not None else "unknown"


def _subjects_fit(cover: Coverage, check: Item, subjects: Sequence[Item]) -> None:
    each = check.get("each", "once")
    whole = each == "once" or (each == "zone" and not cover.zones)
    wanted = "vehicle" if whole else each
    if not cover.fits_vehicle(check):
        raise BadInput(f"{check.slug} is not asked of a vehicle like this one")
    for subject in subjects:
        if subject.removed is not None:
            raise Refused(f"{subject.slug} was removed: {subject.removed}")
        if subject.kind != wanted:
            raise BadInput(
                f"{check.slug} is held against each {wanted}; {subject.slug} is a {subject.kind}"
            )
        if not whole and each != "zone" and not cover.applies(check, subject):
            raise BadInput(f"{check.slug} does not apply to {subject.slug}")


def _bulk_allowed(cover: Coverage, check: Item, subjects: Sequence[Item], result: str) -> None:
    if len(subjects) < 2 or result in ("bad", "reopened"):
        return
    how = check.get("how", "look")
    if result in ("waived", "measured") or (result == "good" and how not in BULK):
        kind = "a waiver" if result == "waived" else f"a check shown by {how}"
        raise Refused(f"{kind} is answered one subject at a time, not {len(subjects)} at once")
    shared = set.intersection(*(set(cover.bays_of(subject)) for subject in subjects))
    placed = [subject for subject in subjects if cover.bays_of(subject)]
    if result == "good" and placed and not shared:
        raise Refused("several are marked good together only within one bay; go bay by bay")


def _result_fits(
    check: Item,
    result: str,
    *,
    by: str,
    value: float | None,
    second: str | None,
    why: str | None,
    photo: str | None,
) -> None:
    how, slug = check.get("how", "look"), check.slug
    measured = check.get("limit") is not None
    if measured and result == "good":
        unit = check.fields["limit"].get("unit", "")
        raise Refused(f"{slug} is decided by its number; give --value in {unit or 'its unit'}")
    if result == "measured" and not measured:
        raise BadInput(f"{slug} asks for no number; mark it --good or --bad")
    if result == "measured" and value is None:
        raise BadInput(f"{slug} needs a number; give --value")
    if result in ("waived", "na", "reopened") and not (why or "").strip():
        raise BadInput(f"{slug}: the reason can't be empty")
    if how == "second person" and result == "good":
        _needs_second(slug, by, second, "is read by a second person")
    if result == "waived":
        if check.get("waive") is False:
            raise Refused(f"{slug} can never be waived: {check.get('missed') or check.title}")
        if check.get("class") == "hold":
            _needs_second(slug, by, second, "holds the work, so waiving it takes a second name")
    if second is not None and second.strip().casefold() == by.strip().casefold():
        raise Refused(f"{slug}: the second person can't be {by} again")


def _needs_second(slug: str, by: str, second: str | None, why: str) -> None:
    if not (second or "").strip():
        raise Refused(f"{slug} {why}; give --second NAME")


def _read_fits(subject: Item, read: str) -> None:
    if read.strip().casefold() != subject.slug.casefold():
        raise Refused(
            f"the label reads '{read.strip()}' and the record says {subject.slug}; "
            "mark it bad or look again"
        )


def _can_be(check: Item, limit: Limit, value: float) -> None:
    """A slip of the sign would pass every limit that asks for 'at most'."""
    if value < 0 and limit.unit in SIZES and not (limit.low is not None and limit.low < 0):
        raise BadInput(f"{check.slug}: {value:g} {limit.unit} is below 0; measure it again")


def _band_signed(
    check: Item,
    sign_low: float,
    low: float | None,
    value: float,
    by: str,
    second: str | None,
    why: str | None,
) -> None:
    if low is None or not sign_low <= value < low:
        return
    if second and not (why or "").strip():
        raise Refused(f"{check.slug}: {value:g} needs a reason beside the second name; add --note")


def taken_back(cover: Coverage, check: Item, subject: Item) -> None:
    """Refuse to take back an answer that is not there."""
    stand = standing(cover.build, check, subject)
    if stand.answer is None or stand.answer.result == "reopened":
        raise Refused(f"{check.slug} on {subject.slug} is open already")
