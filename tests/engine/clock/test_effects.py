"""What each change of the clock does to the document's times."""

from __future__ import annotations

from calendar import timegm

from builders import a_closure, a_document, a_program, a_site, a_station, a_window
from pengan.engine.clock.effects import Effect, effects
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document

FROM, UNTIL = timegm((2026, 1, 1, 0, 0, 0)), timegm((2027, 1, 1, 0, 0, 0))


def effects_of(document: Document) -> list[Effect]:
    return list(effects(document, clock_of(document.site), FROM, UNTIL))


def told(effect: Effect) -> list[tuple[str, object]]:
    """Each message as its code and the record it is about."""
    records = ("program", "window", "closure")
    return [(m.code, next(m.params[name] for name in records if name in m.params)) for m in effect.touched]


def test_a_year_in_lisbon_has_a_short_and_a_long_night() -> None:
    spring, autumn = effects_of(a_document())
    assert [spring.night.date.isoformat(), autumn.night.date.isoformat()] == ["2026-03-28", "2026-10-24"]
    assert [effect.length_s for effect in (spring.before, spring.night, spring.after)] == [86_400, 82_800, 86_400]
    assert autumn.night.length_s == 90_000
    assert [f"{wall:%d %H:%M}" for wall in (spring.first, spring.last)] == ["29 01:00", "29 02:00"]
    assert [f"{wall:%d %H:%M}" for wall in (autumn.first, autumn.last)] == ["25 01:00", "25 02:00"]
    assert spring.touched == autumn.touched == ()


def test_starts_windows_and_closures_in_the_missing_or_doubled_hour_are_named() -> None:
    document = a_document(
        stations=[a_station()],
        programs=[
            a_program("in", start="01:15"),
            a_program("out", start="02:00"),
            a_program("sun", start="sunset"),
            a_program("monday", start="01:15", days="weekdays", weekdays="mon"),
        ],
        windows=[a_window("w", opens="01:30", closes="05:00"), a_window("v", opens="20:00", closes="01:00")],
        closures=[a_closure("k", starts="00:30", ends="01:45")],
    )
    spring, autumn = effects_of(document)
    assert told(spring) == [
        ("clock.start_missing", "in"),
        ("clock.opens_missing", "w"),
        ("clock.freed_missing", "k"),
        ("clock.window_lasts", "w"),
        ("clock.closure_lasts", "k"),
    ]
    assert told(autumn) == [
        ("clock.start_twice", "in"),
        ("clock.window_twice", "w"),
        ("clock.freed_twice", "k"),
        ("clock.window_lasts", "w"),
        ("clock.closure_lasts", "k"),
    ]
    lasts = [[m.params["night_s"], m.params["usual_s"]] for m in (*spring.touched[-2:], *autumn.touched[-2:])]
    assert lasts == [[10_800, 12_600], [1800, 4500], [14_400, 12_600], [8100, 4500]]


def test_a_start_that_does_not_exist_says_when_it_is_instead() -> None:
    (missing,) = effects_of(a_document(programs=[a_program("p1", start="01:15")]))[0].touched
    assert missing.params["moved_at"] == timegm((2026, 3, 29, 1, 15, 0))


def test_a_clock_that_never_changes_has_no_effects() -> None:
    assert effects_of(a_document(site=a_site(zone_rule="<+0530>-5:30"))) == []
