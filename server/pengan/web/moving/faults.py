"""What can be wrong with a backup or a site's file."""

from __future__ import annotations

from pengan.engine.message import Message, saying

no_backup = saying("moving.no_backup", "There is no backup in {folder}: it has no {file}.")
folder_taken = saying(
    "moving.folder_taken", "{folder} is there already and not empty. A backup needs a folder of its own."
)
damaged = saying("moving.damaged", "{file} is damaged or incomplete. Nothing was changed.")
not_ours = saying("moving.not_ours", "{file} does not hold what Pengan writes there. Nothing was changed.")
newer = saying(
    "moving.newer", "{file} was written by a newer Pengan than this one. Nothing was changed. Install that one first."
)
not_empty = saying(
    "moving.not_empty", "The database holds sites or people already. With --replace the backup takes their place."
)
site_there = saying(
    "moving.site_there", "The site {site_id} is here already. With --replace the one in the file takes its place."
)


class MovingFault(Exception):
    """Something is wrong with a file or with where it is to go; nothing was changed."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.code)
        self.message = message
