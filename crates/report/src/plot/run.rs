//! Wear against distance: the readings of several engines, the curve through them, and where the next reading
//! is to be expected.

use ringland_assess::gauging::forecast::{Curves, Forecast, Question, Unit};
use ringland_stats::{confidence::Interval, regression::Curve};

use super::frame::{Against, Area, LINE, Scale, axis, cut, fine, mark, range, sentence, whole};
use crate::{
    format::NBSP,
    svg::{Path, Svg},
    words::Words,
};

/// The size of the plot itself, and what lies left of it.
const WIDTH: f64 = 460.0;
const HEIGHT: f64 = 230.0;
const LEFT: f64 = 74.0;
/// The steps of the axes, at most.
const STEPS: u8 = 6;
/// Points along the curve.
const POINTS: u8 = 60;
/// How far beyond the furthest reading the plot may go to show where the limit is reached.
const FURTHEST: f64 = 2.0;
/// How many units are named in the key, and with how many characters at most.
const NAMED: usize = 12;
const LONGEST: usize = 26;

/// A point of a curve with its prediction band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// The distance.
    pub distance: f64,
    /// The wear that the curve has there.
    pub wear: f64,
    /// Between which values a reading there is to be expected; none where it cannot be told.
    pub band: Option<(f64, f64)>,
}

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct WearOverRun<'a> {
    /// The readings, by engine or part.
    pub units: &'a [Unit],
    /// The curve through all of them; empty where there is none.
    pub curve: &'a [CurvePoint],
    /// The wear limit.
    pub limit: Option<f64>,
    /// The sign of the unit of distance.
    pub distance_unit: &'a str,
    /// The sign of the unit of wear.
    pub wear_unit: &'a str,
}

/// The curve of a forecast with its band, from nothing to past the furthest reading, as far as the limit where
/// that is not too far: the pooled one, or that of the only unit. Empty where none was taken.
pub fn curve(forecast: &Forecast, question: &Question) -> Vec<CurvePoint> {
    let alone = forecast.units.first().map(|unit| &unit.curves);
    let curves = forecast
        .pooled
        .as_ref()
        .map(|pooled| &pooled.curves)
        .or(alone);
    let furthest = forecast.units.iter().map(|unit| unit.last_distance);
    let furthest = furthest.fold(0.0, f64::max);
    curves.map_or_else(Vec::new, |curves| sampled(curves, furthest, question))
}

fn sampled(curves: &Curves, furthest: f64, question: &Question) -> Vec<CurvePoint> {
    let Some(taken) = curves.choice.as_ref().map(|choice| choice.curve) else {
        return Vec::new();
    };
    let reaches = question
        .limit
        .and_then(|limit| match (taken, &curves.line, &curves.power_law) {
            (Curve::Line, Ok(line), _) => line.reaches(limit),
            (Curve::PowerLaw, _, Ok(power)) => power.reaches(limit),
            _ => None,
        });
    let shown = reaches
        .filter(|at| *at <= FURTHEST * furthest)
        .unwrap_or(0.0);
    let end = furthest.max(shown) * 1.05;
    let point = |number: u8| {
        let distance = end * f64::from(number) / f64::from(POINTS);
        let (wear, band) = match (taken, &curves.line, &curves.power_law) {
            (Curve::Line, Ok(line), _) => (
                line.at(distance),
                line.prediction(distance, question.confidence),
            ),
            (Curve::PowerLaw, _, Ok(power)) => (
                power.at(distance),
                power.prediction(distance, question.confidence),
            ),
            _ => return None,
        };
        let band = band.ok().map(|Interval { low, high }| (low, high));
        Some(CurvePoint {
            distance,
            wear,
            band: band.filter(|(low, high)| low.is_finite() && high.is_finite()),
        })
    };
    (0..=POINTS)
        .filter_map(point)
        .filter(|point| point.wear.is_finite())
        .collect()
}

