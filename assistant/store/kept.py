"""Kept: results of long work on file, so that they need not be worked out again.

Owns the file's form: a header with a key and a checksum, then JSON. What is kept, and when it is
out of date, is the business of whoever keeps it. Nothing here may ever be needed: a file that is
missing, damaged or out of date is no result, and one that cannot be written is no harm.
"""

from __future__ import annotations

import json
import os
import tempfile
import zlib
from contextlib import suppress
from pathlib import Path
from typing import Any

from assistant.store.paths import home

_FORM = "bayhand 1"


def kept_folder() -> Path:
    """Where results are kept: in the shop's folder."""
    return home() / "kept"


def recall(path: Path, key: str) -> Any | None:
    """What was kept under `key`; None when there is nothing sound for that key."""
    try:
        raw = path.read_bytes()
        header, _, body = raw.partition(b"\n")
        if header.decode("ascii") != f"{_FORM} {key} {zlib.crc32(body):08x}":
            return None
        return json.loads(body)
    except (OSError, ValueError, RecursionError):
        return None


def keep(path: Path, key: str, data: Any) -> None:
    """Keep JSON data under a key: written aside, then renamed; for the user's eyes only."""
    body = json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode("utf-8")
    header = f"{_FORM} {key} {zlib.crc32(body):08x}\n".encode("ascii")
    aside = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        handle, aside = tempfile.mkstemp(dir=path.parent, prefix=path.name, suffix=".new")
        with os.fdopen(handle, "wb") as file:
            file.write(header + body)
        os.replace(aside, path)
    except OSError:  # a full disk or a read-only folder: the next start works it out again
        if aside is not None:
            with suppress(OSError):
                os.unlink(aside)
