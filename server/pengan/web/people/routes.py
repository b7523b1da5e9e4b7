"""People: who is signed in, their devices, who works at a site, and how others come in."""

from __future__ import annotations

from typing import Any

from flask import request
from flask.views import MethodView

from ..bodies import Blueprint
from ..extensions import now, session, shared
from . import devices as device_operations
from . import invitations as operations
from .passwords import set_password, sign_in
from .profile import Signed, change_profile, signed, sound_profile
from .qr import qr_svg
from .rights import Actor
from .roles import (
    PersonLine,
    change_role,
    devices_of_managed,
    end_device_of_managed,
    people_at,
    remove_person,
)
from .schemas import (
    DeviceSchema,
    InvitationSchema,
    InvitedSchema,
    InviteSchema,
    JoinSchema,
    PasswordSchema,
    PersonSchema,
    ProfileSchema,
    RoleSchema,
    SessionSchema,
    SignInSchema,
    SiteQuerySchema,
)
from .signing_in import current_actor, current_actor_if_any, drop_token, recognised, send_token

Body = dict[str, Any]

session_routes = Blueprint("session", __name__, url_prefix="/api/session", description="Who is signed in here")
devices = Blueprint("devices", __name__, url_prefix="/api/devices", description="One's own devices")
people = Blueprint("people", __name__, url_prefix="/api/people", description="Who works at a site")
invitations = Blueprint("invitations", __name__, url_prefix="/api/invitations", description="How others come in")
PEOPLE = (session_routes, devices, people, invitations)


@session_routes.route("")
class Session(MethodView):
    """Who is signed in on this device."""

    @session_routes.response(200, SessionSchema)
    def get(self) -> Signed:
        """The person, their language and units, and the sites they work at."""
        return signed(session(), current_actor())

    @session_routes.arguments(SignInSchema)
    @session_routes.response(201, SessionSchema)
    def post(self, body: Body) -> Signed:
        """Sign in with a name and a password; this becomes one of the person's devices."""
        before, came = current_actor_if_any(), (body["name"], body["password"], body["device_name"])
        token = sign_in(session(), shared().secret, before, *came, now(), request.remote_addr)
        send_token(token)
        return signed(session(), recognised(token))

    @session_routes.response(204)
    def delete(self) -> None:
        """Sign out: this device is let in no more."""
        actor = current_actor()
        device_operations.end_own(session(), actor, actor.device or "", now())
        drop_token()


@session_routes.route("/profile")
class OwnProfile(MethodView):
    """How one is called and wants to be spoken to."""

    @session_routes.arguments(ProfileSchema)
    @session_routes.response(200, SessionSchema)
    def put(self, body: Body) -> Signed:
        """Change one's name, language, units, clock, first day of the week and digits."""
        actor = current_actor()
        change_profile(session(), actor, sound_profile(**body))
        return signed(session(), actor)


@session_routes.route("/password")
class OwnPassword(MethodView):
    """What a manager signs in with."""

    @session_routes.arguments(PasswordSchema)
    @session_routes.response(204)
    def put(self, body: Body) -> None:
        """Set one's sign-in name and password. All one's other devices are signed out."""
        set_password(
            session(),
            shared().secret,
            current_actor(),
            body["name"],
            body["password"],
            body["present_password"],
            now(),
        )


@devices.route("")
class OwnDevices(MethodView):
    """One's own devices."""

    @devices.response(200, DeviceSchema(many=True))
    def get(self) -> list[device_operations.DeviceLine]:
        """The devices that are let in as oneself, the newest first."""
        return device_operations.own_devices(session(), current_actor())

    @devices.response(204)
    def delete(self) -> None:
        """Sign out everywhere but here."""
        device_operations.end_others(session(), current_actor(), now())


@devices.route("/code")
class OwnDeviceCode(MethodView):
    """The way in for one's next device."""

    @devices.response(201, InvitedSchema)
    def post(self) -> Body:
        """A code that lets one more device in as oneself."""
        actor = current_actor()
        return _told(_device_code(actor, actor.person))


@devices.route("/<device_id>")
class OwnDevice(MethodView):
    """One of one's own devices."""

    @devices.response(204)
    def delete(self, device_id: str) -> None:
        """End it: it is let in no more."""
        device_operations.end_own(session(), current_actor(), device_id, now())


