"""What a reader sees: words, drawings and pages made from an assessment."""
