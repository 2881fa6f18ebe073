//! Wear against distance: this engine beside others, the curve through all of them, and what it leaves open.

use ringland_assess::gauging::{
    Basis, Remaining,
    finding::CONFIDENCE,
    forecast::{Curves, Forecast, LastReading, Question, Unit, against_others, forecast},
    over_run::{KindId, StandsFor, StripDown, one_way, units},
};
use ringland_card::gauging;
use ringland_stats::{
    confidence::Interval,
    regression::{Curve, Intercept, Why},
};

use super::{Gauger, Kind};
use crate::{
    markup::Html,
    plot::{CurvePoint, WearOverRun, curve, wear_over_run},
    words::OverRun,
};

/// What is asked of the engines.
#[derive(Clone, Copy, Debug)]
pub struct Beside<'a> {
    /// The other engines, as they were stripped.
    pub others: &'a [StripDown],
    /// Whether engines of other models count too.
    pub every_model: bool,
    /// Which figure stands for an engine.
    pub stands_for: StandsFor,
    /// Where wear begins.
    pub intercept: Intercept,
}

impl Gauger<'_> {
    /// The wear of a kind against distance, this engine beside others: the plot, the curve and why it was taken,
    /// the run to the limit, and what does not fit. Nothing to who measures blind.
    pub fn over_run(&self, kind: Kind, beside: &Beside<'_>) -> String {
        let words = &self.words.over_run;
        if self.blind {
            return String::new();
        }
        let Some(id) = one_way(self.standing, kind.first) else {
            return crate::card::line(words.either_way);
        };
        let here = StripDown::of_kind(self.standing, &id);
        let others = beside.others.iter();
        let others = others.filter(|strip| beside.every_model || strip.same_model(&here));
        let asked: Vec<&StripDown> = std::iter::once(&here).chain(others).collect();
        let mut found = units(&asked, &id, beside.stands_for);
        for unit in found.iter_mut().filter(|unit| unit.name.is_empty()) {
            self.words.shelf.nameless.clone_into(&mut unit.name);
        }
        let strips: usize = found.iter().map(|unit| unit.distance.len()).sum();
        if strips == 0 {
            return crate::card::line(words.nothing);
        }
        let question = Question {
            intercept: beside.intercept,
            confidence: CONFIDENCE,
            limit: allowance(&here, &id),
        };
        let Ok(said) = forecast(&found, &question) else {
            return crate::card::line(words.no_curve);
        };
        let told = Told {
            gauger: self,
            words,
            unit: self.unit(kind),
            units: &found,
            question,
            forecast: &said,
        };
        told.html(asked.len() - strips, is_known(&here, &id))
    }
}

/// The least wear allowance of the engine at hand.
fn allowance(here: &StripDown, kind: &KindId) -> Option<f64> {
    here.kinds.iter().find(|worn| worn.kind == *kind)?.allowance
}

/// Whether the engine at hand is among those drawn; then it is the first.
fn is_known(here: &StripDown, kind: &KindId) -> bool {
    here.distance.is_some() && here.kinds.iter().any(|worn| worn.kind == *kind)
}

/// What the engines say, on its way to the page.
struct Told<'a> {
    gauger: &'a Gauger<'a>,
    words: &'static OverRun,
    unit: gauging::Unit,
    units: &'a [Unit],
    question: Question,
    forecast: &'a Forecast,
}

