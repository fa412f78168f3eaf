"""Why a task can't be done, in a builder's words."""

from __future__ import annotations

from tests.plan.workshop import Yard, added, count, ready, run, shop, task
from tracker.build.names import Names
from tracker.plan.readiness import Reason
from tracker.plan.saying import Saying


def _wired(*lengths_m: float) -> Yard:
    runs = [run(f"L{n}", length_m=m, gauge="2.5mm2") for n, m in enumerate(lengths_m, 1)]
    return shop(task("run-drops"), added("part", "twin", unit="m", gauge="2.5mm2", cores=2), *runs)


def _said(yard: Yard) -> str:
    saying = Saying(yard.build, Names(yard.build))
    return saying.stand(ready(yard).tasks["task:run-drops"])


def test_metres_enough_in_remnants_too_short_are_said_to_be_so() -> None:
    yard = _wired(9.4)
    count(yard, "twin", lengths=[9.0, 8.5, 7.5, 6.0])

    assert "31 m of twin here in 4 remnants, but none reaches 9.4 m" in _said(yard)


def test_remnants_that_reach_but_not_for_all_are_said_to_be_so() -> None:
    yard = _wired(5.0, 5.0, 5.0)
    count(yard, "twin", lengths=[9.0, 9.0])

    assert "18 m of twin here in 2 remnants, from which not all the pieces can be cut" in _said(
        yard
    )


def test_pieces_that_first_fit_would_not_place_are_no_reason_to_wait() -> None:
    yard = _wired(6.0, 5.0, 4.0, 4.0)
    count(yard, "twin", lengths=[9.0, 10.0])

    stand = ready(yard).tasks["task:run-drops"]

    assert stand.ready
    assert sum(row.quantity for row in stand.share.taken) == 19.0


def test_one_is_a_person_and_two_are_people() -> None:
    yard = shop()
    saying = Saying(yard.build, Names(yard.build))

    assert saying.reason(Reason("people", amount=1)) == "it takes 1 person"
    assert saying.reason(Reason("people", amount=2)) == "it takes 2 people"
