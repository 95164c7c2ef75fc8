"""Contrast of a colour on white, by WCAG 2.2 (definitions of relative luminance and contrast ratio)."""

LEAST_CONTRAST = 4.5


def on_white(colour: str) -> float:
    """Contrast ratio, 1 to 21, of a colour `#rrggbb` on white."""
    channels = (int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5))
    linear = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    luminance = sum(weight * c for weight, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))
    return 1.05 / (luminance + 0.05)
