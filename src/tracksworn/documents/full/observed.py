"""An observation in words: what was seen and how much of it."""

from tracksworn.documents.full.context import Context
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_
from tracksworn.inspection.model import Observation
from tracksworn.inspection.vocabulary import Grade, Sign


def signs(observation: Observation, context: Context) -> str:
    """What was seen: `Leak, flange worn`."""
    return labels.opening(", ".join(labels.word(sign, context.language) for sign in observation.seen))


def grade(observation: Observation, context: Context) -> str:
    """How much of it; empty where nobody said, and where the note alone says what was looked at."""
    if observation.grade is None or (observation.grade is Grade.NONE and observation.seen == (Sign.OTHER,)):
        return ""
    return labels.word(observation.grade, context.language)


def title(observation: Observation, context: Context) -> str:
    """Both: `Leak (slight)`."""
    graded = grade(observation, context)
    seen = signs(observation, context)
    return context.say(N_("{seen} ({grade})"), seen=seen, grade=graded) if graded else seen
