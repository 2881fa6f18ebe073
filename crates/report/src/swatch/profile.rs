//! A profile along the engine: one score a column, front to rear.

use crate::svg::{Path, Svg};

/// The style rules of this picture.
pub(super) const CSS: &str = "\
.spark__grid{fill:none;stroke:currentColor;stroke-width:1;opacity:.25}
.spark__line{fill:none;stroke:currentColor;stroke-width:2;stroke-linejoin:round;stroke-linecap:round}
.spark__dot{fill:currentColor}
";

/// Width of a column, and height of the picture.
const COLUMN: f64 = 24.0;
const HEIGHT: f64 = 48.0;
const MARGIN: f64 = 4.0;

/// A small line of scores from 0 (below) to 10 (above). A column without a score breaks the line.
/// A score outside 0 to 10 is drawn at the nearer end.
pub fn spark_profile(scores: &[Option<f64>], label: Option<&str>) -> String {
    let wide = u32::try_from(scores.len().max(1)).unwrap_or(u32::MAX / 24) * 24;
    let mut svg = Svg::open(wide, 48, "picture picture--profile", label);
    let height =
        |score: f64| HEIGHT - MARGIN - (HEIGHT - 2.0 * MARGIN) * score.clamp(0.0, 10.0) / 10.0;
    let mut grid = Path::default();
    for score in [0.0, 5.0, 10.0] {
        grid.line((0.0, height(score)), (f64::from(wide), height(score)));
    }
    svg.path("spark__grid", &grid, None);
    let (mut line, mut going) = (Path::default(), false);
    let mut dots = Vec::new();
    for (column, score) in scores.iter().enumerate() {
        let Some(score) = score.filter(|score| score.is_finite()) else {
            going = false;
            continue;
        };
        let at = ((column as f64 + 0.5) * COLUMN, height(score));
        if going {
            line.to(at);
        } else {
            line.start(at);
        }
        going = true;
        dots.push(at);
    }
    svg.path("spark__line", &line, None);
    for at in dots {
        svg.circle("spark__dot", at, 3.0);
    }
    svg.close()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_breaks_the_line() {
        let svg = spark_profile(&[Some(10.0), Some(5.0), None, Some(0.0)], None);
        assert!(svg.contains("d=\"M12 4L36 24M84 44\""), "{svg}");
        assert_eq!(svg.matches("<circle").count(), 3);
        assert!(svg.contains("viewBox=\"0 0 96 48\""));
        assert!(spark_profile(&[], Some("x")).contains("viewBox=\"0 0 24 48\""));
    }
}
