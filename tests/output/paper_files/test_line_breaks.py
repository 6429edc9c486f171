"""Line breaks: no line ends between a number and its unit."""

from __future__ import annotations

from planner.output.paper_files.line_breaks import NO_BREAK, with_fixed_spaces, with_fixed_spaces_in


def test_numbers_keep_their_units() -> None:
    """SI Brochure, 9th edition, 5.4.3: a space between number and unit, and no line may end there."""
    assert with_fixed_spaces("60 s, 5 mm, 3 × 4 mm²") == "60_s, 5_mm, 3_×_4_mm²".replace("_", NO_BREAK)
    assert with_fixed_spaces("2 most, 4 handles, 5 minutes") == "2 most, 4 handles, 5 minutes"


def test_a_page_keeps_its_tags_and_commands() -> None:
    """Only what is read is bound: attributes, scripts, styles and commands to copy stay as they are."""
    html = '<p title="5 mm">5 mm, 3 °C and ± 2 N·mm</p><script>a = "5 mm"</script><code>--scale 5 mm</code> 5 kg'
    bound = '<p title="5 mm">5_mm, 3_°C and ±_2_N·mm</p><script>a = "5 mm"</script><code>--scale 5 mm</code> 5_kg'

    assert with_fixed_spaces_in(html) == bound.replace("_", NO_BREAK).replace(
        "<code>--scale 5_mm", "<code>--scale 5 mm"
    )
