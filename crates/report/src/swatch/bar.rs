//! The score on a plain line from 0 to 10: its interval as a bar, its bounds as a paler one.

use crate::svg::Svg;
use crate::words::Words;

/// The style rules of this picture.
pub(super) const CSS: &str = "\
.scorebar__line{stroke:currentColor;stroke-width:1;opacity:.45}
.scorebar__tick{stroke:currentColor;stroke-width:1;opacity:.45}
.scorebar__bounds{fill:light-dark(#d5dce3,#3a4753)}
.scorebar__interval{fill:light-dark(#8fa3b5,#7f95a9)}
.scorebar__score{fill:currentColor}
.scorebar__name{fill:currentColor;opacity:.8;font-size:14px;font-variant-numeric:tabular-nums}
";

/// Left end of the scale, and the length of a point.
const LEFT: f64 = 12.0;
const POINT: f64 = 47.6;
/// The line's height.
const LINE: f64 = 27.0;

/// A score with its interval and its bounds on the line from 0 to 10. What lies outside the line is
/// cut off at its ends; what is not a number is left out.
pub fn interval_bar(score: f64, interval: (f64, f64), bounds: (f64, f64), words: &Words) -> String {
    let numbers = words.numbers;
    let said = words.card.score_said(
        &numbers.score(score),
        &numbers.score(interval.0),
        &numbers.score(interval.1),
    );
    let mut svg = Svg::open(500, 64, "picture picture--bar", Some(&said));
    let at = |value: f64| LEFT + POINT * value.clamp(0.0, 10.0);
    let stripe = |svg: &mut Svg, class: &str, (low, high): (f64, f64), half: f64| {
        if low <= high {
            let wide = (at(high) - at(low)).max(1.0);
            svg.rect(class, (at(low), LINE - half), (wide, 2.0 * half));
        }
    };
    stripe(&mut svg, "scorebar__bounds", bounds, 5.0);
    svg.line("scorebar__line", (at(0.0), LINE), (at(10.0), LINE));
    stripe(&mut svg, "scorebar__interval", interval, 9.0);
    for tick in 0..=10_u8 {
        let x = at(f64::from(tick));
        svg.line("scorebar__tick", (x, LINE + 10.0), (x, LINE + 15.0));
        svg.text(
            "scorebar__name",
            (x, 60.0),
            "middle",
            &numbers.count(usize::from(tick)),
        );
    }
    if score.is_finite() {
        svg.rect(
            "scorebar__score",
            (at(score) - 1.75, LINE - 17.0),
            (3.5, 34.0),
        );
    }
    svg.close()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bar_stands_where_the_figures_say() {
        let svg = interval_bar(7.9, (7.5, 8.3), (6.6, 8.6), &Words::ENGLISH);
        assert!(
            svg.contains("aria-label=\"Score 7.9, with 95 % confidence from 7.5 to 8.3\""),
            "{svg}"
        );
        assert!(svg.contains(
            "<rect class=\"scorebar__bounds\" x=\"326.2\" y=\"22\" width=\"95.2\" height=\"10\"/>"
        ));
        assert!(svg.contains(
            "<rect class=\"scorebar__interval\" x=\"369\" y=\"18\" width=\"38.1\" height=\"18\"/>"
        ));
        assert!(svg.contains("<rect class=\"scorebar__score\" x=\"386.3\""));
    }

    #[test]
    fn an_interval_past_the_end_is_cut_off() {
        let svg = interval_bar(9.9, (9.6, 10.2), (f64::NAN, f64::NAN), &Words::ENGLISH);
        assert!(svg.contains("x=\"469\" y=\"18\" width=\"19\""), "{svg}");
        assert!(!svg.contains("scorebar__bounds"));
    }
}