@people.route("")
class People(MethodView):
    """Who works at a site."""

    @people.arguments(SiteQuerySchema, location="query")
    @people.response(200, PersonSchema(many=True))
    def get(self, query: Body) -> list[PersonLine]:
        """Everybody with a role at the site, by name."""
        return people_at(session(), current_actor(), query["site"])


@people.route("/<person_id>")
class Person(MethodView):
    """One person of the team."""

    @people.response(204)
    def delete(self, person_id: str) -> None:
        """Take a person out of the team: roles, devices and open invitations go; their name stays in the history."""
        remove_person(session(), current_actor(), person_id, now())


@people.route("/<person_id>/role")
class PersonRole(MethodView):
    """A person's role at a site."""

    @people.arguments(RoleSchema)
    @people.response(204)
    def put(self, body: Body, person_id: str) -> None:
        """Give, change or take away (null) the role."""
        change_role(session(), current_actor(), person_id, body["site"], body["role"])


@people.route("/<person_id>/code")
class PersonDeviceCode(MethodView):
    """The way in for a person's next device, as when a phone was lost."""

    @people.response(201, InvitedSchema)
    def post(self, person_id: str) -> Body:
        """A code that lets one more device in as this person. Only who manages all of the person's sites gets one."""
        return _told(_device_code(current_actor(), person_id))


@people.route("/<person_id>/devices")
class PersonDevices(MethodView):
    """The devices of a person."""

    @people.response(200, DeviceSchema(many=True))
    def get(self, person_id: str) -> list[device_operations.DeviceLine]:
        """The devices that are let in as this person. Only who manages all of the person's sites sees them."""
        return devices_of_managed(session(), current_actor(), person_id)


@people.route("/<person_id>/devices/<device_id>")
class PersonDevice(MethodView):
    """One device of a person."""

    @people.response(204)
    def delete(self, person_id: str, device_id: str) -> None:
        """End it: it is let in no more."""
        end_device_of_managed(session(), current_actor(), person_id, device_id, now())


@invitations.route("")
class Invitations(MethodView):
    """Invitations to a site."""

    @invitations.arguments(SiteQuerySchema, location="query")
    @invitations.response(200, InvitationSchema(many=True))
    def get(self, query: Body) -> list[operations.InvitationLine]:
        """Those that can still be used, the newest first."""
        return operations.open_invitations(session(), current_actor(), query["site"], now())

    @invitations.arguments(InviteSchema)
    @invitations.response(201, InvitedSchema)
    def post(self, body: Body) -> Body:
        """Ask somebody to a site with a role: a short code and a QR code, good once and for a while."""
        hours = shared().settings.invitation_hours
        wanted = (body["site"], body["role"], body["name"])
        return _told(operations.invite(session(), shared().secret, current_actor(), *wanted, now(), hours))


@invitations.route("/<invitation_id>")
class Invitation(MethodView):
    """One open invitation."""

    @invitations.response(204)
    def delete(self, invitation_id: str) -> None:
        """Withdraw it."""
        operations.withdraw(session(), current_actor(), invitation_id, now())


@invitations.route("/join")
class Join(MethodView):
    """Coming in by a code."""

    @invitations.arguments(JoinSchema)
    @invitations.response(201, SessionSchema)
    def post(self, body: Body) -> Signed:
        """Use a code. Whoever is signed in, in the same team, gets the role as who they are."""
        spoken = ("name", "language", "units", "hour_cycle", "first_day", "digits")
        profile = sound_profile(**{name: body[name] for name in spoken})
        actor = current_actor_if_any()
        came = (actor, body["code"], profile, body["device_name"])
        joined = operations.join(session(), shared().secret, *came, now(), request.remote_addr)
        if joined.token is None:
            return signed(session(), current_actor())
        send_token(joined.token)
        return signed(session(), recognised(joined.token))


def _device_code(actor: Actor, person: str) -> operations.Invited:
    hours = shared().settings.invitation_hours
    return operations.invite_device(session(), shared().secret, actor, person, now(), hours)


def _told(invited: operations.Invited) -> Body:
    """With the address that fills the code in: after `#`, so that no server's log and no other site ever has it."""
    base = shared().settings.address or request.host_url
    address = operations.address_of(base, invited.code)
    return {
        "id": invited.id,
        "code": invited.code,
        "expires_at": invited.expires_at,
        "address": address,
        "qr": qr_svg(address),
    }
