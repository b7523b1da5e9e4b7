"""Alarms as the API answers them: sentences in the reader's language beside the codes and figures behind them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from pengan.engine.journal.alarm import CAUTION, culprit_says, lost_l, spells_of, trial_says
from pengan.engine.journal.finding import Cause, Culprit, Spell
from pengan.engine.message import Message
from pengan.words.names import SiteNames
from pengan.words.reader import Reader
from pengan.words.say import say

from .filing import message_in, read_spells
from .finding import Page
from .models import Alarm
from .names import GRAVITIES

Body = dict[str, Any]


def page_shown(page: Page, reader: Reader) -> Body:
    """A page of alarms."""
    return {
        "alarms": [alarm_shown(alarm, page, reader) for alarm in page.alarms],
        "names": dict(page.names),
        "next": page.next,
        "newest": page.newest,
        "caution": said(CAUTION(), reader, page.spoken()),
    }


def copy_shown(page: Page, reader: Reader) -> Body:
    """Alarms for a phone's copy."""
    return {
        "next": page.newest if page.next is None else int(page.next),
        "more": page.next is not None,
        "alarms": [alarm_shown(alarm, page, reader) for alarm in page.alarms],
        "names": dict(page.names),
    }


def alarm_shown(alarm: Alarm, page: Page, reader: Reader) -> Body:
    """One alarm."""
    names, spells = page.spoken(), spells_of(read_spells(json.loads(alarm.spells)))
    culprits, trial = (
        [Culprit(**{**one, "cause": Cause(one["cause"])}) for one in json.loads(alarm.culprits)],
        (json.loads(alarm.trial)),
    )
    to_run = trial_says(trial)
    return {
        "id": alarm.id,
        "change": alarm.change,
        "night": alarm.night,
        "last_night": alarm.last_night,
        "kind": alarm.kind,
        "gravity": GRAVITIES[alarm.gravity - 1],
        **{name: getattr(alarm, name) for name in ("supply", "controller", "station", "size_lpm", "opened_at")},
        "since": spells[0].start if spells else alarm.opened_at,
        "lost_l": lost_l(alarm.size_lpm, spells, page.until),
        "spells": [_spell(one) for one in spells],
        "said": said(message_in(alarm.said), reader, names),
        "culprits": [_culprit(one, reader, names) for one in culprits],
        "trial": {"stations": trial, "said": None if to_run is None else said(to_run, reader, names)},
        "seen": [{"person": one.person, "at": one.at} for one in page.seen.get(alarm.id, ())],
        "explained": _explained(alarm, page),
        "ended": _ended(alarm, page, reader, names),
    }


def said(message: Message, reader: Reader, names: SiteNames) -> Body:
    """A message with its sentence."""
    return {**message.as_json(), "detail": say(message, reader, names)}


def _spell(one: Spell) -> Sequence[int | None]:
    return [one.start, one.noticed, one.end]


def _culprit(one: Culprit, reader: Reader, names: SiteNames) -> Body:
    return {
        "cause": one.cause.value,
        "sure": one.sure,
        "size_lpm": one.size_lpm,
        "station": one.station,
        "supply": one.supply,
        "controller": one.controller,
        "said": said(culprit_says(one), reader, names),
    }


def _explained(alarm: Alarm, page: Page) -> Body | None:
    if alarm.explained is None:
        return None
    by = alarm.explained_by if alarm.explained_by in page.names else None
    return {"kind": alarm.explained, "text": alarm.explained_text or "", "by": by, "at": alarm.explained_at}


def _ended(alarm: Alarm, page: Page, reader: Reader, names: SiteNames) -> Body | None:
    if alarm.ended_at is None or alarm.ended_why is None:
        return None
    by = alarm.ended_by if alarm.ended_by == "server" or page.names else "person"
    return {"at": alarm.ended_at, "by": by, "why": said(message_in(alarm.ended_why), reader, names)}
