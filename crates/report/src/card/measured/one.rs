//! One size taken apart: its grid, its readings as typed, its verdicts, and the budgets of its uncertainty.

use ringland_assess::gauging::{
    Source,
    finding::{CONFIDENCE, Figure, Finding, Held, ShapeFigure, finding},
};
use ringland_card::{
    Body, Entry,
    gauging::{Reading, Unit},
    plan::LeafId,
};

use crate::{
    card::{
        DASH, Sheet,
        made::{LINES, line},
    },
    format::{NBSP, TemperatureUnit},
    gauging::Gauger,
    markup::{Cell, Html, Table},
};

/// Celsius degrees and kelvins are as large as each other; expansions are told in millionths.
const MILLIONTHS: f64 = 1e6;

/// What a budget's figures are told in: so many for one in SI units, and the sign.
#[derive(Clone, Copy)]
struct Told {
    per_si: f64,
    sign: &'static str,
}

impl Told {
    fn size(unit: Unit) -> Self {
        Self {
            per_si: unit.of_si(1.0),
            sign: unit.sign(),
        }
    }

    fn percent() -> Self {
        Self {
            per_si: 100.0,
            sign: "%",
        }
    }

    /// What a component is told in.
    fn component(source: Source, unit: Unit) -> Self {
        match source {
            Source::PartTemperature | Source::GaugeTemperature | Source::Temperature => Self {
                per_si: 1.0,
                sign: "K",
            },
            Source::PartExpansion | Source::GaugeExpansion => Self {
                per_si: MILLIONTHS,
                sign: "10⁻⁶/K",
            },
            _ => Self::size(unit),
        }
    }
}

