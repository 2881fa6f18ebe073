//! What is marked on a photo, drawn over it.

use ringland_assess::photo::length;
use ringland_card::{
    Mark,
    photo::{Picture, Point},
};

use crate::{
    svg::{Path, Svg},
    words::Words,
};

/// How long the head of an arrow is, as a share of the photo's longer side.
const HEAD: f64 = 0.022;
/// How wide the head of an arrow opens to each side, as a share of its length.
const OPENING: f64 = 0.45;
/// The height of letters, as a share of the photo's longer side.
const LETTERS: f64 = 0.026;
/// Twice this much of U is said beside a length: k of the expanded uncertainty.
const K: f64 = 2.0;

impl Words {
    /// A mark among the others on its photo, in words: a length with what it comes to.
    pub fn mark_among(&self, mark: &Mark, marks: &[&Mark]) -> String {
        match mark {
            Mark::Length { .. } => {
                let figure = read_off(self, known(marks), mark);
                self.names.rating(self.photos.length, &figure)
            }
            mark => self.mark(mark),
        }
    }
}

/// The last known length among the marks on a photo.
fn known<'m>(marks: &[&'m Mark]) -> Option<&'m Mark> {
    let mut last_first = marks.iter().rev().copied();
    last_first.find(|mark| matches!(mark, Mark::Scale { .. }))
}

/// What a length comes to beside a known one, or why it comes to nothing.
fn read_off(words: &Words, known: Option<&Mark>, mark: &Mark) -> String {
    let Some(known @ Mark::Scale { unit, .. }) = known else {
        return words.photos.no_scale.to_owned();
    };
    length(known, mark).map_or_else(String::new, |found| {
        words.numbers.sized(found.metres, K * found.u, *unit)
    })
}

/// The marks on a photo, as a picture of the photo's size to be laid over it.
pub fn overlay(words: &Words, picture: &Picture, marks: &[&Mark]) -> String {
    let mut svg = Svg::open(picture.width, picture.height, "marks", None);
    let side = f64::from(picture.width.max(picture.height));
    let drawing = Drawing {
        words,
        side,
        right: f64::from(picture.width),
        known: known(marks),
    };
    for mark in marks {
        drawing.draw(&mut svg, mark);
    }
    svg.close()
}

struct Drawing<'m> {
    words: &'m Words,
    side: f64,
    right: f64,
    /// The last known length on the photo.
    known: Option<&'m Mark>,
}

impl Drawing<'_> {
    fn draw(&self, svg: &mut Svg, mark: &Mark) {
        let mut path = Path::default();
        let (at, text) = match mark {
            Mark::Arrow { from, to, text } => {
                path.line(xy(*from), xy(*to));
                self.head(&mut path, *from, *to);
                (*from, text.clone())
            }
            Mark::Outline { corners, text } => {
                let around = corners.iter().zip(corners.iter().cycle().skip(1));
                for (from, to) in around {
                    path.line(xy(*from), xy(*to));
                }
                (highest(corners), text.clone())
            }
            Mark::Note { at, text } => (*at, text.clone()),
            Mark::Scale {
                from,
                to,
                length,
                unit,
            } => {
                self.ends(&mut path, *from, *to);
                let figure = self.words.numbers.as_typed(length.as_str());
                (
                    middle(*from, *to),
                    [&figure, "\u{a0}", unit.sign()].concat(),
                )
            }
            Mark::Length { from, to } => {
                self.ends(&mut path, *from, *to);
                let figure = read_off(self.words, self.known, mark);
                (middle(*from, *to), figure)
            }
        };
        // Seen on light and on dark parts alike: a dark line within a light one.
        svg.path("marks__under", &path, None);
        svg.path(
            match mark {
                Mark::Scale { .. } => "marks__line marks__line--known",
                _ => "marks__line",
            },
            &path,
            None,
        );
        self.write(svg, at, &text);
    }

    fn head(&self, path: &mut Path, from: Point, to: Point) {
        let along = from.distance(to).max(f64::MIN_POSITIVE);
        let long = HEAD * self.side;
        let (dx, dy) = (
            (from.x - to.x) / along * long,
            (from.y - to.y) / along * long,
        );
        for side in [OPENING, -OPENING] {
            path.line(xy(to), (to.x + dx - side * dy, to.y + dy + side * dx));
        }
    }

    /// A line with a bar across each end.
    fn ends(&self, path: &mut Path, from: Point, to: Point) {
        let along = from.distance(to).max(f64::MIN_POSITIVE);
        let half = HEAD * self.side / 2.0;
        let (dx, dy) = (
            (to.y - from.y) / along * half,
            (from.x - to.x) / along * half,
        );
        path.line(xy(from), xy(to));
        for end in [from, to] {
            path.line((end.x - dx, end.y - dy), (end.x + dx, end.y + dy));
        }
    }

    /// Words at a place; towards the middle where they would run off to the right.
    fn write(&self, svg: &mut Svg, at: Point, text: &str) {
        if text.is_empty() {
            return;
        }
        let size = LETTERS * self.side;
        let gap = size / 2.0;
        let from_right = at.x > self.right * 0.6;
        let x = if from_right { at.x - gap } else { at.x + gap };
        let anchor = if from_right { "end" } else { "start" };
        let y = (at.y - gap).max(size);
        svg.sized_text("marks__text", (x, y), (anchor, size), text);
    }
}

fn xy(point: Point) -> (f64, f64) {
    (point.x, point.y)
}

fn middle(from: Point, to: Point) -> Point {
    Point {
        x: from.x.midpoint(to.x),
        y: from.y.midpoint(to.y),
    }
}

fn highest(corners: &[Point]) -> Point {
    let first = Point { x: 0.0, y: 0.0 };
    let highest = corners
        .iter()
        .min_by(|one, other| one.y.total_cmp(&other.y));
    highest.copied().unwrap_or(first)
}
