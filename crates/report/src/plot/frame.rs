//! What the plots share: scales, axes, the new range, limits, marks and keys.

use ringland_assess::gauging::finding::{Figure, Finding, NewFrom};
use ringland_card::gauging::Unit;

use super::ticks::{Ticks, ticks};
use crate::{
    format::expanded,
    svg::{Path, Svg},
    words::Words,
};

/// How wide a character of a name is taken to be, and how far two lines of text are apart.
pub(super) const CHARACTER: f64 = 7.2;
pub(super) const LINE: f64 = 16.0;

/// Room around the outermost figures, as a share of their range.
const ROOM: f64 = 0.06;

/// From figures to coordinates.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    low: f64,
    high: f64,
    from: f64,
    to: f64,
}

impl Scale {
    /// A range of figures from one coordinate to another.
    pub(super) fn new((low, high): (f64, f64), (from, to): (f64, f64)) -> Self {
        Self {
            low,
            high,
            from,
            to,
        }
    }

    /// Where a figure lies; at the nearer end where it is outside.
    pub(super) fn at(self, value: f64) -> f64 {
        let share = ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0);
        self.from + (self.to - self.from) * share
    }

    /// Round figures along it.
    pub(super) fn ticks(self, most_steps: u8) -> Ticks {
        ticks(self.low, self.high, most_steps)
    }
}

/// The range of some figures with room around them; none without a figure.
pub(super) fn range(values: impl IntoIterator<Item = f64>) -> Option<(f64, f64)> {
    let values = values.into_iter().filter(|value| value.is_finite());
    let ends = |ends: Option<(f64, f64)>, value: f64| match ends {
        None => Some((value, value)),
        Some((low, high)) => Some((low.min(value), high.max(value))),
    };
    let (low, high) = values.fold(None, ends)?;
    let room = if high > low {
        (high - low) * ROOM
    } else {
        (high.abs() * 1e-3).max(1e-6)
    };
    Some((low - room, high + room))
}

/// A figure in the unit of the plot, with its expanded uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Dot {
    pub(super) value: f64,
    pub(super) half: f64,
}

impl Dot {
    pub(super) fn of(figure: &Figure, unit: Unit) -> Self {
        Self {
            value: unit.of_si(figure.si),
            half: expanded(figure).map_or(0.0, |half| unit.of_si(half)),
        }
    }

    pub(super) fn low(self) -> f64 {
        self.value - self.half
    }

    pub(super) fn high(self) -> f64 {
        self.value + self.half
    }
}

/// What figures are held against, in the unit of the plot.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Against {
    /// The least and the most of a new part; the same where it was read.
    pub(super) new: Option<(f64, f64)>,
    /// The wear limits.
    pub(super) limits: Vec<f64>,
}

impl Against {
    pub(super) fn of(finding: &Finding, unit: Unit) -> Self {
        let new = finding.new.map(|new| match new.from {
            NewFrom::Measured => (new.si, new.si),
            NewFrom::Range { low, high } => (low, high),
        });
        Self {
            new: new.map(|(low, high)| (unit.of_si(low), unit.of_si(high))),
            limits: finding
                .held
                .iter()
                .map(|held| unit.of_si(held.limit))
                .collect(),
        }
    }

    /// Every figure of it.
    pub(super) fn values(&self) -> impl Iterator<Item = f64> {
        let new = self.new.into_iter().flat_map(|(low, high)| [low, high]);
        new.chain(self.limits.iter().copied())
    }

    /// In words, with so many decimals: "as new 129.38 to 129.42", "limit 129.55".
    pub(super) fn said(&self, words: &Words, decimals: usize) -> Vec<String> {
        let fixed = |value: &f64| words.numbers.fixed(*value, decimals);
        let new = self.new.map(|(low, high)| {
            let said = if high > low {
                words.common.range(&fixed(&low), &fixed(&high))
            } else {
                fixed(&low)
            };
            words.measured.plot_new(&said)
        });
        let limits = self
            .limits
            .iter()
            .map(|limit| words.measured.plot_limit(&fixed(limit)));
        new.into_iter().chain(limits).collect()
    }
}

/// The decimals with which the figures of a plot are told apart: one more than its axis has.
pub(super) fn fine(ticks: &Ticks) -> usize {
    ticks.decimals + 1
}

/// A square of the plot: left, top, right, bottom.
#[derive(Clone, Copy, Debug)]
pub(super) struct Area {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Area {
    /// Its edge, above what lies in it.
    pub(super) fn edge(self, svg: &mut Svg) {
        let (width, height) = (self.right - self.left, self.bottom - self.top);
        svg.rect("plot__edge", (self.left, self.top), (width, height));
    }

    /// Figures below it, a fine line up from each.
    pub(super) fn x_axis(self, svg: &mut Svg, scale: Scale, ticks: &Ticks, words: &Words) {
        let mut grid = Path::default();
        for value in &ticks.values {
            let x = scale.at(*value);
            grid.line((x, self.top), (x, self.bottom));
            let text = words.numbers.fixed(*value, ticks.decimals);
            svg.text("plot__figure", (x, self.bottom + LINE), "middle", &text);
        }
        svg.path("plot__grid", &grid, None);
    }