impl Told<'_> {
    fn html(&self, left_out: usize, with_this: bool) -> String {
        let words = self.words;
        let strips: usize = self.units.iter().map(|unit| unit.distance.len()).sum();
        let mut html = Html::new();
        let count = words.count(self.units.len(), &words.strips(strips));
        html.el("p class=\"num\"", &count);
        if let Some(plot) = self.plot() {
            html.open("figure class=\"over-run__plot\"");
            html.markup(&plot).close("figure");
        }
        html.open("ul class=\"over-run__says\"");
        for line in self.lines(with_this) {
            html.el("li", &line);
        }
        html.close("ul");
        if left_out > 0 {
            html.el("p class=\"fine\"", &words.left_out(left_out));
        }
        html.el("p class=\"fine\"", words.assumes);
        html.done()
    }

    /// The curves through everything: the pooled ones, or those of the only unit.
    fn curves(&self) -> Option<&Curves> {
        let pooled = self.forecast.pooled.as_ref().map(|pooled| &pooled.curves);
        pooled.or_else(|| Some(&self.forecast.units.first()?.curves))
    }

    /// The plot in the units of the page: wear as the kind is read, distances in thousands.
    fn plot(&self) -> Option<String> {
        let numbers = self.gauger.words.numbers;
        let run = self.gauger.units.distance;
        let distance = |metres: f64| metres / run.length(1_000.0).value;
        let wear = |si: f64| self.unit.of_si(si);
        let units: Vec<Unit> = self
            .units
            .iter()
            .map(|unit| Unit {
                name: unit.name.clone(),
                distance: unit.distance.iter().map(|at| distance(*at)).collect(),
                wear: unit.wear.iter().map(|at| wear(*at)).collect(),
            })
            .collect();
        let points: Vec<CurvePoint> = curve(self.forecast, &self.question)
            .into_iter()
            .map(|point| CurvePoint {
                distance: distance(point.distance),
                wear: wear(point.wear),
                band: point.band.map(|(low, high)| (wear(low), wear(high))),
            })
            .collect();
        let distance_unit = [&numbers.fixed(1_000.0, 0), "\u{a0}", run.symbol()].concat();
        let drawn = WearOverRun {
            units: &units,
            curve: &points,
            limit: self.question.limit.map(wear),
            distance_unit: &distance_unit,
            wear_unit: self.unit.sign(),
        };
        wear_over_run(&drawn, self.gauger.words)
    }

    fn lines(&self, with_this: bool) -> Vec<String> {
        let words = self.words;
        let mut lines = Vec::new();
        let readings: usize = self.units.iter().map(|unit| unit.distance.len()).sum();
        match self.taken() {
            Some(taken) => lines.push(taken),
            None if readings == 1 => lines.push(words.one_only.to_owned()),
            None => lines.push(words.no_curve.to_owned()),
        }
        lines.extend(self.pace());
        match self.question.limit {
            Some(limit) => lines.extend(self.whole(limit)),
            None => lines.push(words.no_limit.to_owned()),
        }
        if with_this && self.units.len() > 1 {
            lines.extend(self.beside_others());
        }
        lines.extend(self.forecast.units.iter().filter_map(|unit| {
            let last = unit.last_reading.filter(|last| !last.agrees())?;
            let (wear, range) = self.held(&last);
            Some(words.last_apart(&unit.name, &wear, &range))
        }));
        let differ = self.forecast.pooled.as_ref();
        if differ.and_then(|pooled| pooled.units.differ(CONFIDENCE)) == Some(true) {
            lines.push(words.differ.to_owned());
        }
        lines
    }

    /// Which curve was taken, and why.
    fn taken(&self) -> Option<String> {
        let (words, numbers) = (self.words, self.gauger.words.numbers);
        let choice = self.curves()?.choice.as_ref()?;
        let name = match choice.curve {
            Curve::Line => words.line,
            Curve::PowerLaw => words.power,
        };
        let why = match choice.why {
            Why::Better { by } => words.why_better(&numbers.fixed(by, 1)),
            Why::AsGoodAndSimpler { .. } => words.why_simpler.to_owned(),
            Why::TooFewToTell { got, least } => words.why_few(got, least),
            Why::NoPowerLaw(_) => words.why_no_power.to_owned(),
        };
        let name = crate::words::lowered(name);
        Some(words.taken(&name, &why))
    }

    /// How fast the curve goes: the slope of a line, the exponent of a power law.
    fn pace(&self) -> Option<String> {
        let (words, numbers) = (self.gauger.words, self.gauger.words.numbers);
        let curves = self.curves()?;
        match (
            curves.choice.as_ref()?.curve,
            &curves.line,
            &curves.power_law,
        ) {
            (Curve::Line, Ok(line), _) => {
                let Interval { low, high } = line.slope_interval(CONFIDENCE).ok()?;
                let (per, said) = numbers.rate_basis(Basis::Distance, self.gauger.units);
                let rate = numbers.sized(line.slope * per, (high - low) / 2.0 * per, self.unit);
                let what = words.per(words.gauging.rate, Basis::Distance, &said);
                Some([&what, ": ", &rate].concat())
            }
            (Curve::PowerLaw, _, Ok(power)) => {
                let Interval { low, high } = power.exponent_interval(CONFIDENCE).ok()?;
                let [figure, low, high] =
                    [power.exponent, low, high].map(|figure| numbers.digits(figure, 2));
                let range = words.common.range(&low, &high);
                Some(self.words.exponent(&figure, &range))
            }
            _ => None,
        }
    }

    /// The whole run of a new part until the limit, by the curve.
    fn whole(&self, limit: f64) -> Option<String> {
        let (words, numbers) = (self.words, self.gauger.words.numbers);
        let run = |amount: f64| numbers.run(amount, Basis::Distance, self.gauger.units);
        let remaining = match &self.forecast.pooled {
            Some(pooled) => pooled.remaining?,
            // From its last reading on: the run before it is what it had.
            None => self.counted_from_new(self.forecast.units.first()?.remaining?),
        };
        let said = match remaining {
            Remaining::Between {
                estimate,
                low,
                high,
            } => {
                let range = self.gauger.words.common.range(&run(low), &run(high));
                let said = [&run(estimate), " (", &range, ")"].concat();
                let units = self.forecast.units.iter();
                let furthest = units.map(|unit| unit.last_distance).fold(0.0, f64::max);
                if estimate > furthest {
                    words.whole_far(&said, &run(furthest))
                } else {
                    said
                }
            }
            Remaining::AtLeast { low } => words.whole_at_least(&run(low)),
            Remaining::NotReached => words.whole_none.to_owned(),
            Remaining::AlreadyBeyond { .. } => return None,
        };
        Some(words.whole(&self.wear(limit, limit / 100.0), &said))
    }

    /// What was left after the only engine's last reading, counted from new.
    fn counted_from_new(&self, left: Remaining) -> Remaining {
        let run = self.forecast.units.first();
        let run = run.map_or(0.0, |unit| unit.last_distance);
        match left {
            Remaining::Between {
                estimate,
                low,
                high,
            } => Remaining::Between {
                estimate: estimate + run,
                low: low + run,
                high: high + run,
            },
            Remaining::AtLeast { low } => Remaining::AtLeast { low: low + run },
            other => other,
        }
    }

    /// This engine, held against what the others foretell.
    fn beside_others(&self) -> Option<String> {
        let last = against_others(self.units, 0, &self.question).ok()??;
        let (wear, range) = self.held(&last);
        Some(if last.agrees() {
            self.words.others_agree(&wear, &range)
        } else if last.wear > last.expected {
            self.words.others_more(&wear, &range)
        } else {
            self.words.others_less(&wear, &range)
        })
    }

    /// A reading and between which it was to be expected.
    fn held(&self, last: &LastReading) -> (String, String) {
        let Interval { low, high } = last.interval;
        let half = (high - low) / 2.0;
        let [wear, low, high] = [last.wear, low, high].map(|figure| self.wear(figure, half));
        (wear, self.gauger.words.common.range(&low, &high))
    }

    fn wear(&self, si: f64, known_to: f64) -> String {
        let numbers = self.gauger.words.numbers;
        numbers.sized_plain(si, known_to, self.unit)
    }
}
