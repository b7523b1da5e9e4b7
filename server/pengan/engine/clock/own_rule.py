"""Any clock, from some instant on, as the text of a rule of the site's own."""

from __future__ import annotations

import re

from .dated import offset_text, write_dated
from .instants import Timeline
from .posix import write_posix
from .rules import DAY_S, Rule

MOST_TEXT = 4000
"""As long as the field `zone_changes` may be."""


def posix_of(timeline: Timeline, since: int) -> str | None:
    """The POSIX TZ string that does what the clock does from `since` on, or None if dated changes lie ahead."""
    if timeline.rule is not None:
        return write_posix(timeline.rule) if rule_begins(timeline, since) == since else None
    if timeline.dated and timeline.dated[-1].at >= since:
        return None
    return write_posix(rule_from(timeline.offset(since)))


def rule_begins(timeline: Timeline, since: int) -> int:
    """The first instant from `since` on after which dated changes no longer say anything the yearly rule does not."""
    rule = timeline.rule
    ahead = [change for change in timeline.dated if change.at >= since]
    if rule is None:
        return ahead[-1].at + 1 if ahead else since
    if since >= timeline.rule_at:
        return since
    by_rule = list(rule.changes(since, timeline.rule_at + 1))
    if by_rule == ahead and rule.offset(since) == timeline.offset(since):
        return since
    same = 0
    while same < min(len(ahead), len(by_rule)) and ahead[-1 - same] == by_rule[-1 - same]:
        same += 1
    return ahead[-same].at if same else timeline.rule_at + 1


def own_field_of(timeline: Timeline, since: int) -> tuple[str, str]:
    """The field of a site and its text that give this clock from `since` on.

    `zone_rule` where a yearly rule says it all; else `zone_changes`, with as many changes as the field holds.
    """
    posix = posix_of(timeline, since)
    if posix is not None:
        return "zone_rule", posix
    changes = timeline.changes(since, since + 200 * 366 * DAY_S)
    text = write_dated(Timeline(timeline.offset(since), changes))
    if len(text) > MOST_TEXT:
        text = text[: text.rindex(",", 0, MOST_TEXT)]
    return "zone_changes", text


def rule_from(offset_s: int, name: str = "") -> Rule:
    """A rule without changes; without a usable name it is called by its offset, `+01` or `-0330`."""
    if not re.fullmatch(r"[A-Za-z0-9+-]{3,}", name, re.ASCII):
        text = offset_text(offset_s).replace(":", "")
        name = text[:3] if text.endswith("00") and len(text) == 5 else text
    return Rule(name, offset_s)
