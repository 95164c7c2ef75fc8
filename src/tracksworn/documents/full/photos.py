"""Photos with their words."""

import re
from pathlib import PurePosixPath

from tracksworn.documents.full import observed
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.view import PhotoView
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_
from tracksworn.inspection.dossier import Picture


def observation_photos(index: int, context: Context) -> tuple[PhotoView, ...]:
    """The photos of one observation, by its index in the inspection."""
    observation = context.inspection.observations[index]
    title, about = observed.title(observation, context), context.figures.part(observation.at)
    photos = [
        _photo(path, picture, title=title, about=about, number=str(index + 1), context=context)
        for path in observation.photos
        if (picture := _picture(path, context)) is not None
    ]
    return tuple(photos)


def own_photos(context: Context) -> tuple[PhotoView, ...]:
    """Photos that belong to no single observation."""
    return tuple(
        _photo(
            photo.file,
            picture,
            about=context.figures.part(photo.shows) if photo.shows is not None else "",
            caption=photo.caption or "",
            context=context,
        )
        for photo in context.inspection.photos
        if (picture := _picture(photo.file, context)) is not None
    )


def machine_photos(context: Context) -> tuple[PhotoView, ...]:
    """The plate and the hour meter."""
    machine = context.inspection.machine
    named = ((machine.plate_photo, N_("Serial number plate")), (machine.meter_photo, N_("Hour meter")))
    return tuple(
        _photo(path, picture, title=context.say(title), context=context)
        for path, title in named
        if path is not None and (picture := _picture(path, context)) is not None
    )


def _picture(path: PurePosixPath, context: Context) -> Picture | None:
    return (context.dossier.photos or {}).get(path)


def _photo(
    path: PurePosixPath,
    picture: Picture,
    *,
    context: Context,
    title: str = "",
    about: str = "",
    caption: str = "",
    number: str = "",
) -> PhotoView:
    shown = ", ".join(text for text in (title, about, caption) if text)
    return PhotoView(
        picture=picture,
        name=file_name(path, context),
        number=number,
        title=title,
        about=labels.opening(about),
        caption=caption,
        alternative=context.say(N_("Photo: {shows}"), shows=shown)
        if shown
        else context.say(N_("Photo without caption")),
    )


def file_name(path: PurePosixPath, context: Context) -> str:
    """A name from `a-z0-9-` that no other photo of the inspection has."""
    same = [other for other in context.dossier.photos or {} if _slug(other) == _slug(path)]
    return _slug(path) if len(same) < 2 else f"{_slug(path)}-{same.index(path) + 1}"


def _slug(path: PurePosixPath) -> str:
    return re.sub(r"[^a-z0-9]+", "-", path.stem.lower()).strip("-") or "photo"