    /// Figures left of it, a fine line across from each.
    pub(super) fn y_axis(self, svg: &mut Svg, scale: Scale, ticks: &Ticks, words: &Words) {
        let mut grid = Path::default();
        for value in &ticks.values {
            let y = scale.at(*value);
            grid.line((self.left, y), (self.right, y));
            let text = words.numbers.fixed(*value, ticks.decimals);
            svg.text("plot__figure", (self.left - 6.0, y + 4.5), "end", &text);
        }
        svg.path("plot__grid", &grid, None);
    }

    /// The new range as a band across, each limit as a line; their names at the right. Where parts were read
    /// new there is no band, and the name stands beside the figure given.
    pub(super) fn against_across(
        self,
        svg: &mut Svg,
        scale: Scale,
        against: &Against,
        read_new: Option<f64>,
        words: &Words,
    ) {
        let width = self.right - self.left;
        let mut names = Vec::new();
        if let (Some(new), None) = (read_new, against.new) {
            names.push((scale.at(new), words.gauging.as_new));
        }
        if let Some((low, high)) = against.new {
            let (top, bottom) = (scale.at(high), scale.at(low));
            let height = (bottom - top).max(2.0);
            svg.rect("plot__new", (self.left, top), (width, height));
            names.push((top + height / 2.0, words.gauging.as_new));
        }
        for limit in &against.limits {
            let y = scale.at(*limit);
            svg.line("plot__limit", (self.left, y), (self.right, y));
            names.push((y, words.gauging.limit));
        }
        names.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut above = f64::NEG_INFINITY;
        for (y, name) in names {
            // Two names never lie on each other.
            let y = y.max(above + LINE);
            above = y;
            svg.text("plot__name", (self.right + 6.0, y + 4.5), "start", name);
        }
    }
}

/// How many marks there are to tell lines apart.
const MARKS: usize = 6;

/// The mark of a line by its number, at a point: shapes, so that they are told apart in grey.
pub(super) fn mark(svg: &mut Svg, number: usize, (x, y): (f64, f64)) {
    let class = if number.is_multiple_of(2) {
        "plot__mark"
    } else {
        "plot__mark plot__mark--open"
    };
    let shape: &[(f64, f64)] = match number % MARKS {
        0 => {
            svg.circle(class, (x, y), 4.0);
            return;
        }
        1 | 4 => &[(-4.0, -4.0), (4.0, -4.0), (4.0, 4.0), (-4.0, 4.0)],
        2 => &[(0.0, -5.5), (5.5, 4.0), (-5.5, 4.0)],
        3 => &[(0.0, -6.0), (6.0, 0.0), (0.0, 6.0), (-6.0, 0.0)],
        _ => &[(0.0, 5.5), (5.5, -4.0), (-5.5, -4.0)],
    };
    let mut path = Path::default();
    for (step, (dx, dy)) in shape.iter().enumerate() {
        let at = (x + dx, y + dy);
        if step == 0 {
            path.start(at);
        } else {
            path.to(at);
        }
    }
    path.close();
    svg.path(class, &path, None);
}

/// An uncertainty: a line between two points with a cap at each end, level or upright.
pub(super) fn whisker(svg: &mut Svg, (x0, y0): (f64, f64), (x1, y1): (f64, f64)) {
    const CAP: f64 = 3.5;
    let (dx, dy) = if (x1 - x0).abs() > (y1 - y0).abs() {
        (0.0, CAP)
    } else {
        (CAP, 0.0)
    };
    let mut path = Path::default();
    path.line((x0, y0), (x1, y1));
    path.line((x0 - dx, y0 - dy), (x0 + dx, y0 + dy));
    path.line((x1 - dx, y1 - dy), (x1 + dx, y1 + dy));
    svg.path("plot__u", &path, None);
}

/// A name that is too long for its place, cut.
pub(super) fn cut(name: &str, most: usize) -> String {
    if name.chars().count() <= most {
        return name.to_owned();
    }
    let mut text: String = name.chars().take(most.saturating_sub(1)).collect();
    text.push('…');
    text
}

/// The length of a text as drawn.
pub(super) fn wide(text: &str) -> f64 {
    text.chars().count() as f64 * CHARACTER
}

/// A coordinate as the size of a picture.
pub(super) fn whole(length: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the size of a picture"
    )]
    let whole = length.clamp(1.0, 1e6).round() as u32;
    whole
}

/// What the axis of sizes is called: "Size at 20 °C, mm".
pub(super) fn size_axis(words: &Words, unit: Unit) -> String {
    axis(words.gauging.size, unit.sign())
}

/// What an axis is called: "Wear, mm".
pub(super) fn axis(name: &str, unit: &str) -> String {
    [name, ", ", unit].concat()
}

/// The sentence of a plot: what it shows, along which axis, and what stands there.
pub(super) fn sentence(name: &str, axis: &str, said: &[String]) -> String {
    [name, ". ", axis, ": ", &said.join("; ")].concat()
}
