"""tracksworn: a walk round a crawler machine becomes a condition report that a stranger can rely on.

    inspection  what one inspector recorded about one machine on one day
        ↓
    assessment  what follows from it: percent worn, uncertainty, differences, findings
        ↓
    documents   what a reader sees: words, drawings and pages; PDF, HTML, Markdown
        ↓
    cli         one thin module a command

A room imports only the rooms above it; a test holds that.
"""

__version__ = "0.1.0"
