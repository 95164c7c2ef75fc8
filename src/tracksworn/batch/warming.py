"""What a process that makes lots loads before its first one."""

import gc


def warm_up() -> None:
    """Import engine and rooms, find the fonts, and keep all of that out of the way of collecting."""
    from tracksworn.batch import work  # noqa: F401, PLC0415 - takes a second, which is the point
    from tracksworn.documents.render.files import Sheet  # noqa: PLC0415
    from tracksworn.documents.render.fonts import configuration  # noqa: PLC0415
    from tracksworn.documents.report import builder_of  # noqa: PLC0415

    for sheet in Sheet:
        builder_of(sheet)
    configuration()
    gc.collect()
    gc.freeze()
