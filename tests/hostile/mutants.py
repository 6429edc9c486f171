"""Small damage to a file: bits, pieces cut out, doubled or swapped, and words that readers stumble over."""

from __future__ import annotations

import io
import random
import re
import zipfile

NUMBER = re.compile(rb"-?\d+\.?\d*(e[-+]?\d+)?")
WORDS = (
    *(
        b"1e999 -1 nan inf 0 1e-300 true -9223372036854775808 4294967295 9998-12-31 0001-01-02 <g> &x; M221 G20 G91".split()
    ),
    *(b'" [ ] { } # ; "" \r\n \x00 \xff \xe2\x80\xae'.split(b" ")),
    *(
        b"9" * 5000,
        b"1" * 400,
        b"G2 X1 I1e30\n",
        b"G92 E1e30\n",
        b"M221 S0\n",
        b"1979-05-27T07:32:00-08:00",
        b"[" * 3000,
    ),
)


def mutated(raw: bytes, draw: random.Random) -> bytes:
    """Return a file's bytes with one to eight small changes; a package is changed inside, too."""
    if raw[:2] == b"PK" and draw.random() < 0.7:
        return _packed(raw, draw)
    data = bytearray(raw)
    for _ in range(draw.choice((1, 1, 1, 2, 3, 8))):
        _change(data or bytearray(b"x"), draw)
    return bytes(data)


LINE = re.compile(rb"^(\s*[\w.\"-]+\s*=\s*)(\S.*)$")
VALUES = (
    *(b"0 -1 1e-9 1e9 0.5 3 7 99 1000 true 2026-11-30 2199-12-31".split()),
    *(b'"" "a" "auto" "no such" [] [1] [0,0,0] ["a"] {}'.split()),
    b'"' + b"x" * 300 + b'"',
    '"Zoë\u202e\u0301"'.encode(),
)


def altered(raw: bytes, draw: random.Random) -> bytes:
    """Return a table in words that still reads: one to three values changed, lines dropped, doubled or swapped."""
    lines = raw.split(b"\n")
    for _ in range(draw.choice((1, 1, 2, 3))):
        at = draw.randrange(len(lines))
        for _ in range(40):  # a line that holds something
            if LINE.match(lines[at]):
                break
            at = draw.randrange(len(lines))
        match draw.randrange(6):
            case 0:
                del lines[at : at + draw.choice((1, 1, 4))]
                lines = lines or [b""]
            case 1:
                other = draw.randrange(len(lines))
                lines[at], lines[other] = lines[other], lines[at]
            case 2:
                tables = [i for i, line in enumerate(lines) if line.startswith(b"[")] or [0]
                begin = draw.choice(tables)
                end = next((i for i in tables if i > begin), len(lines))
                lines[begin:begin] = lines[begin:end] if draw.random() < 0.5 else []
            case _:
                lines[at] = _other_value(lines[at], draw)
    return b"\n".join(lines)


def _other_value(line: bytes, draw: random.Random) -> bytes:
    """Return a line with its value, or one number in it, changed."""
    if draw.random() < 0.5 and (found := list(NUMBER.finditer(line))):
        one = draw.choice(found)
        return line[: one.start()] + draw.choice(VALUES[:10]) + line[one.end() :]
    return LINE.sub(lambda had: had[1] + draw.choice(VALUES), line)


def _change(data: bytearray, draw: random.Random) -> None:
    """Make one change."""
    at, kind = draw.randrange(len(data)), draw.randrange(7)
    match kind:
        case 0:
            data[at] ^= 1 << draw.randrange(8)
        case 1:
            del data[at : at + draw.choice((1, 4, 40, 1000))]
        case 2:
            data[at:at] = draw.choice(WORDS)
        case 3:
            del data[at:]
        case 4:
            data[at : at + 4] = draw.randbytes(4)
        case 5:
            found = list(NUMBER.finditer(bytes(data[at : at + 400])))
            if found:
                one = draw.choice(found)
                data[at + one.start() : at + one.end()] = draw.choice(WORDS)
        case _:
            n, other = draw.choice((4, 20, 200)), draw.randrange(len(data))
            data[at:at] = data[other : other + n]


def _packed(raw: bytes, draw: random.Random) -> bytes:
    """Return a package with files in it changed."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(raw)) as was, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as now:
        for name in was.namelist():
            hit = draw.random() < (0.8 if name.endswith(".model") else 0.2)
            now.writestr(name, mutated(was.read(name), draw) if hit else was.read(name))
    return out.getvalue()
