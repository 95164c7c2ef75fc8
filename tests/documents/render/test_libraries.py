"""That finding the engine's libraries starts no program: a dozen of them took a tenth of a short command."""

import ctypes.util
import subprocess
import sys

import pytest

from tracksworn.documents.render.libraries import by_their_own_names

IMPORTING = """
import sys

started = []
sys.addaudithook(lambda event, what: started.append(what[0]) if event == "subprocess.Popen" else None)
import tracksworn.documents.render.engine
print(started)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere their other names are needed")
def test_importing_the_engine_starts_no_program() -> None:
    done = subprocess.run([sys.executable, "-c", IMPORTING], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


def test_the_search_by_other_names_is_there_again_afterwards() -> None:
    search = ctypes.util.find_library
    with pytest.raises(ImportError), by_their_own_names():
        raise ImportError
    assert ctypes.util.find_library is search
