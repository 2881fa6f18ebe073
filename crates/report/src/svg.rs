//! The one place that writes SVG elements and rounds coordinates.

use std::fmt::Write;

use crate::html::escape;

/// How wide the rim of a text over a photo is, as a share of its height.
const RIM: f64 = 0.3;

/// An SVG element being written.
pub(crate) struct Svg(String);

impl Svg {
    /// Opens an element of that size. With a label it is an image with that name; without, it is
    /// hidden from screen readers.
    pub(crate) fn open(width: u32, height: u32, class: &str, label: Option<&str>) -> Self {
        let mut svg = Self(String::with_capacity(1024));
        svg.push(&format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"{class}\" viewBox=\"0 0 {width} {height}\""
        ));
        match label {
            Some(label) => {
                svg.push(" role=\"img\" aria-label=\"");
                svg.push(&escape(label));
                svg.push("\">");
            }
            None => svg.push(" aria-hidden=\"true\">"),
        }
        svg
    }

    /// Opens an element that is drawn in that size where there is room for it.
    pub(crate) fn sized(width: u32, height: u32, class: &str, label: &str) -> Self {
        let mut svg = Self::open(width, height, class, Some(label));
        let size = format!("<svg width=\"{width}\" height=\"{height}\"");
        svg.0.replace_range(..4, &size);
        svg
    }

    /// Closes it.
    pub(crate) fn close(mut self) -> String {
        self.push("</svg>");
        self.0
    }

    /// Text of the markup itself.
    pub(crate) fn push(&mut self, markup: &str) {
        self.0.push_str(markup);
    }

    /// A rectangle.
    pub(crate) fn rect(&mut self, class: &str, (x, y): (f64, f64), (width, height): (f64, f64)) {
        self.push(&format!(
            "<rect class=\"{class}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            coord(x),
            coord(y),
            coord(width),
            coord(height)
        ));
    }

    /// A rectangle in a colour that is no style's: that of what the screen paints itself.
    pub(crate) fn filled(
        &mut self,
        (x, y): (f64, f64),
        (width, height): (f64, f64),
        colour: [u8; 3],
    ) {
        let [red, green, blue] = colour;
        self.push(&format!(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"#{red:02x}{green:02x}{blue:02x}\"/>",
            coord(x),
            coord(y),
            coord(width),
            coord(height)
        ));
    }

    /// A disc.
    pub(crate) fn circle(&mut self, class: &str, (x, y): (f64, f64), radius: f64) {
        let (x, y, radius) = (coord(x), coord(y), coord(radius));
        self.push(&format!(
            "<circle class=\"{class}\" cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"/>"
        ));
    }

    /// A straight line.
    pub(crate) fn line(&mut self, class: &str, from: (f64, f64), to: (f64, f64)) {
        let mut d = Path::default();
        d.line(from, to);
        self.path(class, &d, None);
    }

    /// A path, with a width for its stroke where the class leaves it open. An empty one is left out.
    pub(crate) fn path(&mut self, class: &str, path: &Path, width: Option<f64>) {
        if path.0.is_empty() {
            return;
        }
        self.push(&format!("<path class=\"{class}\" d=\"{}\"", path.0));
        if let Some(width) = width {
            self.push(&format!(" stroke-width=\"{}\"", fine(width)));
        }
        self.push("/>");
    }

    /// A line of text; `anchor` is `start`, `middle` or `end`.
    pub(crate) fn text(&mut self, class: &str, (x, y): (f64, f64), anchor: &str, text: &str) {
        self.push(&format!(
            "<text class=\"{class}\" x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\">{}</text>",
            coord(x),
            coord(y),
            escape(text)
        ));
    }

    /// Text of a height of its own, with a rim that parts it from what is under it: in a picture whose units are not the
    /// screen's.
    pub(crate) fn sized_text(
        &mut self,
        class: &str,
        (x, y): (f64, f64),
        (anchor, size): (&str, f64),
        text: &str,
    ) {
        self.push(&format!(
            "<text class=\"{class}\" x=\"{}\" y=\"{}\" font-size=\"{}\" stroke-width=\"{}\" text-anchor=\"{anchor}\">{}</text>",
            coord(x),
            coord(y),
            coord(size),
            coord(size * RIM),
            escape(text)
        ));
    }
}

/// The steps of a path.
#[derive(Default)]
pub(crate) struct Path(String);

