"""From a view to finished files in memory: HTML, PDF and Markdown, each refused unless its cautions are all in it."""
