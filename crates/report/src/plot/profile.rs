//! The profile of a bore or a journal: its heights from the first down, a line for each axis.

use ringland_assess::gauging::finding::Finding;
use ringland_card::{gauging::Unit, ids::SpotId};

use super::frame::{
    Against, Area, Dot, LINE, Scale, fine, mark, range, sentence, size_axis, whisker, whole, wide,
};
use crate::{
    format::NBSP,
    svg::{Path, Svg},
    words::Words,
};

/// The width of the picture, and how far two heights are apart.
const WIDTH: f64 = 480.0;
const STEP: f64 = 56.0;
/// How far the axes of one height lie apart, so that their uncertainties do not cover each other.
const APART: f64 = 11.0;
/// The steps of the axis of sizes, at most.
const STEPS: u8 = 6;

/// One axis of the grid with what was read on it, by height.
struct Line {
    name: String,
    dots: Vec<Option<Dot>>,
}

/// What was read on a grid of heights, each figure with its expanded uncertainty, beside the new range and the
/// limits; nothing where it was read at less than two heights, or where the heights are not of one surface.
pub fn profile(name: &str, finding: &Finding, unit: Unit, words: &Words) -> Option<String> {
    // A difference of two readings stands on no spot of its own.
    let one_surface = finding.spots.iter().any(|spot| spot.spot == finding.at);
    let heights = each(finding, |spot| spot.station.as_ref());
    if !one_surface || heights.len() < 2 {
        return None;
    }
    let lines = lines(finding, &heights, unit, words);
    let against = Against::of(finding, unit);
    let dots = || lines.iter().flat_map(|line| line.dots.iter().flatten());
    let ends = dots().flat_map(|dot| [dot.low(), dot.high()]);
    let range = range(ends.chain(against.values()))?;

    let names: Vec<String> = heights
        .iter()
        .map(|height| words.spot_name(height))
        .collect();
    let left = names.iter().map(|name| wide(name)).fold(40.0, f64::max) + 14.0;
    let area = Area {
        left,
        top: 2.0 * LINE + 6.0,
        right: WIDTH - 16.0,
        bottom: 2.0 * LINE + 6.0 + STEP * heights.len() as f64,
    };
    let scale = Scale::new(range, (area.left, area.right));
    let ticks = scale.ticks(STEPS);
    let said = said(name, &lines, &names, &against, unit, words, fine(&ticks));
    let keyed = lines.len() > 1;
    let height = area.bottom + LINE * if keyed { 4.0 } else { 2.6 };
    let mut svg = Svg::sized(whole(WIDTH), whole(height), "picture picture--plot", &said);
    area.x_axis(&mut svg, scale, &ticks, words);
    upright(&mut svg, area, scale, &against, words);
    area.edge(&mut svg);
    let row = |number: usize| area.top + STEP * (number as f64 + 0.5);
    for (number, name) in names.iter().enumerate() {
        svg.text(
            "plot__name",
            (area.left - 8.0, row(number) + 4.5),
            "end",
            name,
        );
    }
    for (number, line) in lines.iter().enumerate() {
        let off = (number as f64 - (lines.len() as f64 - 1.0) / 2.0) * APART;
        draw(&mut svg, number, line, |dot, height| {
            (scale.at(dot), row(height) + off)
        });
    }
    let middle = f64::midpoint(area.left, area.right);
    let below = area.bottom + LINE * 2.2;
    svg.text(
        "plot__name",
        (middle, below),
        "middle",
        &size_axis(words, unit),
    );
    if keyed {
        key(&mut svg, &lines, (area.left, below + LINE * 1.4));
    }
    Some(svg.close())
}

/// The heights or the axes of the grid that were read, in order; none where it has none.
fn each<'f>(
    finding: &'f Finding,
    of: impl Fn(&'f ringland_card::gauging::Spot) -> Option<&'f SpotId>,
) -> Vec<&'f SpotId> {
    let mut each: Vec<&SpotId> = Vec::new();
    for spot in finding.spots.iter().filter_map(|spot| of(&spot.spot)) {
        if !each.contains(&spot) {
            each.push(spot);
        }
    }
    each
}

