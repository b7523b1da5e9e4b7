"""The PostgreSQL that the tests bring along is a real one."""

from __future__ import annotations

from sqlalchemy import create_engine, text


def test_postgres_keeps_what_psycopg_writes(postgres_url: str) -> None:
    engine = create_engine(postgres_url)
    with engine.begin() as line:
        line.execute(text("CREATE TABLE taps (id integer PRIMARY KEY, open boolean NOT NULL)"))
        line.execute(text("INSERT INTO taps VALUES (1, true), (2, false)"))
    with engine.begin() as line:
        row = line.execute(text("SELECT id FROM taps WHERE open FOR UPDATE SKIP LOCKED")).one()
        version = line.execute(text("SHOW server_version_num")).scalar_one()
    engine.dispose()
    assert row.id == 1
    assert int(version) >= 180000
