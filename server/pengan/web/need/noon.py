"""What the water need asks of a site before its nights are planned: balances moved on, percentages taken."""

from __future__ import annotations

import logging

from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session

from ..sites.operations import SiteDocument, document_of
from .by_itself import take_suggestions
from .carrying import carry_on

logger = logging.getLogger(__name__)


def brought_up_to_date(session: Session, found: SiteDocument, now: int) -> SiteDocument:
    """The site as it stands after both. A fault of theirs is logged: a night is planned from what there is."""
    for step in (carry_on, take_suggestions):
        try:
            if step(session, found, now):
                session.expire_all()
                found = document_of(session, found.site)
        except OperationalError:
            raise
        except Exception as fault:
            session.rollback()
            logger.error("the water need could not be brought up to date", exc_info=fault, extra={"site": found.site})
    return found
