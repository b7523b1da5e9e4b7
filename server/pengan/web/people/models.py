"""Who may do what: teams, the sites that belong to them, people and their roles, devices, invitations, attempts.

Keys begin with the site where a row is about one, else with the team. Instants are whole seconds since
1970-01-01T00:00Z. Nothing here can be used as it stands: tokens and codes are kept as hashes, passwords by Argon2.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, ForeignKey, ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base

Id = String(64)
Hash = String(64)


class Team(Base):
    """People who look after the same sites."""

    __tablename__ = "teams"

    id: Mapped[str] = mapped_column(Id, primary_key=True)
    name: Mapped[str] = mapped_column(String(200))


class TeamSite(Base):
    """The team a site belongs to. Not tied to the site's rows: a site that is loaded anew keeps its team."""

    __tablename__ = "team_sites"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    team: Mapped[str] = mapped_column(Id, ForeignKey("teams.id"))
    open_to_read: Mapped[bool] = mapped_column(default=False)


class Person(Base):
    """One person of one team. A row stays when its person is removed, since the history goes on naming them."""

    __tablename__ = "people"
    __table_args__ = (
        Index("people_by_id", "id", unique=True),
        Index("people_by_sign_in_name", "sign_in_name", unique=True),
    )

    team: Mapped[str] = mapped_column(Id, ForeignKey("teams.id"), primary_key=True)
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    name: Mapped[str] = mapped_column(String(200))
    language: Mapped[str] = mapped_column(String(35))
    units: Mapped[str] = mapped_column(String(200))
    hour_cycle: Mapped[str | None] = mapped_column(String(2))
    first_day: Mapped[str | None] = mapped_column(String(3))
    digits: Mapped[str | None] = mapped_column(String(8))
    sign_in_name: Mapped[str | None] = mapped_column(String(80))
    password_hash: Mapped[str | None] = mapped_column(String(200))
    joined_at: Mapped[int] = mapped_column(BigInteger)
    removed_at: Mapped[int | None] = mapped_column(BigInteger)


class Grant(Base):
    """A person's role at a site; None once it was taken away. `scope` counts the changes and never falls."""

    __tablename__ = "grants"
    __table_args__ = (
        ForeignKeyConstraint(["team", "person"], ["people.team", "people.id"]),
        Index("grants_by_person", "team", "person"),
    )

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    person: Mapped[str] = mapped_column(Id, primary_key=True)
    team: Mapped[str] = mapped_column(Id)
    role: Mapped[str | None] = mapped_column(String(10))
    scope: Mapped[int]


class Device(Base):
    """A phone or browser that a person came in with. Its token is known to it alone."""

    __tablename__ = "devices"
    __table_args__ = (
        ForeignKeyConstraint(["team", "person"], ["people.team", "people.id"]),
        Index("devices_by_person", "team", "person"),
    )

    team: Mapped[str] = mapped_column(Id, primary_key=True)
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    person: Mapped[str] = mapped_column(Id)
    name: Mapped[str] = mapped_column(String(200))
    token_hash: Mapped[str] = mapped_column(Hash)
    enrolled_at: Mapped[int] = mapped_column(BigInteger)
    seen_at: Mapped[int] = mapped_column(BigInteger)
    ended_at: Mapped[int | None] = mapped_column(BigInteger)
    ended_by: Mapped[str | None] = mapped_column(Id)


class Invitation(Base):
    """A short code that lets one device in, once and for a while: with a role at a site, or as somebody's next device.

    `site` and `role` are set for somebody new, `person` for a further device.
    """

    __tablename__ = "invitations"
    __table_args__ = (Index("invitations_by_code", "code_hash", unique=True),)

    team: Mapped[str] = mapped_column(Id, ForeignKey("teams.id"), primary_key=True)
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    code_hash: Mapped[str] = mapped_column(Hash)
    site: Mapped[str | None] = mapped_column(Id)
    role: Mapped[str | None] = mapped_column(String(10))
    person: Mapped[str | None] = mapped_column(Id)
    name: Mapped[str | None] = mapped_column(String(200))
    made_by: Mapped[str | None] = mapped_column(Id)
    made_at: Mapped[int] = mapped_column(BigInteger)
    expires_at: Mapped[int] = mapped_column(BigInteger)
    used_at: Mapped[int | None] = mapped_column(BigInteger)
    used_by: Mapped[str | None] = mapped_column(Id)
    withdrawn_at: Mapped[int | None] = mapped_column(BigInteger)


class Attempts(Base):
    """How often something was tried within one stretch of time. `subject` is a keyed hash of an address or a name."""

    __tablename__ = "attempts"

    subject: Mapped[str] = mapped_column(Hash, primary_key=True)
    window: Mapped[int] = mapped_column(BigInteger, primary_key=True)
    count: Mapped[int]
