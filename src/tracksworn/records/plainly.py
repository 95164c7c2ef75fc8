"""What a library says of a file that it cannot read, for somebody who has only the file."""

import re
from typing import Final

_MOST: Final = 200
_STREAM: Final = re.compile(r"stream <[^>]*>(?: \((?P<where>object [0-9]+).*?\)| \(.*?\)+)?: (?P<what>.*)")


def plainly(error: BaseException) -> str:
    """What an error says, in one line of bounded length; a file in memory is named by no address of this machine."""
    said = " ".join(str(error).split())
    if found := _STREAM.fullmatch(said):
        said = ": ".join(filter(None, (found["where"], found["what"])))
    return (said[:_MOST] or type(error).__name__).rstrip(".")
