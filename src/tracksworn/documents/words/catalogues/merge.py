"""The catalogues brought up to the sources: new sentences in, unused ones out, translations kept."""

from io import BytesIO
from pathlib import Path
from typing import Final

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from tracksworn.documents.words.catalogues.extract import Marked

PLURALS: Final = {"de": "n != 1", "es": "n != 1", "fr": "n > 1"}
"""Which numbers take the second form. Source: Unicode CLDR, plural rules, of which gettext has the two forms."""

HEAD: Final = """\
# What the reader of a document sees, in the order of the sources.
#
# Written anew by `python -m tracksworn.documents.words.catalogues`, which keeps what is translated here and this head.
# - `#.` names the constant, key or function that holds a sentence, `#:` its modules: see there what fills its places.
# - {places} stand in the translation as they do in the source, in any order. A singular may leave out {n}.
# - Parts come without an article, as a label.
# - Narrow no-break (U+202F) and no-break (U+00A0) spaces are written as characters. French has U+202F before
#   ; : ! ? and inside « ».
# - An empty msgstr is said in English, and refused by the tests.
msgid ""
msgstr ""
"Language: {code}\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"Plural-Forms: nplurals=2; plural=({plural});\\n"
"""


def merge(path: Path, marked: tuple[Marked, ...]) -> None:
    """Write a catalogue anew, named by its language, so that it has every marked sentence once and no other."""
    code = path.stem
    present = path.read_text(encoding="utf-8") if path.exists() else head(code)
    kept = read_po(BytesIO(present.encode()), locale=code)
    merged = Catalog(locale=code, fuzzy=False)
    for one in marked:
        identity = one.source.one if one.source.many is None else (one.source.one, one.source.many)
        before = kept.get(one.source.one, one.source.context)
        same = before is not None and isinstance(before.id, str) == isinstance(identity, str)
        merged.add(
            identity,
            before.string if before is not None and same else None,
            [(module, 0) for module in one.modules],
            auto_comments=one.names,
            user_comments=before.user_comments if before is not None else (),
            context=one.source.context,
        )
    body = BytesIO()
    write_po(body, merged, width=0, omit_header=True, include_lineno=False)
    path.write_text(present.partition("\n\n")[0].rstrip("\n") + "\n\n" + body.getvalue().decode(), encoding="utf-8")


def head(code: str) -> str:
    """What a new catalogue begins with."""
    return HEAD.replace("{code}", code).replace("{plural}", PLURALS[code])
