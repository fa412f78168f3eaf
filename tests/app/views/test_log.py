from __future__ import annotations

from datetime import date, datetime
from typing import Any

import pytest

from tracker.app.session import Session
from tracker.app.views.log import act_words, log_view
from tracker.app.wants import checks, diary, tasks
from tracker.errors import UnknownName


def rows(session: Session, **filters: Any) -> list[dict[str, Any]]:
    return [row for day in log_view(session, **filters)["days"] for row in day["acts"]]


def test_each_act_stands_under_the_day_it_happened(bare: Session) -> None:
    bare.do(diary.note("rain"), when=datetime.fromisoformat("2030-04-30T17:00:00+00:00"))

    view = log_view(bare)

    assert view["build"] == "Heron"
    assert [day["day"] for day in view["days"]] == ["2030-04-30", "2030-05-02"]
    row = view["days"][0]["acts"][0]
    assert set(row) == {"id", "name", "at", "when", "by", "undone", "words"}
    assert row["words"] == ["note: rain"]
    assert (row["when"][:10], row["at"][:10]) == ("2030-04-30", "2030-05-02")


def test_an_undone_act_stays_and_is_marked(bare: Session) -> None:
    bare.do(diary.note("rain"))
    bare.undo()

    assert [row["undone"] for row in rows(bare)] == [False, True, False]


def test_filters_are_joined(heron: Session) -> None:
    heron.do(diary.note("rain"), by="Ola")
    heron.do(diary.note("rain again"))

    assert len(rows(heron, text="RAIN")) == 2
    assert [row["by"] for row in rows(heron, text="rain", person="ola")] == ["Ola"]
    assert rows(heron, text="rain", since=date(2030, 5, 3)) == []


def test_a_phase_shows_what_was_done_in_it_and_what_undid_that(heron: Session) -> None:
    heron.do(diary.note("rain"))
    heron.do(tasks.done("mask"))
    heron.undo()

    said = [row["words"][0] for row in rows(heron, phase="insulation")]

    assert said[0].startswith("adopted the phase insulation")
    assert said[1] == "mask done"
    assert said[2].startswith("undid ") and said[2].endswith(": mask done")


def test_an_unknown_phase_is_refused(heron: Session) -> None:
    with pytest.raises(UnknownName, match="did you mean insulation"):
        log_view(heron, phase="insulatoin")


def test_what_is_repeated_when_saved_is_what_the_log_says(heron: Session) -> None:
    check = heron.cover.by_kind["check"][0]
    act = heron.do(checks.mark(check.slug, [], "na", by="Ida", why="not here", zone="front"))

    assert act_words(heron, act) == rows(heron)[-1]["words"][0]