impl Sheet<'_> {
    /// A size taken apart, by its leaf.
    pub(in crate::card) fn size_inside(&self, leaf: usize) -> String {
        let gauger = self.gauger();
        let Some(found) = finding(&self.standing, LeafId(leaf)) else {
            return String::new();
        };
        let unit = gauger.unit_of(&found);
        let mut html = Html::new();
        html.open("div class=\"node__inside measured__one\"");
        self.grid(&mut html, &found, unit);
        self.readings(&mut html, &found);
        self.size_lines(&mut html, &gauger, &found, unit);
        let (g, words) = (&self.words.gauging, self.words);
        self.budget(&mut html, g.size, &found.size, Told::size(unit), unit);
        if let Some(wear) = &found.wear {
            self.budget(&mut html, g.wear_by, wear, Told::size(unit), unit);
        }
        if let Some(share) = &found.share {
            self.budget(&mut html, g.share, share, Told::percent(), unit);
        }
        for note in &found.notes {
            html.el("p class=\"fine\"", &words.gauging_note(*note, unit));
        }
        if let Some(gauging) = &self.gauging {
            let way = [gauging.as_str(), "/", &leaf.to_string()].concat();
            html.with("a class=\"leaf__bench\"", &[("href", &way)])
                .text(words.measured.on_gauging)
                .close("a");
        }
        html.close("div");
        html.done()
    }

    /// A size in a line for each reading, as paper has it.
    pub(super) fn size_brief(&self, html: &mut Html, gauger: &Gauger<'_>, found: &Finding) {
        html.open("p class=\"leaf--brief num\"");
        html.el("b", &gauger.part_name(found.leaf)).text(" ");
        let said: Vec<String> = self
            .reads(found.leaf)
            .into_iter()
            .map(|(entry, reading)| {
                let spot = self.words.spot(&reading.spot);
                let said = self.words.reading_said(reading);
                let said = if reading.as_new {
                    self.words.gauging.entry_new(&said)
                } else {
                    said
                };
                [
                    spot.as_str(),
                    if spot.is_empty() { "" } else { " " },
                    &said,
                    " ",
                    &entry.rater,
                ]
                .concat()
            })
            .collect();
        html.text(&said.join(" · ")).close("p");
    }

    /// The readings of a leaf that hold, in the order in which they were taken.
    fn reads(&self, leaf: LeafId) -> Vec<(&Entry, &Reading)> {
        let readings = self.standing.readings.get(leaf.0);
        let mut reads: Vec<(&Entry, &Reading)> = readings
            .into_iter()
            .flat_map(|readings| readings.values())
            .filter_map(|entry| match &entry.body {
                Body::Reading { reading } => Some((*entry, &**reading)),
                _ => None,
            })
            .collect();
        reads.sort_by_key(|(entry, _)| entry.order());
        reads
    }

    fn grid(&self, html: &mut Html, found: &Finding, unit: Unit) {
        if found.spots.len() < 2 {
            return;
        }
        let (words, g) = (self.words, &self.words.gauging);
        let mut table = Table::new("table--grid", words.measured.grid)
            .wide()
            .words(words.measured.spot)
            .figures(g.size);
        for spot in &found.spots {
            table.rows.push(vec![
                Cell::Words(words.spot(&spot.spot)),
                Cell::Figure(words.numbers.measured(&spot.figure, unit)),
            ]);
        }
        html.table(&table);
    }

    fn readings(&self, html: &mut Html, found: &Finding) {
        let words = self.words;
        for (as_new, caption) in [
            (false, words.measured.readings),
            (true, words.measured.readings_new),
        ] {
            let mut table = Table::new("table--readings", caption)
                .wide()
                .words(words.made.rater)
                .words(words.measured.spot)
                .figures(words.gauging.column_value)
                .words(words.gauging.gauge)
                .figures(words.gauging.warmth)
                .words(words.made.entry_id);
            let reads = self.reads(found.leaf);
            for (entry, reading) in reads.into_iter().filter(|(_, read)| read.as_new == as_new) {
                let gauge = reading.gauge.and_then(|id| self.standing.gauge(id));
                let or_dash = |text: Option<String>| text.unwrap_or_else(|| DASH.to_owned());
                let spot = words.spot(&reading.spot);
                table.rows.push(vec![
                    Cell::Words(entry.rater.clone()),
                    Cell::Words(or_dash((!spot.is_empty()).then_some(spot))),
                    Cell::Figure(words.reading_said(reading)),
                    Cell::Words(or_dash(gauge.map(|gauge| gauge.name.clone()))),
                    Cell::Figure(or_dash(reading.part_c.map(|c| self.warmth(c)))),
                    Cell::Html(self.written(entry)),
                ]);
            }
            if !table.rows.is_empty() {
                html.table(&table);
            }
        }
    }

    /// A temperature in °C, in the reader's unit.
    fn warmth(&self, celsius: f64) -> String {
        let told = self.units.temperature;
        let figure = told.value(TemperatureUnit::Celsius.temperature(celsius));
        [&self.words.numbers.short(figure, 1), NBSP, told.symbol()].concat()
    }

    /// New size, limits with their verdicts, shapes and rates.
    fn size_lines(&self, html: &mut Html, gauger: &Gauger<'_>, found: &Finding, unit: Unit) {
        let g = &self.words.gauging;
        html.open(LINES);
        if let Some(new) = self.as_new(gauger, found) {
            line(html, g.as_new, &new);
        }
        for held in &found.held {
            self.held(html, gauger, found, held, unit);
        }
        for (name, shape) in [
            (g.round_by, &found.out_of_round),
            (g.taper_by, &found.taper),
        ] {
            if let Some(shape) = shape {
                self.shape(html, gauger, name, found, shape, unit);
            }
        }
        for rate in &found.rates {
            line(html, &self.rate_head(rate), &self.rate(rate, unit));
        }
        let gauges = self.gauges(found);
        if !gauges.is_empty() {
            line(html, g.gauge, &gauges.join("; "));
        }
        html.close("dl");
    }

    fn held(&self, html: &mut Html, gauger: &Gauger<'_>, found: &Finding, held: &Held, unit: Unit) {
        let words = self.words;
        line(
            html,
            words.size_field(held.field),
            &self.held_said(gauger, found, held, unit),
        );
    }

    /// A limit, the verdict on it, and how sure that is.
    fn held_said(&self, gauger: &Gauger<'_>, found: &Finding, held: &Held, unit: Unit) -> String {
        let (words, numbers) = (self.words, self.words.numbers);
        let limit = self.limit(gauger, found, held);
        let keeps = numbers.share(held.conformity.probability);
        let verdict = words.gauging_verdict(Some(held.conformity.verdict));
        let mut said = [
            &limit,
            ": ",
            verdict,
            " (",
            &words.gauging.probability(&keeps),
            ")",
        ]
        .concat();
        if let Some(enough) = held.conformity.sufficient_u
            && held.conformity.verdict == ringland_assess::gauging::Verdict::CannotSay
        {
            said.push_str("; ");
            said.push_str(&words.measured.enough(&numbers.uncertain(enough, unit)));
        }
        said
    }

    fn shape(
        &self,
        html: &mut Html,
        gauger: &Gauger<'_>,
        name: &str,
        found: &Finding,
        shape: &ShapeFigure,
        unit: Unit,
    ) {
        let words = self.words;
        let mut said = words.numbers.measured(&shape.figure, unit);
        if let Some(at) = &shape.at {
            said.push_str(", ");
            said.push_str(&words.spot_name(at));
        }
        if let Some(held) = &shape.held {
            said.push_str(". ");
            said.push_str(
                &[
                    words.gauging.limit,
                    " ",
                    &self.held_said(gauger, found, held, unit),
                ]
                .concat(),
            );
        }
        line(html, name, &said);
    }

    /// The gauges of a size, each with what is known of it.
    fn gauges(&self, found: &Finding) -> Vec<String> {
        let mut said: Vec<String> = Vec::new();
        for (_, reading) in self.reads(found.leaf) {
            let gauge = reading.gauge.and_then(|id| self.standing.gauge(id));
            let Some(gauge) = gauge else { continue };
            let one = self.words.gauge_said(gauge, self.offset_minutes);
            if !said.contains(&one) {
                said.push(one);
            }
        }
        said
    }

    /// What the uncertainty of a figure is made of, line by line, told in the figure's own unit.
    fn budget(&self, html: &mut Html, name: &str, figure: &Figure, told: Told, unit: Unit) {
        let (g, m, numbers) = (
            &self.words.gauging,
            &self.words.measured,
            self.words.numbers,
        );
        if figure.budget.rows.is_empty() {
            return;
        }
        let caption = [name, ": ", g.budget].concat();
        let mut table = Table::new("table--budget", caption)
            .wide()
            .words(g.component)
            .figures(g.standard_u)
            .figures(g.sensitivity)
            .figures(&m.unit_of_contribution(told.sign))
            .figures(g.dof)
            .figures(m.share_of_u);
        for row in &figure.budget.rows {
            let component = &row.component;
            let own = Told::component(component.label, unit);
            let sensitivity = component.sensitivity * told.per_si / own.per_si;
            let u = numbers.digits(component.standard.u * own.per_si, 2);
            table.rows.push(vec![
                Cell::Words(self.words.uncertainty_source(component.label)),
                Cell::Figure([&u, NBSP, own.sign].concat()),
                Cell::Figure(numbers.digits(sensitivity, 4)),
                Cell::Figure(numbers.digits(row.contribution * told.per_si, 2)),
                Cell::Figure(self.dof(component.standard.dof.get())),
                Cell::Figure(numbers.share(row.share)),
            ]);
        }
        html.table(&table);
        html.open(LINES);
        let with_sign = |figure: f64| {
            let figure = numbers.digits(figure * told.per_si, 2);
            [&figure, NBSP, told.sign].concat()
        };
        line(html, m.combined, &with_sign(figure.budget.u));
        if let Some(dof) = figure.budget.dof {
            line(html, m.effective, &self.dof(dof.get()));
        }
        if let Ok(Some(expanded)) = figure.budget.expanded(CONFIDENCE) {
            line(html, m.factor, &numbers.fixed(expanded.factor, 2));
            line(html, g.expanded_95, &with_sign(expanded.uncertainty));
        }
        html.close("dl");
    }

    /// Degrees of freedom; those without an end are ∞.
    fn dof(&self, dof: f64) -> String {
        if dof.is_finite() {
            self.words.numbers.short(dof, 1)
        } else {
            "∞".to_owned()
        }
    }
}