fn lines(finding: &Finding, heights: &[&SpotId], unit: Unit, words: &Words) -> Vec<Line> {
    let axes = each(finding, |spot| spot.axis.as_ref());
    let axes: Vec<Option<&SpotId>> = if axes.is_empty() {
        vec![None]
    } else {
        axes.into_iter().map(Some).collect()
    };
    let read = |height: &SpotId, axis: Option<&SpotId>| {
        let mut spots = finding.spots.iter();
        let here = spots.find(|spot| {
            spot.spot.station.as_ref() == Some(height) && spot.spot.axis.as_ref() == axis
        });
        here.map(|spot| Dot::of(&spot.figure, unit))
    };
    axes.into_iter()
        .map(|axis| Line {
            name: axis.map_or_else(String::new, |axis| words.spot_name(axis)),
            dots: heights.iter().map(|height| read(height, axis)).collect(),
        })
        .collect()
}

/// The new range as an upright band, each limit as a line; their names above.
fn upright(svg: &mut Svg, area: Area, scale: Scale, against: &Against, words: &Words) {
    if let Some((low, high)) = against.new {
        let (from, to) = (scale.at(low), scale.at(high));
        let width = (to - from).max(2.0);
        svg.rect(
            "plot__new",
            (from, area.top),
            (width, area.bottom - area.top),
        );
        named(
            svg,
            area,
            (from + width / 2.0, area.top - 5.0),
            words.gauging.as_new,
        );
    }
    for limit in &against.limits {
        let x = scale.at(*limit);
        svg.line("plot__limit", (x, area.top - LINE - 2.0), (x, area.bottom));
        named(svg, area, (x, area.top - LINE - 6.0), words.gauging.limit);
    }
}

/// A name in the middle of what it names, or as near as the picture is wide.
fn named(svg: &mut Svg, area: Area, (x, y): (f64, f64), name: &str) {
    let half = wide(name) / 2.0;
    let x = x.clamp(
        area.left + half,
        (area.right + 14.0 - half).max(area.left + half),
    );
    svg.text("plot__name", (x, y), "middle", name);
}

fn draw(svg: &mut Svg, number: usize, line: &Line, at: impl Fn(f64, usize) -> (f64, f64)) {
    let (mut path, mut going) = (Path::default(), false);
    let read = || line.dots.iter().enumerate();
    for (height, dot) in read() {
        match dot {
            Some(dot) if going => path.to(at(dot.value, height)),
            Some(dot) => path.start(at(dot.value, height)),
            None => {}
        }
        going = dot.is_some();
    }
    svg.path(stroke(number), &path, None);
    for (height, dot) in read() {
        if let Some(dot) = dot {
            whisker(svg, at(dot.low(), height), at(dot.high(), height));
            mark(svg, number, at(dot.value, height));
        }
    }
}

/// Lines take turns between whole and dashed.
fn stroke(number: usize) -> &'static str {
    if number.is_multiple_of(2) {
        "plot__line"
    } else {
        "plot__line plot__line--dashed"
    }
}

fn key(svg: &mut Svg, lines: &[Line], (mut x, y): (f64, f64)) {
    for (number, line) in lines.iter().enumerate() {
        svg.line(stroke(number), (x, y - 4.5), (x + 30.0, y - 4.5));
        mark(svg, number, (x + 15.0, y - 4.5));
        svg.text("plot__name", (x + 38.0, y), "start", &line.name);
        x += 38.0 + wide(&line.name) + 24.0;
    }
}

fn said(
    name: &str,
    lines: &[Line],
    heights: &[String],
    against: &Against,
    unit: Unit,
    words: &Words,
    decimals: usize,
) -> String {
    let numbers = words.numbers;
    let line = |line: &Line| {
        let read = heights.iter().zip(&line.dots);
        let read: Vec<String> = read
            .filter_map(|(height, dot)| {
                Some([height, NBSP, &numbers.fixed((*dot)?.value, decimals)].concat())
            })
            .collect();
        let read = read.join(", ");
        if line.name.is_empty() {
            read
        } else {
            words.names.rating(&line.name, &read)
        }
    };
    let mut said: Vec<String> = lines.iter().map(line).collect();
    said.extend(against.said(words, decimals));
    sentence(name, &size_axis(words, unit), &said)
}
