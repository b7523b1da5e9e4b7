"""Millimetres an hour from flow and area, and how much longer uneven heads have to run.

Definitions: one litre on one square metre is one millimetre. Multipliers: 1 / (0.4 + 0.6 DU) is the Irrigation
Association's run-time multiplier (2005, from memory; von Bernuth & Mecham derive it from the lower half); 1 / DU gives
the driest quarter its full depth (Mecham 2002) and wets the rest beyond need.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..message import Message, saying

NO_AREA = saying(
    "need.no_area",
    "{station} has neither an audit nor an area, so its water cannot be told in depth. "
    "Its run time stays as set by hand.",
)
NO_AUDIT = saying(
    "need.no_audit",
    "{station} has no audit; its rate is its flow over its area, and {evenness_pct} evenness is assumed.",
)
ODD_RATE = saying(
    "need.odd_rate",
    "{station}: {rate_mm} an hour is outside what heads give, {least_mm} to {most_mm}. Check its flow, area or audit.",
)
LEAST_MM_H, MOST_MM_H = 1.0, 200.0
"""Common practice, no source: from drip on wide spacing to the densest sprays."""
MULTIPLIERS = ("half", "quarter", "none")
ASSUMED_UNIFORMITY = 0.65
"""Common practice, no source: fixed spray heads in fair order."""


@dataclass(frozen=True, slots=True)
class Rate:
    """A station's application rate and evenness, and where they come from (`audit` or `flow_area`)."""

    station: str
    mm_h: float
    uniformity_lq: float
    origin: str
    messages: tuple[Message, ...] = ()


def rate_mm_h(flow_lpm: float, area_m2: float) -> float:
    """Mean application rate: 60 Q / A."""
    return 60 * flow_lpm / area_m2


def station_rate(
    station: str,
    flow_lpm: float,
    area_m2: float | None,
    audited: tuple[float, float] | None = None,
    assumed: float = ASSUMED_UNIFORMITY,
) -> tuple[Rate | None, tuple[Message, ...]]:
    """A station's rate: from its audit (`audited`: mm/h and lower-quarter uniformity), else from flow and area."""
    if audited is not None:
        return _checked(Rate(station, *audited, "audit"))
    if area_m2 is None:
        return None, (NO_AREA(station=station),)
    rough = NO_AUDIT(station=station, evenness_pct=100 * assumed)
    return _checked(Rate(station, rate_mm_h(flow_lpm, area_m2), assumed, "flow_area", (rough,)))


def _checked(rate: Rate) -> tuple[Rate, tuple[Message, ...]]:
    messages = rate.messages
    if not LEAST_MM_H <= rate.mm_h <= MOST_MM_H:
        odd = ODD_RATE(station=rate.station, rate_mm=rate.mm_h, least_mm=LEAST_MM_H, most_mm=MOST_MM_H)
        messages = (*messages, odd)
    return Rate(rate.station, rate.mm_h, rate.uniformity_lq, rate.origin, messages), messages


def multiplier(uniformity_lq: float, rule: str = "half") -> float:
    """How much more than the net depth is given, so that the dry parts get it too. At least 1, at most 5."""
    if rule == "none" or uniformity_lq >= 1:
        return 1.0
    if rule == "quarter":
        return min(5.0, 1 / max(uniformity_lq, 0.01))
    return 1 / (0.4 + 0.6 * max(uniformity_lq, 0.0))


def run_minutes(net_mm: float, rate: float, times: float) -> float:
    """Minutes for a net depth: 60 x depth x multiplier / rate."""
    return 60 * net_mm * times / rate


def extra_litres(net_mm: float, area_m2: float, uniformity_lq: float, aim_lq: float, rule: str = "half") -> float:
    """What unevenness costs: litres beyond what the same depth would take at the uniformity aimed for."""
    return max(0.0, net_mm * area_m2 * (multiplier(uniformity_lq, rule) - multiplier(aim_lq, rule)))
