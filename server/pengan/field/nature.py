"""How a made-up field behaves where nothing is broken."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Nature:
    """Times in seconds, flows in L/min. The defaults are common practice, no source."""

    read_every_s: int = 60
    """How often each meter tells its flow."""
    count_every_s: int = 3600
    """How often each meter tells its counter."""
    alive_every_s: int = 600
    """How often each controller lets itself be heard."""
    off_pct: float = 3.0
    """Spread of the stations' true flows around the document's: one standard deviation."""
    noise_pct: float = 1.0
    """Spread of a meter's readings around the true flow: one standard deviation."""
    step_lpm: float = 0.5
    """A meter tells whole steps of this."""
    count_step_l: float = 1.0
    """A counter tells whole steps of this."""
    opening_s: int = 4
    """The longest that a valve takes until it gives water; each has its own delay from 1 s on."""
    closing_s: int = 8
    """The longest that a valve takes until it gives none; each has its own delay from 2 s on."""
    fill_pct: float = 40.0
    """How much more a station draws while its pipes fill, at the first moment."""
    settle_s: float = 15.0
    """After so long, that has fallen to 37 % (1/e) of itself."""
    loss_pct: float = 20.0
    """Share of the pressure that a pipe loses while it carries all that it may."""
    metered: frozenset[str] | None = None
    """Ids of the supplies that have a meter. None: all of them."""
