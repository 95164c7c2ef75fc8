"""Whether the assessment that a file carries is what its inspection, chart, prices and terms give, computed anew."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from itertools import zip_longest
from pathlib import Path
from typing import Any, Final

from tracksworn.assessment.assess import METHOD
from tracksworn.documents.attached import ASSESSMENT, FINGERPRINT
from tracksworn.documents.fingerprint import fingerprinted
from tracksworn.documents.report import Assessed, assess_dossier
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.faults import Failed, Faulty
from tracksworn.inspection.reading import read_attached
from tracksworn.records.verifying.carried import Carried, NotCarried
from tracksworn.records.verifying.verdict import Answer, Name, State

_NOTHING: Final = object()


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """The answer about the arithmetic, and what was read and computed anew, where it could be."""

    answer: Answer
    assessed: Assessed | None = None


def judge_arithmetic(carried: Carried, folder: Path) -> Arithmetic:
    """Compute the assessment from the files alone, which are laid out in an empty folder, by the method sealed in."""
    try:
        inspection = carried.lay_out(folder)
        dossier = read_attached(inspection)
    except NotCarried as error:
        return _told(State.FAILED, str(error))
    except Failed as error:
        return _told(State.CANNOT_TELL, str(error))
    except Faulty as error:
        first = error.faults[0]
        return _told(State.FAILED, f"what it carries has faults: line {first.line} of {first.file.name}: {first.what}")
    assessed = Assessed(dossier, assess_dossier(dossier))
    method = carried.assessment.get("method")
    if method != METHOD:
        because = f"it was computed by method {method!r}; this program has method {METHOD}"
        return _told(State.CANNOT_TELL, because, assessed)
    return _compared(carried, assessed)


def _compared(carried: Carried, assessed: Assessed) -> Arithmetic:
    anew = json.loads(assessed.stated.assessment)
    if where := first_difference(carried.assessment, anew):
        return _told(State.FAILED, f"{ASSESSMENT} is not what the files give: {where}", assessed)
    own = {name: sha256(content).hexdigest() for name, content in _sources(carried, assessed.dossier).items()}
    if any(carried.digests.get(name) != digits for name, digits in own.items()):
        return _told(State.FAILED, f"{FINGERPRINT} is not of the files that are carried", assessed)
    if carried.files[FINGERPRINT] != fingerprinted(anew, carried.digests):
        return _told(State.FAILED, f"{FINGERPRINT} is not that of the assessment and its files", assessed)
    return _told(State.PASSED, f"computed anew by method {METHOD} from what is attached, and equal", assessed)


def _sources(carried: Carried, dossier: Dossier) -> Mapping[str, bytes]:
    return {source.name: carried.files[source.name] for source in dossier.sources}


def _told(state: State, because: str, assessed: Assessed | None = None) -> Arithmetic:
    return Arithmetic(Answer(Name.ARITHMETIC, state, because), assessed)


def first_difference(held: Any, anew: Any) -> str:
    """Where two values of JSON first differ, and what stands there in each; empty where they are equal."""
    return next(_differences("", held, anew), "")


def _differences(where: str, held: Any, anew: Any) -> Iterator[str]:
    if isinstance(held, Mapping) and isinstance(anew, Mapping):
        for key in dict.fromkeys([*anew, *held]):
            yield from _differences(f"{where}.{key}".lstrip("."), held.get(key, _NOTHING), anew.get(key, _NOTHING))
    elif isinstance(held, list) and isinstance(anew, list):
        for index, (one, other) in enumerate(zip_longest(held, anew, fillvalue=_NOTHING)):
            yield from _differences(f"{where}[{index}]", one, other)
    elif type(held) is not type(anew) or held != anew:
        yield f"{where or 'it'} is {_shown(held)} there and {_shown(anew)} when computed"


def _shown(value: Any) -> str:
    return "nothing" if value is _NOTHING else json.dumps(value)[:80]
