"""Every setting of the server: its name, its default and what it does. One typed object, made once at the start."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from datetime import datetime
from pathlib import Path
from typing import Any

from pengan.words.reader import _

EXAMPLE = "2026-10-24T23:30:00+01:00"
LEVELS = ("debug", "info", "warning", "error")
WEATHER_SERVICES = ("met-norway", "open-meteo")
LONGEST_CONTACT = 100
FILES = (
    "data", "first_document", "app", "secret_file", "tls_certificate", "tls_key", "mqtt_password_file", "mqtt_ca",
)  # fmt: skip
HERE = Path(__file__).resolve().parent
REPOSITORY = HERE.parents[2]
DEMO = REPOSITORY / "fixtures" / "demo" / "site.json"


def _setting(name: str, default: Any, help_: str) -> Any:
    return field(default=default, metadata={"name": name, "help": help_})


@dataclass(frozen=True, slots=True)
class Settings:
    """What the server needs to know. Each field can be set in the environment under its `PENGAN_` name."""

    database: str = _setting(
        "PENGAN_DATABASE",
        "",
        "Where the sites are kept: an SQLAlchemy URL, SQLite or PostgreSQL. "
        "Empty: the file `pengan.sqlite3` in the data folder.",
    )
    data: Path = _setting("PENGAN_DATA", Path("data"), "Folder for what the server writes. Made when it is missing.")
    first_document: Path = _setting(
        "PENGAN_FIRST_DOCUMENT",
        DEMO,
        "A site's document, loaded at the start while the database holds no site. The demo site may be read by "
        "anybody, any other only by those who are let in.",
    )
    app: Path = _setting("PENGAN_APP", HERE / "app", "Folder of the built page.")
    offline_app: int = _setting(
        "PENGAN_OFFLINE_APP",
        1,
        "1: phones keep the app and open it without signal. 0, the off switch: every phone that reaches the server "
        "drops the app's files, but nothing that people wrote, and loads the page from the server each time.",
    )
    now: datetime | None = _setting(
        "PENGAN_NOW",
        None,
        "An instant at which the server's clock stands still, as `2026-10-24T23:30:00+01:00`, for demonstrations and "
        "tests. Empty: the machine's clock.",
    )
    effort: int | None = _setting(
        "PENGAN_EFFORT",
        None,
        "How many constructions the planner may spend on a night. Empty: the engine's own default for the site's size.",
    )
    device_days: int = _setting(
        "PENGAN_DEVICE_DAYS", 200, "After how many days without a visit a device has to be let in anew."
    )
    invitation_hours: int = _setting("PENGAN_INVITATION_HOURS", 72, "How many hours an invitation can be used.")
    secret_file: Path | None = _setting(
        "PENGAN_SECRET_FILE",
        None,
        "The file of the server's own secret, the same for all its processes. Made when it is missing. "
        "Empty: `secret` in the data folder.",
    )
    address: str = _setting(
        "PENGAN_ADDRESS",
        "",
        "The address at which phones reach this server, as `https://water.example.org`: it goes into invitations. "
        "Empty: the address that was asked.",
    )
    proxies: int = _setting(
        "PENGAN_PROXIES",
        0,
        "How many proxies of yours pass requests on to this server: so many of their `X-Forwarded-` entries are "
        "believed.",
    )

    notice_minutes: int = _setting(
        "PENGAN_NOTICE_MINUTES",
        15,
        "By how many minutes a night's finish has to move for a notice, where somebody else's edit moved it.",
    )
    notice_short_pct: int = _setting(
        "PENGAN_NOTICE_SHORT_PCT",
        5,
        "By how much of a night's water, in percent, what does not fit has to change for a notice.",
    )
    jobs: int = _setting(
        "PENGAN_JOBS",
        1,
        "How many job processes `pengan serve` runs beside itself, to work nights out ahead. 0: none, where "
        "`pengan jobs` runs elsewhere.",
    )
    watch: int = _setting(
        "PENGAN_WATCH",
        1,
        "How many watching processes `pengan serve` runs beside itself, to notice breaks, leaks, dead valves and "
        "silence. 0: none, where `pengan watch` runs elsewhere.",
    )
    push_services: str = _setting(
        "PENGAN_PUSH_SERVICES",
        "fcm.googleapis.com *.push.services.mozilla.com *.push.apple.com *.notify.windows.com",
        "The push services that may be called to tell phones of alarms: hosts, with spaces between; `*.` stands for "
        "whatever comes before. A browser names its own; one that is not among these is not called. Empty: none is.",
    )
    push_contact: str = _setting(
        "PENGAN_PUSH_CONTACT",
        "",
        "A mail address (`mailto:…`) or web address by which push services reach whoever runs this server. Empty: "
        "PENGAN_ADDRESS; some services refuse to tell anybody without either.",
    )
    weather_service: str = _setting(
        "PENGAN_WEATHER_SERVICE",
        "",
        "A public weather service that is asked for each site's days ahead, every few hours: `met-norway` (MET "
        "Norway's Locationforecast) or `open-meteo` (whose free address is for non-commercial use). It is told the "
        "site's place to about a kilometre. A forecast is a guess; what was observed goes before it. "
        "Empty: nobody is asked.",
    )
    weather_contact: str = _setting(
        "PENGAN_WEATHER_CONTACT",
        "",
        "A mail or web address by which the weather service reaches whoever runs this server. Its terms ask for one.",
    )
    listen: str = _setting(
        "PENGAN_LISTEN",
        "127.0.0.1",
        "The address of this machine at which `pengan serve` answers; `0.0.0.0` for all of them.",
    )
    tls_certificate: Path | None = _setting(
        "PENGAN_TLS_CERTIFICATE",
        None,
        "A certificate with its chain (PEM): `pengan serve` then answers by HTTPS alone.",
    )
    tls_key: Path | None = _setting("PENGAN_TLS_KEY", None, "The certificate's private key (PEM).")
    workers: int = _setting("PENGAN_WORKERS", 1, "How many processes of `pengan serve` answer requests.")
    threads: int = _setting(
        "PENGAN_THREADS", 16, "How many requests each of them works on at a time, waiting event streams included."
    )
    nudges: int = _setting(
        "PENGAN_NUDGES",
        8,
        "How many phones may wait for changes on an event stream, in each process; each takes one of its threads. The "
        "others ask from time to time.",
    )
    log: str = _setting(
        "PENGAN_LOG",
        "",
        "The least level that is logged: `debug`, `info`, `warning` or `error`. Empty: `info`, but `warning` on a "
        "terminal.",
    )
    metrics_key: str = _setting(
        "PENGAN_METRICS_KEY",
        "",
        "The bearer token with which `/metrics` is read. Empty: it answers this machine alone.",
    )

    mqtt: str = _setting(
        "PENGAN_MQTT",
        "",
        "The MQTT broker at which `pengan listen` hears reporters, as `mqtt://localhost:1883`, or `mqtts://` with TLS.",
    )
    mqtt_user: str = _setting("PENGAN_MQTT_USER", "", "The name with which it signs in there. Empty: without one.")
    mqtt_password_file: Path | None = _setting(
        "PENGAN_MQTT_PASSWORD_FILE", None, "The file of the password that goes with it."
    )
    mqtt_ca: Path | None = _setting(
        "PENGAN_MQTT_CA",
        None,
        "The certificate (PEM) of who vouches for the broker. Empty: those whom this machine trusts.",
    )

    @property
    def database_url(self) -> str:
        """The database's URL, with the default filled in."""
        return self.database or f"sqlite:///{(self.data / 'pengan.sqlite3').absolute()}"

    @property
    def shows_demo(self) -> bool:
        """Whether the first document is the demo site that comes along, which is nobody's secret."""
        return self.first_document.resolve() == DEMO.resolve()

    @property
    def secret_path(self) -> Path:
        """Where the server's own secret lies."""
        return self.secret_file or self.data / "secret"


