//! Sizes of one kind along the engine: a dot with its uncertainty for each position, front to rear.

use ringland_assess::gauging::finding::{Finding, NewFrom};
use ringland_card::gauging::Unit;

use super::frame::{
    Against, Area, Dot, LINE, Scale, fine, mark, range, sentence, size_axis, whisker, whole, wide,
};
use crate::{format::NBSP, svg::Svg, words::Words};

/// The height of the plot itself, and the least width of a column.
const HEIGHT: f64 = 190.0;
const COLUMN: f64 = 38.0;
/// Room for the figures at the left.
const LEFT: f64 = 74.0;
/// The steps of the axis of sizes, at most.
const STEPS: u8 = 6;

/// One position of a row.
#[derive(Clone, Debug)]
pub struct Along<'a> {
    /// The head of its column.
    pub head: String,
    /// What was read there.
    pub finding: Option<&'a Finding>,
}

/// The sizes of one row, each with its expanded uncertainty, beside the new range and the limits; a part that
/// was read new has a mark of its own. Nothing where nothing was read.
pub fn along(name: &str, row: &[Along<'_>], unit: Unit, words: &Words) -> Option<String> {
    let found = || row.iter().filter_map(|at| at.finding);
    let against = against(row, unit);
    let new: Vec<Option<f64>> = row.iter().map(|at| read_new(at.finding?, unit)).collect();
    let ends = found().flat_map(|finding| {
        let dot = Dot::of(&finding.size, unit);
        [dot.low(), dot.high()]
    });
    found().next()?;
    let figures = ends
        .chain(against.values())
        .chain(new.iter().flatten().copied());
    let range = range(figures)?;

    let column = row
        .iter()
        .map(|at| wide(&at.head) + 10.0)
        .fold(COLUMN, f64::max);
    let right = wide(words.gauging.as_new).max(wide(words.gauging.limit)) + 12.0;
    let area = Area {
        left: LEFT,
        top: LINE * 1.6,
        right: LEFT + (column * row.len() as f64).max(240.0),
        bottom: LINE * 1.6 + HEIGHT,
    };
    let column = (area.right - area.left) / row.len() as f64;
    let scale = Scale::new(range, (area.bottom, area.top));
    let ticks = scale.ticks(STEPS);
    let said = said(name, row, &against, unit, words, fine(&ticks));
    let size = (whole(area.right + right), whole(area.bottom + LINE * 1.6));
    let mut svg = Svg::sized(size.0, size.1, "picture picture--plot", &said);
    area.y_axis(&mut svg, scale, &ticks, words);
    let last_new = new.iter().rev().find_map(|new| *new);
    area.against_across(&mut svg, scale, &against, last_new, words);
    area.edge(&mut svg);
    svg.text(
        "plot__name",
        (6.0, LINE - 2.0),
        "start",
        &size_axis(words, unit),
    );
    for (number, at) in row.iter().enumerate() {
        let x = area.left + column * (number as f64 + 0.5);
        svg.text("plot__name", (x, area.bottom + LINE), "middle", &at.head);
        if let Some(new) = new[number] {
            let y = scale.at(new);
            svg.line("plot__was", (x - 11.0, y), (x + 11.0, y));
        }
        if let Some(finding) = at.finding {
            let dot = Dot::of(&finding.size, unit);
            whisker(
                &mut svg,
                (x, scale.at(dot.low())),
                (x, scale.at(dot.high())),
            );
            mark(&mut svg, 0, (x, scale.at(dot.value)));
        }
    }
    Some(svg.close())
}

/// What the row is held against: one row of the size sheet.
fn against(row: &[Along<'_>], unit: Unit) -> Against {
    let found = || row.iter().filter_map(|at| at.finding);
    let all = found().map(|finding| Against::of(finding, unit));
    let limits = all.clone().map(|against| against.limits);
    let ranged = found().find(|finding| read_new(finding, unit).is_none());
    Against {
        new: ranged.and_then(|finding| Against::of(finding, unit).new),
        limits: limits.max_by_key(Vec::len).unwrap_or_default(),
    }
}

/// The size as it was read before it ran.
fn read_new(finding: &Finding, unit: Unit) -> Option<f64> {
    let new = finding.new?;
    matches!(new.from, NewFrom::Measured).then(|| unit.of_si(new.si))
}

fn said(
    name: &str,
    row: &[Along<'_>],
    against: &Against,
    unit: Unit,
    words: &Words,
    decimals: usize,
) -> String {
    let numbers = words.numbers;
    let one = |at: &Along<'_>| {
        let dot = Dot::of(&at.finding?.size, unit);
        let figure = numbers.fixed(dot.value, decimals);
        let half = numbers.fixed(dot.half, decimals);
        let figure = [&figure, NBSP, "±", NBSP, &half].concat();
        Some(words.names.rating(&at.head, &figure))
    };
    let mut said: Vec<String> = row.iter().filter_map(one).collect();
    said.extend(against.said(words, decimals));
    sentence(name, &size_axis(words, unit), &said)
}
