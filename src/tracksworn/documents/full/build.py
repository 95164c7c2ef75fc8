"""From what was read and what follows from it to the view of the full report."""

from dataclasses import replace

from tracksworn.assessment.model import Assessment, Stage
from tracksworn.documents.full.assumed import assumed, assumed_basis
from tracksworn.documents.full.closing import end_mark, fingerprint_of, foot, signature
from tracksworn.documents.full.elevations import side_views
from tracksworn.documents.full.findings import findings_and_sections
from tracksworn.documents.full.headings import headings
from tracksworn.documents.full.identification import branding, identification
from tracksworn.documents.full.parts import part_rows
from tracksworn.documents.full.photos import own_photos
from tracksworn.documents.full.reader import context_for
from tracksworn.documents.full.readings import chart_lines, instruments, reading_views
from tracksworn.documents.full.seen import not_seen, observation_views
from tracksworn.documents.full.sheet_one import room_for_elevations
from tracksworn.documents.full.terms import terms_view
from tracksworn.documents.full.travels import strips, travel_rows
from tracksworn.documents.full.trends import trends
from tracksworn.documents.full.view import FullReport, Summary
from tracksworn.documents.full.visits import ahead
from tracksworn.documents.full.whole import whole
from tracksworn.documents.words import labels
from tracksworn.documents.words.cautions import cautions
from tracksworn.documents.words.summary import summary
from tracksworn.inspection.dossier import Dossier


def full_report(
    dossier: Dossier,
    assessment: Assessment,
    *,
    language: str | None = None,
    units: str | None = None,
    paper: str | None = None,
    sealed: bool = False,
    fingerprint: str | None = None,
) -> FullReport:
    """The full report as a reader sees it. What is not asked for is the letterhead's, else English, mm and A4.

    `fingerprint` is that of what was read, where it is known already.
    """
    context = context_for(dossier, assessment, language, units, sealed=sealed, fingerprint=fingerprint)
    digits = fingerprint_of(context)
    firm = branding(context, paper)
    told = findings_and_sections(context)
    dossier, assessment = context.dossier, replace(context.assessment, findings=told.order)
    context = replace(context, assessment=assessment)
    said = summary(dossier.inspection, dossier.chart, assessment, context.figures)
    first, of_all = Summary(said.headline, said.sentences, said.beneath), whole(context)
    identified = identification(context)
    sides, drawn = side_views(context, room_for_elevations(firm.paper, identified, first, of_all))
    return FullReport(
        branding=firm,
        identification=identified,
        headings=headings(context.language),
        summary=first,
        whole=of_all,
        sides=sides,
        drawn=drawn,
        parts=part_rows(context),
        travel=travel_rows(context),
        strips=strips(context),
        assumed=assumed(context),
        assumed_basis=assumed_basis(context),
        findings=told.findings,
        profiles=told.sections,
        observations=observation_views(context),
        photos=own_photos(context),
        not_seen=not_seen(context),
        readings=reading_views(context),
        instruments=instruments(context),
        chart=chart_lines(context),
        remarks=dossier.inspection.notes or "",
        standing_terms=(dossier.letterhead.standing_terms or "") if dossier.letterhead else "",
        cautions=cautions(context.language),
        signature=signature(context),
        foot=foot(context, digits),
        fingerprint=digits,
        sealed=context.sealed,
        end=end_mark(context),
        stages=tuple((stage, labels.word(stage, context.language)) for stage in Stage),
        terms=terms_view(context),
        ahead=ahead(context),
        trends=trends(context),
    )