impl Path {
    /// A straight line of its own.
    pub(crate) fn line(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.start(from);
        self.to(to);
    }

    /// Starts somewhere.
    pub(crate) fn start(&mut self, (x, y): (f64, f64)) {
        self.step('M', x, y);
    }

    /// Goes on in a straight line.
    pub(crate) fn to(&mut self, (x, y): (f64, f64)) {
        self.step('L', x, y);
    }

    fn step(&mut self, letter: char, x: f64, y: f64) {
        self.0.push(letter);
        push_rounded(&mut self.0, x, 10);
        self.0.push(' ');
        push_rounded(&mut self.0, y, 10);
    }

    /// A closed loop of whole coordinates, written by steps.
    pub(crate) fn whole_loop(&mut self, points: &[(i32, i32)]) {
        let mut before: Option<(i32, i32)> = None;
        for (x, y) in points {
            // Writing into a string never fails.
            let _ = match before {
                None => write!(self.0, "M{x} {y}"),
                Some((bx, by)) => write!(self.0, "l{} {}", x - bx, y - by),
            };
            before = Some((*x, *y));
        }
        self.close();
    }

    /// Adds the steps of another path.
    pub(crate) fn join(&mut self, other: &Self) {
        self.0.push_str(&other.0);
    }

    /// Back to the start.
    pub(crate) fn close(&mut self) {
        self.0.push('Z');
    }
}

/// A coordinate: one decimal at most. Stable output comes from rounding here and nowhere else.
pub(crate) fn coord(value: f64) -> String {
    let mut text = String::new();
    push_rounded(&mut text, value, 10);
    text
}

/// A stroke's width or an opacity: two decimals at most.
pub(crate) fn fine(value: f64) -> String {
    let mut text = String::new();
    push_rounded(&mut text, value, 100);
    text
}

/// Writes a number rounded to tenths or hundredths. Whole numbers are much quicker to write than
/// floats, and a picture has a thousand coordinates.
fn push_rounded(text: &mut String, value: f64, parts: i32) {
    #[expect(clippy::cast_possible_truncation, reason = "coordinates of a picture")]
    let rounded = (value * f64::from(parts)).round() as i32;
    if rounded < 0 {
        text.push('-');
    }
    let (whole, mut rest) = (rounded.abs() / parts, rounded.abs() % parts);
    // Writing into a string never fails.
    let _ = write!(text, "{whole}");
    let mut place = parts;
    if rest > 0 {
        text.push('.');
    }
    while rest > 0 {
        place /= 10;
        text.push(char::from(b'0' + u8::try_from(rest / place).unwrap_or(0)));
        rest %= place;
    }
}

/// Numbers that look like chance and are always the same (`SplitMix64`; public domain method by
/// Steele, Lea and Flood, 2014).
pub(crate) struct Scatter(u64);

impl Scatter {
    /// A row of numbers for each seed.
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number, from 0 up to 1.
    pub(crate) fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^= z >> 31;
        // The top 53 bits, which a float holds exactly.
        (z >> 11) as f64 / (1u64 << 53) as f64
    }

    /// The next number within a range.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn coordinates_are_short_and_stable() {
        for (value, text) in [
            (0.0, "0"),
            (-0.04, "0"),
            (1.0, "1"),
            (12.36, "12.4"),
            (0.5, "0.5"),
            (-3.21, "-3.2"),
        ] {
            assert_eq!(coord(value), text);
        }
    }

    #[test]
    fn a_label_is_escaped() {
        let svg = Svg::open(10, 10, "x", Some("a<b> \"c\"")).close();
        assert!(
            svg.contains("aria-label=\"a&lt;b&gt; &quot;c&quot;\""),
            "{svg}"
        );
        assert!(
            Svg::open(1, 1, "x", None)
                .close()
                .contains("aria-hidden=\"true\"")
        );
    }

    #[test]
    fn scatter_is_always_the_same() {
        let mut scatter = Scatter::new(0);
        // First output of SplitMix64 for seed 0 is 0xe220a8397b1dcdaf, as published with the method.
        let first = 0xe220_a839_7b1d_cdaf_u64;
        assert!((scatter.next() - (first >> 11) as f64 / (1u64 << 53) as f64).abs() < 1e-18);
        assert!((0..1000).all(|_| (0.0..1.0).contains(&scatter.next())));
    }
}