def settings_from(environment: Mapping[str, str]) -> Settings:
    """Read the settings out of the environment. Raises `ValueError` naming the setting that cannot be read."""
    given: dict[str, Any] = {}
    for item in fields(Settings):
        text = environment.get(item.metadata["name"], "").strip()
        if text:
            given[item.name] = _read(item.name, item.metadata["name"], text)
    settings = Settings(**given)
    if settings.weather_service and not settings.weather_contact:
        raise ValueError(
            _("{name} needs {other} as well.", name="PENGAN_WEATHER_SERVICE", other="PENGAN_WEATHER_CONTACT")
        )
    return settings


def _read(field_name: str, name: str, text: str) -> object:
    if field_name in FILES:
        return Path(text)
    if field_name in ("effort", "device_days", "invitation_hours"):
        return _whole(name, text)
    if field_name in ("workers", "threads", "notice_minutes", "notice_short_pct"):
        return _whole(name, text)
    if field_name in ("proxies", "jobs", "watch", "nudges", "offline_app"):
        return _whole(name, text, least=0)
    if field_name == "log":
        return _choice(name, text, LEVELS)
    if field_name == "weather_service":
        return _choice(name, text, WEATHER_SERVICES)
    if field_name == "weather_contact":
        return _contact(name, text)
    if field_name == "now":
        return _instant(name, text)
    return text


def _choice(name: str, text: str, known: tuple[str, ...]) -> str:
    if text.lower() not in known:
        choices = ", ".join(known)
        raise ValueError(_("{name} must be one of {choices}, not “{given}”.", name=name, choices=choices, given=text))
    return text.lower()


def _contact(name: str, text: str) -> str:
    """It goes into the header of a request, where other signs could not stand."""
    if not text.isascii() or not text.isprintable() or len(text) > LONGEST_CONTACT:
        raise ValueError(_("{name} must be a plain mail or web address, not “{given}”.", name=name, given=text))
    return text


def _whole(name: str, text: str, least: int = 1) -> int:
    if not text.isdecimal() or len(text) > 9 or int(text) < least:
        raise ValueError(
            _("{name} must be a whole number from {least}, not “{given}”.", name=name, least=least, given=text)
        )
    return int(text)


def _instant(name: str, text: str) -> datetime:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise ValueError(
            _("{name} must be like {example}, not “{given}”.", name=name, example=EXAMPLE, given=text)
        ) from None
    if moment.tzinfo is None:
        raise ValueError(_("{name} needs an offset from UTC, like {example}.", name=name, example=EXAMPLE))
    return moment
