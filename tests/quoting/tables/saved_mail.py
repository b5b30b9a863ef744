"""Writes a mail as mail programs save it (.msg): a compound file with a storage for each attachment.

Made from the published structures [MS-CFB] and [MS-OXMSG].
"""

from __future__ import annotations

import struct
from dataclasses import dataclass

_END, _FREE, _NONE = 0xFFFFFFFE, 0xFFFFFFFF, 0xFFFFFFFF
_TEXT, _BYTES = 0x001F, 0x0102
_LARGE = 4096
"""A stream of so many bytes stands in sectors of its own."""

Tree = dict[str, "bytes | Tree"]
Values = dict[tuple[int, int], str | bytes]


def saved_mail(sender: str, subject: str, body: str, files: dict[str, bytes]) -> bytes:
    """Return a .msg of a sender such as `Jane Doe <jane@example.com>`."""
    tree: Tree = _stored(
        {(0x0037, _TEXT): subject, (0x1000, _TEXT): body, (0x007D, _TEXT): f"From: {sender}\r\n"},
        struct.pack("<8xIIII8x", 0, len(files), 0, len(files)),
    )
    for index, (name, data) in enumerate(files.items()):
        held: Values = {(0x3707, _TEXT): name, (0x3704, _TEXT): name, (0x3701, _BYTES): data}
        tree[f"__attach_version1.0_#{index:08X}"] = _stored(held, bytes(8))
    tree["__nameid_version1.0"] = {}
    return _compound(tree)


def _stored(values: Values, head: bytes) -> Tree:
    tree: Tree = {}
    table = head
    for (tag, kind), value in values.items():
        data = value.encode("utf-16-le") if isinstance(value, str) else value
        tree[f"__substg1.0_{tag:04X}{kind:04X}"] = data
        table += struct.pack("<HHIII", kind, tag, 6, len(data) + 2 * (kind == _TEXT), 0)
    return {**tree, "__properties_version1.0": table}


def _compound(tree: Tree) -> bytes:
    """Return a compound file; small streams stand in the root's in sectors of 64 bytes, large ones apart."""
    entries: list[_Entry] = [_Entry("Root Entry", 5)]
    small = b""
    large: list[tuple[_Entry, bytes]] = []
    chain: list[int] = []

    def add(inside: Tree) -> int:
        nonlocal small
        first = _NONE
        for name, value in reversed(inside.items()):
            own = len(entries)
            entries.append(_Entry(name, 1, after=first))
            if isinstance(value, dict):
                entries[own].child = add(value)
            elif len(value) >= _LARGE:
                entries[own].kind, entries[own].size = 2, len(value)
                large.append((entries[own], value))
            else:
                entries[own].kind, entries[own].start, entries[own].size = 2, len(chain), len(value)
                count = max(1, -(-len(value) // 64))
                small += value.ljust(64 * count, b"\0")
                chain.extend([*range(len(chain) + 1, len(chain) + count), _END])
            first = own
        return first

    entries[0].child = add(tree)
    entries[0].start, entries[0].size = 0, len(small)
    table = struct.pack(f"<{len(chain)}I", *chain).ljust(-(-len(chain) // 128) * 512, b"\xff")
    parts: list[bytes] = []
    fat: list[int] = []

    def put(part: bytes) -> int:
        start = len(fat)
        parts.append(part.ljust(-(-len(part) // 512) * 512, b"\0"))
        fat.extend([*range(start + 1, start + len(parts[-1]) // 512), _END])
        return start

    starts = [put(small), put(table)]
    for entry, value in large:
        entry.start = put(value)
    starts.append(put(b"".join(entry.packed() for entry in entries)))
    at = len(fat)
    assert at < 127, "this writer holds one sector of the allocation table"
    fat += [0xFFFFFFFD, *[_FREE] * (127 - at)]
    head = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(16)
    head += struct.pack("<HHHHH", 0x3E, 3, 0xFFFE, 9, 6) + bytes(10)
    head += struct.pack("<IIIIIIII", 1, starts[2], 0, _LARGE, starts[1], len(parts[1]) // 512, _END, 0)
    head += struct.pack("<109I", at, *[_FREE] * 108)
    return head + b"".join(parts) + struct.pack("<128I", *fat)


@dataclass
class _Entry:
    name: str
    kind: int
    after: int = _NONE
    child: int = _NONE
    start: int = 0
    size: int = 0

    def packed(self) -> bytes:
        text = (self.name + "\0").encode("utf-16-le")
        links = struct.pack("<HBBIII", len(text), self.kind, 1, _NONE, self.after, self.child)
        return text.ljust(64, b"\0") + links + bytes(36) + struct.pack("<III", self.start, self.size, 0)
