"""From what was read and what follows from it to the view of a certificate."""

from collections.abc import Iterator

from tracksworn.assessment.decisions import Conformity
from tracksworn.assessment.model import Assessment
from tracksworn.assessment.sayings import Severity
from tracksworn.documents.certificate.allowed import allowed_view, dots
from tracksworn.documents.certificate.check import check, ring
from tracksworn.documents.certificate.headings import headings
from tracksworn.documents.certificate.identification import details, end_mark, foot, identity
from tracksworn.documents.certificate.no_terms import NoTerms
from tracksworn.documents.certificate.taken import every_figure, read_with, taken
from tracksworn.documents.certificate.view import Certificate, Opinions
from tracksworn.documents.full.assumed import assumed
from tracksworn.documents.full.closing import fingerprint_of, signature
from tracksworn.documents.full.context import Context, subject
from tracksworn.documents.full.identification import branding, identification
from tracksworn.documents.full.reader import context_for
from tracksworn.documents.full.readings import instruments
from tracksworn.documents.full.seen import left_out, not_seen
from tracksworn.documents.full.terms import terms_view
from tracksworn.documents.full.view import Labelled, NotSeen
from tracksworn.documents.words import certificate as words
from tracksworn.documents.words import labels
from tracksworn.documents.words.cautions import cautions
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.findings.short import SHORT
from tracksworn.documents.words.language import N_
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.terms import Terms


def certificate(
    dossier: Dossier,
    assessment: Assessment,
    *,
    language: str | None = None,
    units: str | None = None,
    paper: str | None = None,
    sealed: bool = False,
    fingerprint: str | None = None,
) -> Certificate:
    """The certificate as a reader sees it. What is not asked for is the letterhead's, else English, mm and A4.

    `fingerprint` is that of what was read, where it is known already.
    Raises NoTerms where the inspection names no terms.
    """
    context = context_for(dossier, assessment, language, units, sealed=sealed, fingerprint=fingerprint)
    conformity, terms, shown = context.assessment.conformity, context.dossier.terms, terms_view(context)
    if conformity is None or terms is None or shown is None:
        raise NoTerms
    known, firm, digits = identification(context), branding(context, paper), fingerprint_of(context)
    chart = allowed_view(context, conformity, terms, shown)
    letterhead, signed = context.dossier.letterhead, signature(context)
    return Certificate(
        branding=firm,
        identification=identity(context, conformity, known),
        headings=headings(context.language),
        revision=known.revision,
        terms=every_figure(shown),
        allowed=chart,
        dots=dots(context, chart),
        details=tuple(details(context, known, firm)),
        method=tuple(_method(context, conformity)),
        instruments=instruments(context),
        fitted=known.fitted,
        taken=taken(context, shown),
        read_with=tuple(read_with(context)),
        not_seen=_left_out(context, terms),
        opinions=_opinions(context),
        statement=tuple(_statement(context)),
        signature=signed,
        check=check(context, digits),
        ring=ring(context, digits, firm),
        standing_terms=(letterhead.standing_terms or "") if letterhead else "",
        cautions=cautions(context.language),
        foot=foot(context, conformity, digits, signed),
        fingerprint=digits,
        sealed=context.sealed,
        end=end_mark(context, conformity),
    )


def _method(context: Context, conformity: Conformity) -> Iterator[str]:
    say, chart, inspection = context.say, context.chart, context.inspection
    confidence = context.figures.share(conformity.confidence)
    yield say(words.METHOD, confidence=confidence, number=str(context.assessment.method))
    if chart is None:
        yield say(words.NO_CHART, because=inspection.no_chart_because or say(N_("no reason recorded")))
    else:
        yield say(words.CHART, title=chart.title, source=chart.source.rstrip("."))
    if chart is not None and chart.stands_in_for is not None:
        yield say(words.STANDS_IN, machine=chart.stands_in_for)
    if values := [one.words for one in assumed(context) if one.letter]:
        yield say(words.ASSUMED, values=labels.clauses(values, context.language))


def _left_out(context: Context, terms: Terms) -> NotSeen:
    """What was not seen, what was not held against the terms, and what a look of this kind never sees."""
    sentences = list(left_out(context))
    if None not in terms.allowed:
        parts = [subject(row) for row in context.assessment.components if row.component not in terms.allowed]
        if parts:
            sentences.insert(0, context.say(words.NOT_HELD, parts=context.figures.parts(parts)))
    return NotSeen(not_seen(context).parts, tuple(sentences))


def _opinions(context: Context) -> Opinions:
    findings = context.assessment.findings
    acts = []
    for finding in findings:
        if finding.severity is Severity.ACT:
            said, short = say_finding(finding, context.figures), SHORT.get(finding.advice.code)
            acts.append(Labelled(said.title.rstrip("."), context.say(short) if short else said.advice.rstrip(".")))
    if not acts:
        return Opinions((), context.say(words.NO_OPINION))
    sentence, others = context.say(words.OPINIONS), len(findings) - len(acts)
    return Opinions(
        tuple(acts), context.language.count(*words.OTHERS, others, opinions=sentence) if others else sentence
    )


def _statement(context: Context) -> Iterator[str]:
    yield context.say(words.RELATES, day=context.figures.day(context.inspection.inspected))
    yield context.say(words.SEALED if context.sealed else words.NOT_SEALED)
