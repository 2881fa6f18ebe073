//! Machining marks.

use super::{STRIP, TRACK, WIDTH};
use crate::svg::{Path, Scatter, Svg};

/// Marks that slant across ground steel; in the track that share of them is left.
pub(super) fn slanting(svg: &mut Svg, left: f64) {
    const SLANT: f64 = 9.0;
    let mut scatter = Scatter::new(3);
    let (mut borders, mut track) = (Path::default(), Path::default());
    for n in 0..74 {
        let x = -10.0 + f64::from(n) * 2.5 + scatter.between(-0.5, 0.5);
        let at = |y: f64| (x + SLANT * (1.0 - y / STRIP), y);
        borders.line(at(0.0), at(TRACK.0));
        borders.line(at(TRACK.1), at(STRIP));
        // What is left of a mark is left in pieces; those side by side are one line.
        let mut from = None;
        for piece in 0..4 {
            let (start, end) = piece_of(TRACK, piece, 4);
            if scatter.next() < left {
                from = from.or(Some(start));
                if piece < 3 {
                    continue;
                }
                if let Some(start) = from {
                    track.line(at(start), at(end));
                }
            } else if let Some(before) = from.take() {
                track.line(at(before), at(start));
            }
        }
    }
    draw(svg, &borders, &track);
}

/// Marks that run along a bored lining; in the track that share of them is left.
pub(super) fn along(svg: &mut Svg, left: f64) {
    let mut scatter = Scatter::new(3);
    let (mut borders, mut track) = (Path::default(), Path::default());
    for n in 0..28 {
        let y = 1.2 + f64::from(n) * 2.5;
        if y <= TRACK.0 || y >= TRACK.1 {
            borders.line((0.0, y), (WIDTH, y));
            continue;
        }
        for piece in 0..6 {
            let (from, to) = piece_of((0.0, WIDTH), piece, 6);
            if scatter.next() < left {
                track.line((from, y), (to, y));
            }
        }
    }
    draw(svg, &borders, &track);
}

fn draw(svg: &mut Svg, borders: &Path, track: &Path) {
    svg.path("metal__marks", borders, Some(0.55));
    svg.path("metal__marks", track, Some(0.5));
}

fn piece_of((from, to): (f64, f64), piece: i32, pieces: i32) -> (f64, f64) {
    let step = (to - from) / f64::from(pieces);
    let start = from + step * f64::from(piece);
    (start, start + step)
}
