"""A closure has one kind of span, whole, and the span ends after it starts."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Draft, Drafts
from ..fault import Fault

NEITHER = saying("fault.closure_without_span", "A closure needs a start and an end.")
BOTH = saying(
    "fault.closure_two_spans", "A closure is either once (from and up to a date and time) or by day rule, not both."
)
HALF = saying("fault.closure_half_span", "This closure's span has one end only.")
BACKWARDS = saying("fault.closure_backwards", "This closure ends ({ends}) before it starts ({starts}).")

ONCE = ("starts_on", "ends_on")
BY_RULE = ("starts", "ends")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Everything wrong with the spans of closures."""
    for draft in drafts.of("closures"):
        once, by_rule = (any(draft.has(field) for field in span) for span in (ONCE, BY_RULE))
        if once and by_rule:
            yield draft.fault(None, BOTH())
        elif once:
            yield from _halves(draft, ONCE)
            yield from _backwards(draft)
        elif by_rule:
            yield from _halves(draft, BY_RULE)
        else:
            yield draft.fault("starts", NEITHER())


def _halves(draft: Draft, span: tuple[str, str]) -> Iterator[Fault]:
    return (draft.fault(field, HALF()) for field in span if not draft.has(field))


def _backwards(draft: Draft) -> Iterator[Fault]:
    starts, ends = draft.text("starts_on"), draft.text("ends_on")
    if starts and ends and ends <= starts:
        yield draft.fault("ends_on", BACKWARDS(starts=starts, ends=ends))
