"""`python -m tracksworn.documents.words.catalogues` brings the catalogues up to the sources."""

from pathlib import Path

from tracksworn.documents.words.catalogues.catalogue import TRANSLATED
from tracksworn.documents.words.catalogues.extract import extract
from tracksworn.documents.words.catalogues.merge import merge

if __name__ == "__main__":
    here = Path(__file__).parent
    sentences = extract(here.parent.parent)
    for code in TRANSLATED:
        merge(here / f"{code}.po", sentences)
