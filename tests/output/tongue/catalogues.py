"""What papers say, collected from the program's files: ``python -m tests.output.tongue.catalogues`` renews every catalogue.

New messages come in without a translation, and a test asks for it; messages that no paper says any more go out.
"""

from __future__ import annotations

import ast
import io
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from planner.job import LANGUAGES
from planner.output.tongue import catalogue_path
from tests.shapes import ROOT

OUTPUT = ROOT / "planner" / "output"
TAKES = {"say": 1, "many": 2}
"""How many texts each method of a ``Tongue`` takes."""
TRANSLATED = tuple(code for code in LANGUAGES if code != "en")


def messages() -> dict[str | tuple[str, ...], list[str]]:
    """Return every message of the papers, one or singular and plural, with the files that say it."""
    found: dict[str | tuple[str, ...], list[str]] = {}
    for path in sorted(OUTPUT.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if name in TAKES:
                texts = tuple(ast.literal_eval(one) for one in node.args[: TAKES[name]])  # a variable is an error here
                found.setdefault(texts[0] if len(texts) == 1 else texts, []).append(path.relative_to(ROOT).as_posix())
    return found


def catalogue(code: str) -> Catalog:
    """Return the catalogue of a language as it stands in its file."""
    return read_po(io.BytesIO(catalogue_path(code).read_bytes()), locale=code)


def header(code: str, old: str) -> str:
    """Return the header of a catalogue's file; who has signed it stays."""
    signed = next((line for line in old.splitlines() if line.startswith('"X-Signed-By:')), '"X-Signed-By: \\n"')
    forms = Catalog(locale=code)
    return (
        f"# {forms.locale.get_language_name('en') if forms.locale else code}: what papers for the bench and for the family say.\n"
        "# Machine-made, not yet read by a speaker. Who has read it writes a role, never a name, behind X-Signed-By:\n"
        "# from then on safety texts stand without the English below them.\n"
        'msgid ""\nmsgstr ""\n'
        f'"Language: {code}\\n"\n"MIME-Version: 1.0\\n"\n"Content-Type: text/plain; charset=utf-8\\n"\n'
        f'"Content-Transfer-Encoding: 8bit\\n"\n"Plural-Forms: {forms.plural_forms}\\n"\n{signed}\n'
    )


def renew(path: Path, code: str) -> None:
    """Bring one catalogue up to date."""
    old = path.read_text(encoding="utf-8") if path.exists() else ""
    have = {_key(message.id): message.string for message in (catalogue(code) if old else ()) if message.id}
    made = Catalog(locale=code)
    for message, places in messages().items():
        made.add(message, have.get(message, ""), locations=[(place, 0) for place in dict.fromkeys(places)])
    written = io.BytesIO()
    write_po(written, made, width=110, omit_header=True, include_lineno=False)
    path.write_text(header(code, old) + "\n" + written.getvalue().decode("utf-8").strip() + "\n", encoding="utf-8")


def _key(message: object) -> str | tuple[str, ...]:
    """Return a message's key."""
    return tuple(str(one) for one in message) if isinstance(message, list | tuple) else str(message)


if __name__ == "__main__":
    for code in TRANSLATED:
        renew(catalogue_path(code), code)
