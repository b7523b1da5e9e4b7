"""An address as a QR code (ISO/IEC 18004), for a camera to read off a screen or a label."""

from __future__ import annotations

import segno


def qr_svg(address: str) -> str:
    """An SVG element without script or style, which a strict policy lets stand in a page. The page says how large."""
    return segno.make(address, error="m", micro=False).svg_inline(border=4, omitsize=True)


def qr_lines(address: str) -> str:
    """The same in signs, for a terminal."""
    made = segno.make(address, error="m", micro=False)
    rows = [list(row) for row in made.matrix_iter(border=2)]
    if len(rows) % 2:
        rows.append([0] * len(rows[0]))
    return "\n".join(
        "".join(_BLOCKS[upper > 0, lower > 0] for upper, lower in zip(rows[at], rows[at + 1], strict=True))
        for at in range(0, len(rows), 2)
    )


_BLOCKS = {(False, False): "█", (False, True): "▀", (True, False): "▄", (True, True): " "}
"""Light modules are drawn and dark ones left out: terminals are dark more often than not."""