/// Every reading with the mark of its engine, the curve with its band, and the limit; nothing where nothing
/// was read.
pub fn wear_over_run(of: &WearOverRun<'_>, words: &Words) -> Option<String> {
    let readings = || of.units.iter().flat_map(readings_of);
    readings().next()?;
    let limit = of.limit.into_iter();
    let ends = of.curve.iter().flat_map(|point| [point.distance, 0.0]);
    let (_, far) = range(readings().map(|(distance, _)| distance).chain(ends))?;
    let height = range(
        readings()
            .map(|(_, wear)| wear)
            .chain(limit.clone())
            .chain([0.0]),
    )?;
    let area = Area {
        left: LEFT,
        top: LINE * 1.6,
        right: LEFT + WIDTH,
        bottom: LINE * 1.6 + HEIGHT,
    };
    let (x, y) = (
        Scale::new((0.0, far), (area.left, area.right)),
        Scale::new(height, (area.bottom, area.top)),
    );
    let (x_ticks, y_ticks) = (x.ticks(STEPS), y.ticks(STEPS));
    let rows = of.units.len().min(NAMED).div_ceil(2) + usize::from(of.units.len() > NAMED);
    let banded = of.curve.iter().any(|point| point.band.is_some());
    let lines = rows + usize::from(banded);
    let bottom = area.bottom + LINE * (2.8 + 1.3 * lines as f64);
    let said = said(of, words, (x_ticks.decimals, fine(&y_ticks)));
    let size = (whole(area.right + 70.0), whole(bottom));
    let mut svg = Svg::sized(size.0, size.1, "picture picture--plot", &said);
    let at = |(distance, wear): (f64, f64)| (x.at(distance), y.at(wear));
    band(&mut svg, of.curve, at);
    let against = Against {
        new: None,
        limits: limit.collect(),
    };
    area.x_axis(&mut svg, x, &x_ticks, words);
    area.y_axis(&mut svg, y, &y_ticks, words);
    area.against_across(&mut svg, y, &against, None, words);
    area.edge(&mut svg);
    drawn(&mut svg, of.curve, at);
    for (number, unit) in of.units.iter().enumerate() {
        for reading in readings_of(unit) {
            mark(&mut svg, number, at(reading));
        }
    }
    let (wear, distance) = axes(of, words);
    svg.text("plot__name", (6.0, LINE - 2.0), "start", &wear);
    let middle = f64::midpoint(area.left, area.right);
    svg.text(
        "plot__name",
        (middle, area.bottom + LINE * 2.2),
        "middle",
        &distance,
    );
    key(
        &mut svg,
        of.units,
        (area.left, area.bottom + LINE * 3.6),
        words,
    );
    if banded {
        let y = area.bottom + LINE * (3.6 + 1.3 * rows as f64);
        svg.rect("plot__band", (area.left, y - 11.0), (24.0, 13.0));
        let name = words.measured.plot_band;
        svg.text("plot__name", (area.left + 32.0, y), "start", name);
    }
    Some(svg.close())
}

fn readings_of(unit: &Unit) -> impl Iterator<Item = (f64, f64)> {
    let all = unit.distance.iter().copied().zip(unit.wear.iter().copied());
    all.filter(|(distance, wear)| distance.is_finite() && wear.is_finite())
}

fn axes(of: &WearOverRun<'_>, words: &Words) -> (String, String) {
    (
        axis(words.gauging.wear_by, of.wear_unit),
        axis(words.facts.distance, of.distance_unit),
    )
}

/// The prediction band: along its upper edge and back along the lower.
fn band(svg: &mut Svg, curve: &[CurvePoint], at: impl Fn((f64, f64)) -> (f64, f64)) {
    let edges: Vec<(f64, (f64, f64))> = curve
        .iter()
        .filter_map(|point| Some((point.distance, point.band?)))
        .collect();
    let upper = edges.iter().map(|(distance, (_, high))| (*distance, *high));
    let lower = edges
        .iter()
        .rev()
        .map(|(distance, (low, _))| (*distance, *low));
    let mut path = Path::default();
    for (number, point) in upper.chain(lower).enumerate() {
        if number == 0 {
            path.start(at(point));
        } else {
            path.to(at(point));
        }
    }
    if edges.len() > 1 {
        path.close();
        svg.path("plot__band", &path, None);
    }
}

fn drawn(svg: &mut Svg, curve: &[CurvePoint], at: impl Fn((f64, f64)) -> (f64, f64)) {
    let mut path = Path::default();
    for (number, point) in curve.iter().enumerate() {
        let here = at((point.distance, point.wear));
        if number == 0 {
            path.start(here);
        } else {
            path.to(here);
        }
    }
    svg.path("plot__line", &path, None);
}

/// The mark of each engine with its name, two in a row.
fn key(svg: &mut Svg, units: &[Unit], (left, top): (f64, f64), words: &Words) {
    for (number, unit) in units.iter().take(NAMED).enumerate() {
        let x = left + WIDTH / 2.0 * (number % 2) as f64;
        let y = top + LINE * 1.3 * (number / 2) as f64;
        mark(svg, number, (x + 6.0, y - 4.5));
        svg.text(
            "plot__name",
            (x + 18.0, y),
            "start",
            &cut(&unit.name, LONGEST),
        );
    }
    if units.len() > NAMED {
        let y = top + LINE * 1.3 * NAMED.div_ceil(2) as f64;
        let more = words.card.n_more(units.len() - NAMED);
        svg.text("plot__name", (left, y), "start", &more);
    }
}

fn said(of: &WearOverRun<'_>, words: &Words, (x_decimals, y_decimals): (usize, usize)) -> String {
    let (numbers, measured) = (words.numbers, &words.measured);
    let amount = |value: f64, decimals: usize, unit: &str| {
        [&numbers.fixed(value, decimals), NBSP, unit].concat()
    };
    let wear = |value: f64| amount(value, y_decimals, of.wear_unit);
    let unit = |unit: &Unit| {
        let furthest = readings_of(unit).max_by(|a, b| a.0.total_cmp(&b.0))?;
        let at = amount(furthest.0, x_decimals, of.distance_unit);
        let readings = readings_of(unit).count();
        Some(measured.plot_unit(&unit.name, readings, &wear(furthest.1), &at))
    };
    let mut said: Vec<String> = of.units.iter().filter_map(unit).collect();
    if let Some(CurvePoint {
        distance,
        band: Some((low, high)),
        ..
    }) = of.curve.last()
    {
        let range = words.common.range(&wear(*low), &wear(*high));
        said.push(measured.plot_expected(&range, &amount(*distance, x_decimals, of.distance_unit)));
    }
    said.extend(of.limit.map(|limit| measured.plot_limit(&wear(limit))));
    sentence(words.gauging.over_distance, &axes(of, words).0, &said)
}
